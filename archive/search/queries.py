"""Selects that show what was found; each takes a viewer and asks the rooms' own clauses again."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from sqlalchemy import Select, bindparam, literal, null, select
from sqlalchemy.orm import Session

from archive.evidence.model import Statement
from archive.evidence.queries import statement_open
from archive.interviews.model import Clip, Recording, Segment
from archive.interviews.queries import clip_open, person_open, segment_open
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.processes.model import Hazard, Process
from archive.rights.decisions import Viewer
from archive.terms.model import Term


class SpokenRow(NamedTuple):
    """A segment or clip to show; a clip has a title and a reference of its own."""

    id: int
    start_ms: int
    end_ms: int
    text: str
    speaker_id: int | None
    speaker_label: str
    recording: str
    interview_id: int
    ref: str = ""
    title: str = ""
    state: str = ""


class RecordRow(NamedTuple):
    """A record of any other kind to show."""

    id: int
    ref: str
    title: str
    text: str


def spoken(session: Session, viewer: Viewer, kind: str, keys: Collection[int]) -> Sequence[SpokenRow]:
    """The open segments, or clips, among the keys."""
    wanted = _segments(viewer) if kind == "segment" else _clips(viewer)
    return [SpokenRow(*row) for row in session.connection().execute(wanted, {"keys": list(keys)})]


def records(session: Session, viewer: Viewer, kind: str, keys: Collection[int]) -> Sequence[RecordRow]:
    """The open records of another kind among the keys."""
    return [RecordRow(*row) for row in session.connection().execute(_records(viewer, kind), {"keys": list(keys)})]


# The selects are kept per viewer: putting one together takes longer than running it. They give rows, not records, so
# they run on the session's connection.


@lru_cache(maxsize=64)
def _segments(viewer: Viewer) -> Select[Any]:
    columns: tuple[Any, ...] = (
        Segment.id,
        Segment.start_ms,
        Segment.end_ms,
        Segment.text,
        Segment.speaker_id,
        Segment.speaker_label,
    )
    return (
        select(*columns, Recording.ref, Recording.interview_id, literal(""), literal(""), Recording.transcript_state)
        .join(Segment.recording)
        .where(segment_open(viewer), Segment.id.in_(bindparam("keys", expanding=True)))
    )


@lru_cache(maxsize=64)
def _clips(viewer: Viewer) -> Select[Any]:
    columns: tuple[Any, ...] = (Clip.id, Clip.start_ms, Clip.end_ms, Clip.summary, null(), literal(""))
    return (
        select(*columns, Recording.ref, Recording.interview_id, Clip.ref, Clip.title)
        .join(Clip.recording)
        .where(clip_open(viewer), Clip.id.in_(bindparam("keys", expanding=True)))
    )


@lru_cache(maxsize=512)
def _records(viewer: Viewer, kind: str) -> Select[Any]:
    table, columns = _COLUMNS[kind]
    wanted = select(*columns).where(table.id.in_(bindparam("keys", expanding=True)))
    if kind == "person":
        return wanted.where(person_open(viewer))
    return wanted.where(statement_open(viewer)) if kind == "statement" else wanted


_COLUMNS: dict[str, tuple[Any, tuple[Any, ...]]] = {
    "object": (MuseumObject, (MuseumObject.id, MuseumObject.ref, MuseumObject.name, MuseumObject.description)),
    "process": (Process, (Process.id, Process.ref, Process.name, Process.summary)),
    "hazard": (Hazard, (Hazard.id, Hazard.ref, Hazard.name, Hazard.summary)),
    "person": (Person, (Person.id, Person.ref, Person.name, Person.trade)),
    "term": (Term, (Term.id, Term.ref, Term.preferred, Term.meaning)),
    "statement": (Statement, (Statement.id, Statement.ref, literal(""), Statement.text)),
}
