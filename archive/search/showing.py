"""What is shown of a record that was found: title, text, speaker under the shown name, and its address."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from textwrap import shorten
from typing import NamedTuple

from sqlalchemy.orm import Session

from archive.interviews.model import Interview
from archive.interviews.names import shown_names, shown_text
from archive.interviews.queries import interviews, people
from archive.rights.decisions import Viewer
from archive.search import queries
from archive.search.queries import RecordRow, SpokenRow
from archive.values.timecode import format_seconds, media_fragment

_LONGEST_TITLE = 90

_PLACES = {
    "object": "/kiosk/objects/",
    "process": "/kiosk/processes/",
    "hazard": "/kiosk/hazards/",
    "term": "/kiosk/terms/",
    "person": "/reading/people/",
    "statement": "/reading/statements/",
}


class Told(NamedTuple):
    """An interview as one viewer knows it, and the record by which names are taken out of what was written of it."""

    ref: str
    title: str
    interview: Interview


@dataclass(frozen=True)
class Names:
    """What people and interviews are called before one viewer: by key, and people by reference too."""

    people: dict[int, str]
    speakers: Mapping[str, str]
    interviews: Mapping[int, Told]


class Shown(NamedTuple):
    """A record as one viewer sees it. `recording` to `end` are of segments and clips alone."""

    kind: str
    id: str
    title: str
    text: str
    url: str
    speaker: str = ""
    recording: str = ""
    interview: str = ""
    start: int | None = None
    end: int | None = None
    draft: bool = False


def names_for(session: Session, viewer: Viewer) -> Names:
    """What the people and interviews that the viewer may know of are called."""
    named = shown_names(session, viewer)
    return Names(
        people=named,
        speakers={person.ref: named[person.id] for person in people(session, viewer)},
        interviews={
            interview.id: Told(interview.ref, shown_text(interview.title, interview, named), interview)
            for interview in interviews(session, viewer)
        },
    )


def shown_records(
    session: Session, viewer: Viewer, keys: Mapping[str, list[int]], names: Names
) -> dict[tuple[str, int], Shown]:
    """What is shown of the open records among the keys of each kind; the others are left out."""
    found: dict[tuple[str, int], Shown] = {}
    for kind, wanted in keys.items():
        found |= {(kind, key): shown for key, shown in _shown(session, viewer, kind, wanted, names)}
    return found


def _shown(session: Session, viewer: Viewer, kind: str, keys: list[int], names: Names) -> Iterator[tuple[int, Shown]]:
    if kind in ("segment", "clip"):
        for spoken in queries.spoken(session, viewer, kind, keys):
            yield spoken.id, _spoken(kind, spoken, names)
    else:
        for record in queries.records(session, viewer, kind, keys):
            yield record.id, _record(kind, record, names)


def _spoken(kind: str, row: SpokenRow, names: Names) -> Shown:
    told = names.interviews[row.interview_id]
    title, text, label = (
        shown_text(words, told.interview, names.people) for words in (row.title, row.text, row.speaker_label)
    )
    speaker = label if row.speaker_id is None else names.people.get(row.speaker_id, "")
    return Shown(
        kind=kind,
        # Keys count on past what is closed, so a segment is known by where it begins.
        id=row.ref or f"{row.recording}@{format_seconds(row.start_ms)}",
        title=title or told.title,
        text=text,
        url=_time_url(told.ref, row),
        speaker=speaker,
        recording=row.recording,
        interview=told.ref,
        start=row.start_ms,
        end=row.end_ms,
        draft=row.state == "draft",
    )


def _record(kind: str, row: RecordRow, names: Names) -> Shown:
    """A statement has no title but its own beginning. Of a person not shown by name nothing else is told."""
    title, text = row.title, row.text
    if kind == "person":
        title = names.people.get(row.id, "")
        text = text if row.title == title else ""
    return Shown(kind, row.ref, title or shorten(text, _LONGEST_TITLE, placeholder=" …"), text, _PLACES[kind] + row.ref)


def _time_url(interview: str, row: SpokenRow) -> str:
    """The lasting address of a stretch: the query serves browsers without script, the fragment all others.

    References need no quoting: they are letters, digits, dots, hyphens and underscores.
    """
    begin = format_seconds(row.start_ms)
    fragment = media_fragment(row.start_ms, row.end_ms)
    return f"/reading/interviews/{interview}?recording={row.recording}&t={begin}#{fragment}"
