"""The search page: passages by interview, other records, and the ways to narrow them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from flask import url_for
from sqlalchemy.orm import Session

from archive.rights.decisions import Viewer
from archive.search.asking import FoundRecord, Page
from archive.search.document import KINDS
from archive.values.timecode import format_clock, format_seconds
from archive.web.reading.interview_page import SOUND_FORMS
from archive.web.reading.interviews_page import Entry, interviews_page
from archive.web.reading.links import kind_in_words
from archive.web.reading.narrowing import Asked, Chosen, Filter, chosen_of, filters_of, words_of
from archive.web.searching import ask

SPOKEN = ("segment", "clip")
OTHERS = tuple(kind for kind in KINDS if kind not in SPOKEN)
AT_ONCE = 20
OTHERS_SHOWN = 6


@dataclass(frozen=True)
class Part:
    """A stretch of a snippet, marked when it is what was asked for."""

    text: str
    marked: bool


@dataclass(frozen=True)
class Passage:
    """A passage that was found, as it is quoted, or a clip with its title and summary.

    `sounds` are the addresses of its recording, or of the clip's own sound, the best first; `start` and `end` are times
    in that sound.
    """

    title: str
    who: str
    time: str
    url: str
    parts: tuple[Part, ...]
    sounds: str
    start: str
    end: str
    draft: bool


@dataclass(frozen=True)
class Group:
    """The passages of one interview on this page, and how many there are in all."""

    title: str
    ref: str
    url: str
    passages: tuple[Passage, ...]
    total: int
    all_url: str


@dataclass(frozen=True)
class Other:
    """A record other than a voice."""

    kind: str
    title: str
    url: str
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Results:
    """What was found, on one page."""

    passages: int
    interviews: int
    groups: tuple[Group, ...]
    others_total: int
    others: tuple[Other, ...]
    others_url: str
    page: int
    pages: int
    before_url: str
    after_url: str


@dataclass(frozen=True)
class SearchPage:
    """What was asked, what was found, how to narrow it; before anything is asked, what there is to read."""

    text: str
    results: Results | None
    filters: tuple[Filter, ...]
    chosen: tuple[Chosen, ...]
    meant: str
    meant_url: str
    entries: tuple[Entry, ...]


def search_page(session: Session, viewer: Viewer, asked: Asked) -> SearchPage:
    """The page for a question, or the one that invites to ask."""
    if asked.empty:
        return SearchPage("", None, (), (), "", "", interviews_page(session, viewer).entries)
    spoken = _ask(viewer, asked, SPOKEN, limit=AT_ONCE, offset=(asked.page - 1) * AT_ONCE)
    others = _ask_others(viewer, asked)
    meant = spoken.did_you_mean if not spoken.total and not others.total else ""
    titles = {entry.ref: entry.title for entry in interviews_page(session, viewer).entries}
    words = words_of(session, asked, spoken.speakers, titles)
    return SearchPage(
        text=asked.text,
        results=_results(asked, spoken, others, titles),
        filters=filters_of(asked, _added(spoken.facets, others.facets), words),
        chosen=chosen_of(asked, words),
        meant=meant,
        meant_url=url_for("reading.room", q=meant) if meant else "",
        entries=(),
    )


def _ask(viewer: Viewer, asked: Asked, kinds: Iterable[str], *, limit: int, offset: int = 0) -> Page:
    """Ask among some kinds of record, unless the reader has chosen others."""
    wanted = [kind for kind in kinds if kind in (asked.kinds or (kind,))]
    if not wanted:
        return Page(asked.text, 0, (), {}, {}, "", 0.0)
    return ask(viewer, asked.text, {**asked.filters, "kind": wanted}, limit=limit, offset=offset)


def _ask_others(viewer: Viewer, asked: Asked) -> Page:
    """A few other records beside the voices, and page by page when the reader has chosen their kind."""
    if asked.kinds:
        return _ask(viewer, asked, OTHERS, limit=AT_ONCE, offset=(asked.page - 1) * AT_ONCE)
    return _ask(viewer, asked, OTHERS, limit=OTHERS_SHOWN)


def _results(asked: Asked, spoken: Page, others: Page, titles: Mapping[str, str]) -> Results:
    paged = max(spoken.total, others.total if asked.kinds else 0)
    pages = -(-paged // AT_ONCE)
    per_interview = spoken.facets.get("interview", {})
    return Results(
        passages=spoken.total,
        interviews=len(per_interview),
        groups=tuple(_groups(asked, spoken.hits, titles, per_interview)),
        others_total=others.total,
        others=tuple(_other(hit) for hit in others.hits) if asked.page == 1 or asked.kinds else (),
        others_url=asked.url({"kind": OTHERS}) if others.total > OTHERS_SHOWN and not asked.kinds else "",
        page=asked.page,
        pages=pages,
        before_url=asked.url(page=asked.page - 1) if asked.page > 1 else "",
        after_url=asked.url(page=asked.page + 1) if asked.page < pages else "",
    )


def _groups(
    asked: Asked, hits: Sequence[FoundRecord], titles: Mapping[str, str], per_interview: Mapping[str, int]
) -> Iterable[Group]:
    """The hits by interview, the interview of the best hit first."""
    by_interview: dict[str, list[FoundRecord]] = {}
    for hit in hits:
        by_interview.setdefault(hit.interview, []).append(hit)
    for ref, mine in by_interview.items():
        total = per_interview.get(ref, len(mine))
        all_url = asked.url({"interview": (ref,)}) if total > len(mine) else ""
        url = url_for("reading.interview", ref=ref)
        yield Group(titles.get(ref, ref), ref, url, tuple(_passage(hit) for hit in mine), total, all_url)


def _passage(hit: FoundRecord) -> Passage:
    start, end = hit.start or 0, hit.end or 0
    # A clip has a sound of its own, which begins and ends with it.
    of, ref, begins = ("media.clip", hit.id, start) if hit.kind == "clip" else ("media.sound", hit.recording, 0)
    sounds = (url_for(of, ref=ref, form=form) for form, _type in SOUND_FORMS)
    return Passage(
        title=hit.title if hit.kind == "clip" else "",
        who=hit.speaker,
        time=format_clock(start),
        url=hit.url,
        parts=parts_of(hit.snippet, hit.marks),
        sounds=" ".join(sounds),
        start=format_seconds(start - begins),
        end=format_seconds(end - begins),
        draft=hit.draft,
    )


def _other(hit: FoundRecord) -> Other:
    return Other(kind_in_words(hit.kind), hit.title, hit.url, parts_of(hit.snippet, hit.marks))


def parts_of(text: str, marks: Iterable[tuple[int, int]]) -> tuple[Part, ...]:
    """A text cut at its marks, so that a template can mark words without any markup in the text."""
    parts: list[Part] = []
    at = 0
    for start, end in marks:
        parts += [Part(text[at:start], False), Part(text[start:end], True)]
        at = end
    parts.append(Part(text[at:], False))
    return tuple(part for part in parts if part.text)


def _added(*counts: Mapping[str, Mapping[str, int]]) -> dict[str, dict[str, int]]:
    """The counts of several answers added up, facet by facet."""
    added: dict[str, dict[str, int]] = {}
    for one in counts:
        for facet, values in one.items():
            held = added.setdefault(facet, {})
            for value, count in values.items():
                held[value] = held.get(value, 0) + count
    return added
