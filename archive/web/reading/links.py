"""Addresses of records as the Reading room links to them."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from flask import url_for
from flask_babel import lazy_gettext

from archive.interviews.model import Segment, Tie
from archive.values.date_words import date_in_words
from archive.values.timecode import format_seconds, media_fragment

# What stands on the floor is shown in the kiosk, under these lasting addresses.
_ON_THE_FLOOR = {"object": "objects", "process": "processes", "station": "stations", "term": "terms"}

_KINDS = {
    "clip": lazy_gettext("clip"),
    "hazard": lazy_gettext("hazard"),
    "interview": lazy_gettext("interview"),
    "object": lazy_gettext("object"),
    "period": lazy_gettext("period"),
    "person": lazy_gettext("person"),
    "process": lazy_gettext("process"),
    "segment": lazy_gettext("passage"),
    "statement": lazy_gettext("statement"),
    "station": lazy_gettext("station"),
    "term": lazy_gettext("term"),
}


@dataclass(frozen=True)
class Link:
    """Words that lead somewhere, and of what kind the record there is; without an address, words alone."""

    kind: str
    words: str
    url: str = ""


def time_url(interview: str, recording: str, start_ms: int, end_ms: int | None = None) -> str:
    """The lasting address of a stretch: the query serves browsers without script, the fragment all others."""
    start = format_seconds(start_ms)
    page = url_for("reading.interview", ref=interview, recording=recording, t=start)
    return f"{page}#{media_fragment(start_ms, end_ms)}"


def segment_url(segment: Segment) -> str:
    """The lasting address of a segment (its recording and interview loaded)."""
    recording = segment.recording
    return time_url(recording.interview.ref, recording.ref, segment.start_ms, segment.end_ms)


def record_url(kind: str, ref: str) -> str:
    """Where a record of a kind is shown: people and statements here, what stands on the floor in the kiosk."""
    if kind in {"person", "statement", "interview"}:
        return url_for(f"reading.{kind}", ref=ref)
    return f"{url_for('kiosk.plan')}{_ON_THE_FLOOR[kind]}/{quote(ref)}"


def tie_link(tie: Tie, names: dict[int, str]) -> Link | None:
    """Where a tie leads; None for a person whom the viewer may not know of."""
    kind, target = tie.kind, tie.target
    if kind == "period":
        return Link(kind_in_words(kind), date_in_words(target.text))
    if kind == "person":
        name = names.get(target.id)
        return Link(kind_in_words(kind), name, record_url(kind, target.ref)) if name else None
    words = target.preferred if kind == "term" else target.name
    return Link(kind_in_words(kind), words, record_url(kind, target.ref))


def kind_in_words(kind: str) -> str:
    """The name of a kind of record, in the reader's language."""
    return str(_KINDS.get(kind, kind))
