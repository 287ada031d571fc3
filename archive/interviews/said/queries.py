"""The open lines of every transcript, with what they are tied to; each select takes a viewer."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.interviews.model import Interview, Recording, Segment, Tie
from archive.interviews.names import shown_names, shown_text
from archive.interviews.queries import interviews, segment_open
from archive.objects.model import MuseumObject
from archive.plan.model import Station
from archive.processes.model import Process
from archive.rights.decisions import Viewer
from archive.store.freshness import memory
from archive.terms.model import Term

Matter = tuple[str, str]
"""What a line is tied to: its kind and reference."""

_TARGETS = (
    ("process", Tie.process_id, Process, Process.name),
    ("station", Tie.station_id, Station, Station.name),
    ("object", Tie.object_id, MuseumObject, MuseumObject.name),
    ("term", Tie.term_id, Term, Term.preferred),
)


@dataclass(frozen=True)
class SpokenLine:
    """A line that the viewer may read: whose, where, its words under the shown names, and what it is tied to.

    `asks` marks an interviewer's line. `speaker` is a person's key, or None for a voice that is only labelled.
    """

    segment: int
    interview: str
    recording: str
    start_ms: int
    end_ms: int
    speaker: int | None
    who: str
    asks: bool
    text: str
    matters: frozenset[Matter]
    draft: bool = False


@dataclass(frozen=True)
class Spoken:
    """All the open lines in order, and the names of what they are tied to."""

    lines: tuple[SpokenLine, ...]
    matters: Mapping[Matter, str]


def spoken(session: Session, viewer: Viewer) -> Spoken:
    """Every open line of every open interview; worked out once for each state of the database."""
    held = memory(session)
    key = ("said", viewer)
    if key not in held:
        held[key] = _spoken(session, viewer)
    found: Spoken = held[key]
    return found


def _spoken(session: Session, viewer: Viewer) -> Spoken:
    names = shown_names(session, viewer)
    whole = {interview.id: interview for interview in interviews(session, viewer)}
    asking = {key: frozenset(person.id for person in one.interviewers) for key, one in whole.items()}
    ties, matters = _ties(session, viewer)
    columns = (Segment.id, Recording.interview_id, Recording.ref, Segment.start_ms, Segment.end_ms,
               Segment.speaker_id, Segment.speaker_label, Segment.text, Recording.transcript_state)  # fmt: skip
    wanted = select(*columns).join(Segment.recording).where(segment_open(viewer))
    rows = session.execute(wanted.order_by(Recording.interview_id, Recording.position, Segment.position))
    lines = tuple(
        SpokenLine(
            segment=row[0],
            interview=whole[row[1]].ref,
            recording=row[2],
            start_ms=row[3],
            end_ms=row[4],
            speaker=row[5],
            who=_who(row[5], row[6], whole[row[1]], names),
            asks=row[5] in asking[row[1]],
            text=shown_text(row[7], whole[row[1]], names),
            matters=frozenset(ties.get(row[0], ())),
            draft=row[8] == "draft",
        )
        for row in rows
    )
    return Spoken(lines, matters)


def _who(speaker: int | None, label: str, interview: Interview, names: dict[int, str]) -> str:
    return shown_text(label, interview, names) if speaker is None else names.get(speaker, "")


def _ties(session: Session, viewer: Viewer) -> tuple[dict[int, set[Matter]], dict[Matter, str]]:
    """What each open line is tied to, accepted by a person, and what those records are called."""
    held: dict[int, set[Matter]] = defaultdict(set)
    called: dict[Matter, str] = {}
    for kind, column, model, name in _TARGETS:
        wanted = (
            select(Segment.id, model.ref, name)
            .select_from(Tie)
            .join(Segment, Segment.id == Tie.segment_id)
            .join(Segment.recording)
            .join(model, model.id == column)
            .where(Tie.state == "accepted", segment_open(viewer))
        )
        for segment, ref, words in session.execute(wanted):
            held[segment].add((kind, ref))
            called[kind, ref] = words
    return held, called
