"""What was asked in the search, and the ways to narrow it, each with the count of what it would leave."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from flask import url_for
from flask_babel import gettext as _
from flask_babel import lazy_gettext
from sqlalchemy.orm import Session

from archive.objects.queries import objects
from archive.plan.queries import stations
from archive.processes.queries import processes
from archive.terms.queries import vocabulary
from archive.web.reading.links import kind_in_words

Words: TypeAlias = Mapping[str, Mapping[str, str]]
"""What the values of a field are called, field by field."""

FIELDS = ("speaker", "decade", "process", "station", "kind")
AT_FIRST = 6
_FIELD_WORDS = {
    "speaker": lazy_gettext("Who speaks"),
    "decade": lazy_gettext("Decade spoken of"),
    "process": lazy_gettext("Process"),
    "station": lazy_gettext("Station"),
    "kind": lazy_gettext("Kind"),
    "interview": lazy_gettext("Interview"),
    "object": lazy_gettext("Object"),
    "term": lazy_gettext("Term"),
}


@dataclass(frozen=True)
class Asked:
    """The words, the filters and the page that an address asks for."""

    text: str
    filters: Mapping[str, Sequence[str]]
    page: int = 1

    @property
    def empty(self) -> bool:
        """Whether nothing is asked for."""
        return not self.text and not self.filters

    @property
    def kinds(self) -> Sequence[str]:
        """The kinds of record that were chosen, if any were."""
        return self.filters.get("kind", ())

    def url(self, changed: Mapping[str, Sequence[str]] | None = None, page: int = 1) -> str:
        """The address of the same question with some filters changed; an empty one is taken away."""
        kept: dict[str, Any] = {field: list(values) for field, values in {**self.filters, **(changed or {})}.items()}
        return url_for("reading.room", q=self.text or None, page=page if page > 1 else None, **kept)


@dataclass(frozen=True)
class Choice:
    """One way to narrow: its words, how much it would leave, and its address."""

    words: str
    count: int
    url: str


@dataclass(frozen=True)
class Filter:
    """The choices of one field, the commonest first (decades in order); the later ones are folded away."""

    words: str
    first: tuple[Choice, ...]
    more: tuple[Choice, ...]


@dataclass(frozen=True)
class Chosen:
    """A filter that is on, and the address without it."""

    field: str
    words: str
    without_url: str


def filters_of(asked: Asked, counts: Mapping[str, Mapping[str, int]], words: Words) -> tuple[Filter, ...]:
    """The ways to narrow what was found; a field on which a choice was made is left out, as is one without choice."""
    made = (_filter(asked, field, counts.get(field, {}), words) for field in FIELDS if field not in asked.filters)
    return tuple(one for one in made if len(one.first) > 1)


def chosen_of(asked: Asked, words: Words) -> tuple[Chosen, ...]:
    """The filters that are on, each with the way to take it away."""
    return tuple(
        Chosen(_field(field), _value(words, field, value), asked.url({field: [v for v in values if v != value]}))
        for field, values in asked.filters.items()
        for value in values
    )


def words_of(session: Session, asked: Asked, speakers: Mapping[str, str], interviews: Mapping[str, str]) -> Words:
    """What the values of each field are called; speakers and interviews as the viewer may know of them."""
    words = {
        "speaker": speakers,
        "interview": interviews,
        "process": {process.ref: process.name for process in processes(session)},
        "station": {station.ref: station.name for station in stations(session)},
    }
    if "object" in asked.filters:
        words["object"] = {one.ref: one.name for one in objects(session)}
    if "term" in asked.filters:
        words["term"] = {term.ref: term.preferred for term in vocabulary(session)}
    return words


def _filter(asked: Asked, field: str, counts: Mapping[str, int], words: Words) -> Filter:
    order = sorted(counts, key=lambda value: value if field == "decade" else (-counts[value], value))
    known = [value for value in order if field in {"decade", "kind"} or value in words[field]]
    choices = [Choice(_value(words, field, value), counts[value], asked.url({field: (value,)})) for value in known]
    return Filter(_field(field), tuple(choices[:AT_FIRST]), tuple(choices[AT_FIRST:]))


def _field(field: str) -> str:
    return str(_FIELD_WORDS[field])


def _value(words: Words, field: str, value: str) -> str:
    """A filter's value as it is read; one that is not known is shown as it was given."""
    if field == "decade":
        return str(_("the %(decade)ss", decade=value))
    if field == "kind":
        return kind_in_words(value)
    return words.get(field, {}).get(value, value)
