"""When nothing fits: the smallest set of wishes that cannot be had together, and the changes that would help.

A wish is taken out one at a time; where nothing fits still, it is not needed for the conflict and stays out. What is
left is a set of which every part is needed. It is told whether a smaller set was looked for and not found.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from archive.tours.planning.problem import Problem
from archive.tours.planning.solving import fits, solve
from archive.tours.wishes import MINUTES_MOST, Wishes
from archive.values.counting import counted

Build = Callable[[Wishes], Problem]

_LONGER = (5, 10, 15, 20, 30, 45, 60, 90, 120)
# Pairs are looked through only while they are few.
_MOST_PAIRED = 12
_HELP_SECONDS = 2.0


@dataclass(frozen=True)
class Wish:
    """One wish that could be given up: its field, what it says, and the wishes without it."""

    field: str
    says: str
    without: Callable[[Wishes], Wishes]


@dataclass(frozen=True)
class Help:
    """A change that lets a tour be planned: in words, what is then told, and the wishes with it."""

    says: str
    gain: str
    wishes: Wishes


@dataclass(frozen=True)
class Conflict:
    """Wishes that cannot be had together; `minimum` where no smaller set is in conflict. `helps` are single changes."""

    wishes: tuple[tuple[str, str], ...]
    minimum: bool
    helps: tuple[Help, ...]

    def as_data(self) -> dict[str, Any]:
        """For JSON."""
        return {
            "conflict": [{"wish": field, "says": says} for field, says in self.wishes],
            "minimum": self.minimum,
            "helps": [{"says": one.says, "gain": one.gain, "wishes": one.wishes.as_data()} for one in self.helps],
        }


def conflict_of(
    wishes: Wishes, build: Build, names: Mapping[str, str], *, stop: Callable[[], bool] | None = None
) -> Conflict:
    """The conflict of wishes that nothing fits, and what would help. `names` are of stations and tellings, by ref."""
    given = list(_given(wishes, names))
    asked = stop or (lambda: False)
    needed = list(given)
    for one in given:
        rest = [other for other in needed if other is not one]
        if not asked() and not _fits_with(wishes, given, rest, build):
            needed = rest
    facts = {clash.wish: clash.says for clash in build(wishes).clashes}
    told = tuple((one.field, facts.get(one.field, one.says)) for one in needed)
    return Conflict(told, _is_minimum(wishes, given, needed, build), tuple(_helps(wishes, given, build, asked)))


def _fits_with(wishes: Wishes, given: Sequence[Wish], kept: Sequence[Wish], build: Build) -> bool:
    """Whether some of the wishes can be had together. What could not be decided in time counts as fitting."""
    return fits(build(_without(wishes, [one for one in given if one not in kept]))) is not False


def _without(wishes: Wishes, dropped: Sequence[Wish]) -> Wishes:
    for one in dropped:
        wishes = one.without(wishes)
    return wishes


def _is_minimum(wishes: Wishes, given: Sequence[Wish], needed: Sequence[Wish], build: Build) -> bool:
    """Whether every smaller set of wishes fits; not said where there are too many to look at."""
    if len(needed) <= 1:
        return True
    if len(needed) > 3 or (len(needed) == 3 and len(given) > _MOST_PAIRED):
        return False
    return all(
        _fits_with(wishes, given, smaller, build)
        for size in range(1, len(needed))
        for smaller in itertools.combinations(given, size)
    )


def _helps(wishes: Wishes, given: Sequence[Wish], build: Build, asked: Callable[[], bool]) -> Iterator[Help]:
    """Each single change after which something fits, with what it brings."""
    for more in _LONGER:
        longer = replace(wishes, minutes=wishes.minutes + more)
        if longer.minutes > MINUTES_MOST or asked():
            break
        if fits(build(longer)):
            yield _help(f"{counted(more, 'minute')} more", longer, build)
            break
    for one in given:
        if one.field != "minutes" and not asked():
            changed = one.without(wishes)
            if fits(build(changed)):
                yield _help(f"Without this wish: {one.says}", changed, build)


def _help(says: str, wishes: Wishes, build: Build) -> Help:
    found = solve(build(wishes), seconds=_HELP_SECONDS)
    stops = sum(bool(stop.tellings) for stop in found.stops)
    told, places = counted(len(found.tellings), "thing"), counted(stops, "station")
    gain = f"{told} told at {places}, in {counted(found.minutes, 'minute')}"
    return Help(says, gain, wishes)


def _given(wishes: Wishes, names: Mapping[str, str]) -> Iterator[Wish]:
    """The wishes that are there to be given up, one by one."""
    yield Wish("minutes", counted(wishes.minutes, "minute"), lambda one: replace(one, minutes=float(MINUTES_MOST)))
    for field, says, given_up in _PLAIN:
        value = getattr(wishes, field)
        if value != given_up:
            yield Wish(field, says.format(names.get(str(value), _shown(value))), _giving_up(field, given_up))
    for field, says in _LISTS:
        for ref in getattr(wishes, field):
            yield Wish(field, says.format(names.get(ref, ref)), _taking_out(field, ref))
    for pinned in wishes.pinned:
        yield Wish("pinned", f"{names.get(pinned[0], pinned[0])} is pinned", _taking_out("pinned", pinned))


_PLAIN: tuple[tuple[str, str, Any], ...] = (
    ("start", "start at {}", None),
    ("finish", "end at {}", None),
    ("follow_the_metal", "follow the metal", False),
    ("step_free", "without steps", False),
    ("narrow", "wide enough for a wheelchair or a pushchair", False),
    ("no_lift", "without the lift", False),
    ("quiet", "keep to quiet places", False),
    ("no_sudden_noise", "no sudden noise", False),
    ("captions", "voices only with their words to read", False),
    ("spoken_description", "nothing that must be seen to be understood", False),
    ("seats_every", "minutes between seats: {}", None),
    ("voice_every", "minutes between voices: {}", None),
    ("demonstrations", "no machine runs", True),
    ("demonstration_windows", "machines run only in their hours", ()),
    ("guide", "{} guides, whose day has noise in it already", ""),
)
_LISTS = (
    ("must_stations", "{} must be visited"),
    ("must_tellings", "{} must be told"),
    ("not_stations", "{} is left out"),
    ("not_tellings", "{} is left out"),
    ("closed_rooms", "{} is closed"),
)


def _shown(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def _giving_up(field: str, value: Any) -> Callable[[Wishes], Wishes]:
    given_up: dict[str, Any] = {field: value}
    return lambda wishes: replace(wishes, **given_up)


def _taking_out(field: str, one: Any) -> Callable[[Wishes], Wishes]:
    def without(wishes: Wishes) -> Wishes:
        kept: dict[str, Any] = {field: tuple(ref for ref in getattr(wishes, field) if ref != one)}
        return replace(wishes, **kept)

    return without
