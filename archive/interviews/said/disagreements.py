"""Where narrators tell different figures of one matter, and which figures lie far from their like. Pure."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from statistics import mean, median

from archive.interviews.said.keywords import Rarity
from archive.interviews.said.spoken import Spoken

# A matter that more lines than this speak of is too wide for one event, price or rate.
_MOST_LINES = 40
_LEAST_SHARED = 2
# Two lines speak of one matter when what they share is rarer than one line's worth of chance.
_LEAST_WEIGHT = 1.2
_NEAR = 0.05
# "Years apart" of one event are few; years further apart are those of two events.
_SAME_EVENT = 12
_SAME_SCALE = 4.0
_LEAST_ALIKE = 6
_FAR = 3.5
_MAD_TO_DEVIATION, _MEAN_TO_DEVIATION = 0.6745, 0.7979
_ON_A_SCALE = ("date", "age", "temperature")


@dataclass(frozen=True)
class Account:
    """A figure that a narrator told: whose it is, and the keys of what it is about (roots of words, and ties)."""

    number: int
    figure: Spoken
    narrator: int
    about: frozenset[str]
    matters: frozenset[str] = frozenset()
    counted: str = ""

    @property
    def comparable(self) -> tuple[str, str] | None:
        """Its kind and family of unit, or the things it counts; None for a bare number, which compares with nothing."""
        family = self.figure.basic[2] or self.counted
        return (self.figure.kind, family) if family else None


@dataclass(frozen=True)
class Disagreement:
    """Accounts of one matter that cannot all be right, one of each narrator, in order, and the keys they share."""

    accounts: tuple[Account, ...]
    shared: tuple[str, ...]
    weight: float


@dataclass(frozen=True)
class Outlier:
    """An account far from the others of its kind on one matter, with the one in their middle and how many they are."""

    account: Account
    matter: str
    middle: Account
    of: int


def disagreements(accounts: Sequence[Account], rarity: Rarity) -> list[Disagreement]:
    """The disagreements, those that share most first; what one narrator says twice stands in one at most."""
    found: list[Disagreement] = []
    taken: set[tuple[int, float, float, str]] = set()
    for weight, one, other, shared in sorted(_pairs(accounts, rarity), key=lambda pair: (-pair[0], pair[1].number)):
        values = {(each.narrator, *each.figure.basic) for each in (one, other)}
        if taken.isdisjoint(values):
            found.append(Disagreement((one, other), shared, weight))
        taken |= values
    return found


def _pairs(accounts: Sequence[Account], rarity: Rarity) -> Iterable[tuple[float, Account, Account, tuple[str, ...]]]:
    """Every two accounts of two narrators on one matter that do not agree."""
    shelves: dict[tuple[tuple[str, str], str], list[Account]] = defaultdict(list)
    for account in accounts:
        for key in account.about:
            if account.comparable and 1 < rarity.held(key) <= _MOST_LINES:
                shelves[account.comparable, key].append(account)
    seen: set[tuple[int, int]] = set()
    least = _LEAST_WEIGHT * math.log(rarity.lines + 1)
    for shelf in shelves.values():
        for one, other in combinations(shelf, 2):
            pair = (one.number, other.number)
            if one.narrator == other.narrator or pair in seen:
                continue
            seen.add(pair)
            shared = tuple(sorted(one.about & other.about, key=lambda key: (-rarity.weight(key), key)))
            weight = sum(rarity.weight(key) for key in shared)
            if len(shared) >= _LEAST_SHARED and weight >= least and differ(one.figure, other.figure):
                yield weight, one, other, shared


def differ(one: Spoken, other: Spoken) -> bool:
    """Whether two figures of one kind contradict each other, though they may be of the same thing."""
    low, high, _family = one.basic
    least, most, _family = other.basic
    gap = max(low, least) - min(high, most)
    if gap <= 0:
        return False
    if one.kind == "date":
        return gap <= _SAME_EVENT and _narrow(one) and _narrow(other)
    larger = max(abs(value) for value in (low, high, least, most) if not math.isinf(value))
    smaller = min(abs(value) for value in (low, high, least, most) if not math.isinf(value))
    return gap > _NEAR * larger and larger <= _SAME_SCALE * smaller


def _narrow(date: Spoken) -> bool:
    """Whether a date tells of an event rather than of a life at work."""
    return date.high - date.low <= 1


def outliers(accounts: Sequence[Account]) -> list[Outlier]:
    """Accounts far from the median of their kind and matter, by the median absolute deviation.

    The modified z-score of Iglewicz and Hoaglin (1993), How to Detect and Handle Outliers: 0.6745 (x - median) / MAD
    beyond 3.5. Where more than half are the same, the mean absolute deviation stands for the MAD.
    """
    shelves: dict[tuple[tuple[str, str], str], list[Account]] = defaultdict(list)
    for account in accounts:
        alike = account.comparable
        for matter in _matters_of(account) if alike else ():
            shelves[alike or ("", ""), matter].append(account)
    found: dict[tuple[int, float, float, str], Outlier] = {}
    for (_comparable, matter), shelf in sorted(shelves.items(), key=lambda item: -len(item[1])):
        if len(shelf) >= _LEAST_ALIKE:
            for account, middle in _far(shelf):
                value = (account.narrator, *account.figure.basic)
                found.setdefault(value, Outlier(account, matter, middle, len(shelf)))
    return sorted(found.values(), key=lambda one: one.account.number)


def _matters_of(account: Account) -> Iterable[str]:
    """What a figure may be compared on: at one place, spans of time are those of all sorts of deeds."""
    if account.figure.kind != "duration":
        return account.matters
    return [matter for matter in account.matters if not matter.startswith(("station:", "object:"))]


def _far(shelf: Sequence[Account]) -> Iterable[tuple[Account, Account]]:
    values = [_on_scale(account.figure) for account in shelf]
    middle = median(values)
    away = [abs(value - middle) for value in values]
    spread = median(away) / _MAD_TO_DEVIATION or mean(away) / _MEAN_TO_DEVIATION
    if not spread:
        return
    typical = min(zip(away, range(len(shelf)), shelf, strict=True))[2]
    for account, distance in zip(shelf, away, strict=True):
        if distance / spread > _FAR:
            yield account, typical


def _on_scale(figure: Spoken) -> float:
    """A value to be compared: sums and rates by their ratios, years and temperatures as they are."""
    low, high, _family = figure.basic
    value = low if math.isinf(high) else high if math.isinf(low) else (low + high) / 2
    return value if figure.kind in _ON_A_SCALE or value <= 0 else math.log10(value)
