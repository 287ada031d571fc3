"""The page of the figures spoken: a list to search and sort, with what stands out in it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask import url_for
from flask_babel import gettext as _
from flask_babel import lazy_gettext
from sqlalchemy.orm import Session

from archive.interviews.queries import people
from archive.interviews.said.queries import Matter, spoken
from archive.interviews.said.spoken import KINDS
from archive.interviews.said.told import TellingOf, Told, told
from archive.rights.decisions import Viewer
from archive.values.timecode import format_clock, format_seconds
from archive.web.reading.interview_page import SOUND_FORMS
from archive.web.reading.links import kind_in_words, time_url
from archive.web.reading.said.figure_words import KIND_WORDS, figure_words, unit_words
from archive.web.reading.said.standing_out import Dispute, Far, disputes, far_off
from archive.web.reading.search_page import Part

AT_ONCE = 50
SORTS = {
    "told": lazy_gettext("as they were told"),
    "value": lazy_gettext("by value, smallest first"),
    "-value": lazy_gettext("by value, largest first"),
    "who": lazy_gettext("by who tells them"),
}


@dataclass(frozen=True)
class FiguresAsked:
    """What an address asks of the figures; anything that is not known asks for nothing."""

    text: str = ""
    kind: str = ""
    unit: str = ""
    speaker: str = ""
    about: str = ""
    sort: str = "told"
    page: int = 1

    def url(self, page: int) -> str:
        """The address of another page of the same."""
        kept: dict[str, Any] = {"q": self.text, "kind": self.kind, "unit": self.unit, "speaker": self.speaker,
                                "about": self.about, "sort": self.sort}  # fmt: skip
        return url_for("reading.figures", page=page, **{name: value for name, value in kept.items() if value})


@dataclass(frozen=True)
class Choice:
    """One thing to choose in a list of the form."""

    value: str
    words: str
    chosen: bool


@dataclass(frozen=True)
class Entry:
    """A figure in digits, the line it stands in with its words marked, who told it, and how to hear it."""

    figure: str
    kind: str
    parts: tuple[Part, ...]
    who: str
    time: str
    url: str
    sounds: str
    start: str
    end: str
    interview: str
    draft: bool


@dataclass(frozen=True)
class FiguresPage:
    """The figures asked for, the ways to choose among them, and what stands out in all of them."""

    text: str
    total: int
    every: int
    choices: tuple[tuple[str, str, tuple[Choice, ...]], ...]
    entries: tuple[Entry, ...]
    disputes: tuple[Dispute, ...]
    far: tuple[Far, ...]
    page: int
    pages: int
    before_url: str
    after_url: str


def figures_page(session: Session, viewer: Viewer, asked: FiguresAsked) -> FiguresPage:
    """The figures that the viewer may read, as an address asks for them."""
    all_told = told(session, viewer)
    matters = spoken(session, viewer).matters
    refs = {person.id: person.ref for person in people(session, viewer)}
    chosen = _Choosing(all_told, matters, refs, asked)
    found = chosen.found()
    pages = max(1, -(-len(found) // AT_ONCE))
    page = min(asked.page, pages)
    plain = page == 1 and asked == FiguresAsked(sort=asked.sort)
    entry = _entries()
    return FiguresPage(
        text=asked.text,
        total=len(found),
        every=len(all_told.figures),
        choices=chosen.choices(),
        entries=tuple(entry(one) for one in found[(page - 1) * AT_ONCE : page * AT_ONCE]),
        disputes=disputes(all_told, matters, entry) if plain else (),
        far=far_off(all_told, matters, entry) if plain else (),
        page=page,
        pages=pages,
        before_url=asked.url(page - 1) if page > 1 else "",
        after_url=asked.url(page + 1) if page < pages else "",
    )


@dataclass(frozen=True)
class _Choosing:
    told: Told
    matters: Mapping[Matter, str]
    refs: Mapping[int, str]
    asked: FiguresAsked

    def found(self) -> list[TellingOf]:
        """The figures asked for, in the order asked for."""
        kept = [one for one in self.told.figures if self._fits(one)]
        if self.asked.sort == "who":
            kept.sort(key=lambda one: one.line.who.casefold())
        elif self.asked.sort.endswith("value"):
            kept.sort(key=_by_value, reverse=self.asked.sort.startswith("-"))
        return kept

    def _fits(self, one: TellingOf) -> bool:
        asked, figure, line = self.asked, one.figure, one.line
        if asked.kind and figure.kind != asked.kind or asked.unit and figure.unit != asked.unit:
            return False
        if asked.speaker and self.refs.get(line.speaker or 0) != asked.speaker:
            return False
        if asked.about and tuple(asked.about.split(":", 1)) not in line.matters:
            return False
        words = asked.text.casefold()
        return not words or words in line.text.casefold() or words in figure_words(figure).casefold()

    def choices(self) -> tuple[tuple[str, str, tuple[Choice, ...]], ...]:
        """The lists of the form: name, label, and what may be chosen."""
        figures = self.told.figures
        asked = self.asked
        kinds = [(kind, str(KIND_WORDS[kind])) for kind in KINDS if any(one.figure.kind == kind for one in figures)]
        narrowed = [one for one in figures if not asked.kind or one.figure.kind == asked.kind]
        units = sorted({one.figure.unit for one in narrowed if one.figure.unit and one.figure.kind != "date"})
        speakers = {ref: one.line.who for one in figures if (ref := self.refs.get(one.line.speaker or 0))}
        about = {matter for one in figures for matter in one.line.matters}
        return (
            ("kind", _("What of"), _choices(_("everything"), kinds, asked.kind)),
            ("unit", _("Told in"), _choices(_("any unit"), [(u, unit_words(u)) for u in units], asked.unit)),
            (
                "speaker",
                _("Who tells it"),
                _choices(_("everybody"), sorted(speakers.items(), key=_second), asked.speaker),
            ),
            ("about", _("Tied to"), _choices(_("anything"), self._tied(about), asked.about)),
            ("sort", _("In order"), _choices("", [(name, str(words)) for name, words in SORTS.items()], asked.sort)),
        )

    def _tied(self, about: Iterable[Matter]) -> list[tuple[str, str]]:
        named = [(f"{kind}:{ref}", f"{kind_in_words(kind)}: {self.matters[kind, ref]}") for kind, ref in about]
        return sorted(named, key=_second)


def _second(pair: tuple[str, str]) -> str:
    return pair[1].casefold()


def _choices(every: str, pairs: Sequence[tuple[str, str]], chosen: str) -> tuple[Choice, ...]:
    first = [Choice("", every, not chosen)] if every else []
    return (*first, *(Choice(value, words, value == chosen) for value, words in pairs))


def _by_value(one: TellingOf) -> tuple[str, str, float]:
    low, high, family = one.figure.basic
    return one.figure.kind, family, high if math.isinf(low) else low


def _entries() -> Callable[[TellingOf], Entry]:
    """What makes an entry of a figure; the addresses of a recording's sound are made once."""
    sounds: dict[str, str] = {}

    def entry(one: TellingOf) -> Entry:
        line, figure = one.line, one.figure
        if line.recording not in sounds:
            forms = (url_for("media.sound", ref=line.recording, form=form) for form, _type in SOUND_FORMS)
            sounds[line.recording] = " ".join(forms)
        cut = ((line.text[: figure.start], False), (one.words, True), (line.text[figure.end :], False))
        return Entry(
            figure=figure_words(figure),
            kind=str(KIND_WORDS[figure.kind]),
            parts=tuple(Part(text, marked) for text, marked in cut if text),
            who=line.who,
            time=format_clock(line.start_ms),
            url=time_url(line.interview, line.recording, line.start_ms, line.end_ms),
            sounds=sounds[line.recording],
            start=format_seconds(line.start_ms),
            end=format_seconds(line.end_ms),
            interview=line.interview,
            draft=line.draft,
        )

    return entry
