"""Figures that stand out, in plain words: where two narrators differ, and what lies far from its like."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _

from archive.interviews.said.disagreements import Disagreement
from archive.interviews.said.keywords import root
from archive.interviews.said.queries import Matter
from archive.interviews.said.told import TellingOf, Told
from archive.web.reading.said.figure_words import figure_words

_SHOWN = 12
_TELLING = ("term", "process", "object", "station")


@dataclass(frozen=True)
class Dispute:
    """Two figures of one matter, in a sentence ("Osric Pell says 1952, Harbin Locke 1956"), with both lines."""

    matter: str
    sentence: str
    entries: tuple[Any, ...]


@dataclass(frozen=True)
class Far:
    """A figure far from the others of its matter, in a sentence, with its line."""

    matter: str
    sentence: str
    entry: Any


def disputes(told: Told, matters: Mapping[Matter, str], entry: Callable[[TellingOf], Any]) -> tuple[Dispute, ...]:
    """The disagreements that weigh most."""
    found = []
    for one in told.disagreements[:_SHOWN]:
        first, second = (told.figures[account.number] for account in one.accounts)
        sentence = _(
            "%(one)s says %(this)s, %(other)s %(that)s.",
            one=first.line.who,
            this=figure_words(first.figure),
            other=second.line.who,
            that=figure_words(second.figure),
        )
        found.append(Dispute(_matter(one, first, matters), sentence, (entry(first), entry(second))))
    return tuple(found)


def far_off(told: Told, matters: Mapping[Matter, str], entry: Callable[[TellingOf], Any]) -> tuple[Far, ...]:
    """The outliers, as they were told."""
    found = []
    for one in told.outliers[:_SHOWN]:
        telling = told.figures[one.account.number]
        sentence = _(
            "%(who)s says %(this)s. Of the %(count)s figures told of it, %(middle)s stands in the middle.",
            who=telling.line.who,
            this=figure_words(telling.figure),
            count=one.of,
            middle=figure_words(told.figures[one.middle.number].figure),
        )
        kind, _colon, ref = one.matter.partition(":")
        found.append(Far(matters.get((kind, ref), ""), sentence, entry(telling)))
    return tuple(found)


def _matter(one: Disagreement, telling: TellingOf, matters: Mapping[Matter, str]) -> str:
    """What it is about: a thing both lines are tied to, a word of the trade first, or the rarest word they share."""
    ties = [(kind, ref) for kind, colon, ref in (key.partition(":") for key in one.shared) if colon]
    for tie in sorted(ties, key=lambda pair: _TELLING.index(pair[0])):
        if tie in matters:
            return matters[tie]
    words = telling.line.text.replace(",", " ").replace(".", " ").split()
    return next((word.lower() for key in one.shared for word in words if root(word.lower()) == key), one.shared[0])
