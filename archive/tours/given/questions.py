"""Questions that recur: put together where they ask with the same words, however they are worded around them. Pure.

A question is what is left of it without the little words and the ends of words. Two belong together when what they
share is at least half of what they have between them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

ALIKE = 0.5
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)?")
_LITTLE = frozenset(
    """a an and any are as at be been but by can could did do does ever for from get got had has have he her here him
    his how i if in into is it its just like long many me much my not of on or our out she so some than that the their
    them then there they thing this those to up us use used was we were what when where which who whom why will with
    would you your really actually please tell know mean all one about made make ago""".split()  # noqa: SIM905
)
_ENDS = ("ings", "ing", "ies", "ied", "ed", "es", "s")


@dataclass(frozen=True)
class Asked:
    """One question as it was written down, with where and when it was asked."""

    text: str
    station: str
    day: str


@dataclass(frozen=True)
class Recurring:
    """Questions that belong together: the one that tells most plainly, all of them, and the words to search for."""

    text: str
    asked: tuple[Asked, ...]
    words: tuple[str, ...]

    @property
    def search(self) -> str:
        """What to ask the search for."""
        return " ".join(self.words)

    @property
    def stations(self) -> tuple[str, ...]:
        """Where it was asked."""
        return tuple(dict.fromkeys(each.station for each in self.asked if each.station))


def recurring(asked: Iterable[Asked]) -> tuple[Recurring, ...]:
    """The groups, the most often asked first."""
    groups: list[list[Asked]] = []
    for one in sorted(asked, key=lambda each: (each.day, each.text)):
        if not one.text.strip():
            continue
        mine = stems(one.text)
        home = next((group for group in groups if alike(mine, stems(group[0].text))), None)
        if home is None:
            groups.append([one])
        else:
            home.append(one)
    told = [_told(group) for group in groups]
    return tuple(sorted(told, key=lambda group: (-len(group.asked), group.text)))


def stems(text: str) -> frozenset[str]:
    """What a question asks with: its words without the little ones, without their ends."""
    return frozenset(_stem(word) for word in content_words(text))


def content_words(text: str) -> tuple[str, ...]:
    """The words that carry the question, in their order; all of them where none does."""
    words = [word.casefold().replace("’", "'").removesuffix("'s") for word in _WORD.findall(text)]
    kept = [word for word in words if word not in _LITTLE and len(word) > 1]
    return tuple(dict.fromkeys(kept or words))


def alike(one: frozenset[str], other: frozenset[str]) -> bool:
    """Whether two questions belong together."""
    if not one or not other:
        return False
    shared = len(one & other)
    return shared / len(one | other) >= ALIKE


def _told(group: list[Asked]) -> Recurring:
    first = min(group, key=lambda each: (len(each.text), each.text))
    return Recurring(first.text, tuple(group), content_words(first.text)[:8])


def _stem(word: str) -> str:
    for end in _ENDS:
        if word.endswith(end) and len(word) - len(end) >= 3 and not word.endswith("ss"):
            stem = word[: -len(end)] + ("y" if end in {"ies", "ied"} else "")
            return stem.removesuffix("e") if len(stem) > 3 else stem
    return word.removesuffix("e") if len(word) > 4 else word
