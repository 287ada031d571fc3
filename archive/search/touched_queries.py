"""Selects that find what a changed row stands in, so that it is indexed anew; not for readers."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any, TypeAlias

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.evidence.model import statement_object, statement_process, statement_station
from archive.interviews.model import Clip, Recording, Segment, Tie, interview_narrator
from archive.objects.model import MuseumObject, ObjectProcess
from archive.processes.model import process_hazard, process_station
from archive.rights.model import Agreement
from archive.search.indexing_queries import parts_of

Tables: TypeAlias = Mapping[str, Collection[int]]
"""Keys of rows by table, or of what they belong to by table and column."""


def interviews_touched(session: Session, by_table: Tables, parents: Tables) -> set[int]:
    """The interviews that touched rows belong to, or whose segments and clips name a touched record."""
    recordings = {*parents["segment.recording_id"], *parents["clip.recording_id"], *parents["closure.recording_id"]}
    for owner, keys in ((Segment, parents["tie.segment_id"]), (Clip, parents["tie.clip_id"])):
        recordings |= _related(session, owner.recording_id, owner.id, keys)
    agreements = parents["permission.agreement_id"]
    return {
        *by_table["interview"],
        *parents["recording.interview_id"],
        *parents["agreement.interview_id"],
        *_related(session, Recording.interview_id, Recording.id, recordings),
        *_related(session, Agreement.interview_id, Agreement.id, agreements),
        *interviews_of_people(session, by_table["person"]),
        *_interviews_naming(session, by_table),
    }


def named_in(session: Session, by_table: Tables) -> dict[str, set[int]]:
    """The records of other kinds, by kind, in whose documents the names of touched records stand."""
    found: dict[str, set[int]] = {}
    for table, places in _NAMED_IN.items():
        for kind, wanted, given in places:
            found.setdefault(kind, set()).update(_related(session, wanted, given, by_table[table]))
    return found


def narrators_of(session: Session, interview_keys: Collection[int]) -> set[int]:
    """The people who tell the interviews."""
    return _related(session, interview_narrator.c.person_id, interview_narrator.c.interview_id, interview_keys)


def interviews_of_people(session: Session, keys: Collection[int]) -> set[int]:
    """The interviews that the people tell or speak in."""
    told = _related(session, interview_narrator.c.interview_id, interview_narrator.c.person_id, keys)
    recordings = _related(session, Segment.recording_id, Segment.speaker_id, keys)
    return told | _related(session, Recording.interview_id, Recording.id, recordings)


def _interviews_naming(session: Session, by_table: Tables) -> set[int]:
    """The interviews with a tie to a touched object, process, station or term."""
    segment_keys: set[int] = set()
    clip_keys: set[int] = set()
    columns = {"object": Tie.object_id, "process": Tie.process_id, "station": Tie.station_id, "term": Tie.term_id}
    for table, column in columns.items():
        segment_keys |= _related(session, Tie.segment_id, column, by_table[table])
        clip_keys |= _related(session, Tie.clip_id, column, by_table[table])
    recordings = _related(session, Segment.recording_id, Segment.id, segment_keys)
    recordings |= _related(session, Clip.recording_id, Clip.id, clip_keys)
    return _related(session, Recording.interview_id, Recording.id, recordings)


_NAMED_IN: dict[str, list[tuple[str, Any, Any]]] = {
    "station": [
        ("object", MuseumObject.id, MuseumObject.station_id),
        ("process", process_station.c.process_id, process_station.c.station_id),
        ("statement", statement_station.c.statement_id, statement_station.c.station_id),
    ],
    "process": [
        ("object", ObjectProcess.object_id, ObjectProcess.process_id),
        ("hazard", process_hazard.c.hazard_id, process_hazard.c.process_id),
        ("statement", statement_process.c.statement_id, statement_process.c.process_id),
    ],
    "object": [("statement", statement_object.c.statement_id, statement_object.c.object_id)],
    "person": [("object", MuseumObject.id, MuseumObject.maker_id)],
}


def _related(session: Session, wanted: Any, given: Any, keys: Collection[int]) -> set[int]:
    """The distinct values of one column where another has any of the keys."""
    found: set[int] = set()
    for part in parts_of(keys):
        if part:
            found.update(key for key in session.scalars(select(wanted).where(given.in_(part)).distinct()) if key)
    return found
