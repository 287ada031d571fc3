"""Selects that the making of the index needs; not for readers, since they pass by all agreements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias, TypeVar

from sqlalchemy import Select, func, or_, select
from sqlalchemy.orm import Session, selectinload

from archive.evidence.model import Statement
from archive.interviews.model import Clip, Interview, Recording, Segment, Tie, interview_narrator
from archive.objects.model import MuseumObject, ObjectProcess
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.model import Agreement, Permission
from archive.rights.queries import Column, clear_of_closures
from archive.store.base import Base
from archive.store.model import Change, Load
from archive.terms.model import Term
from archive.values.dates import UncertainDate

Record = TypeVar("Record", bound=Base)
Keys: TypeAlias = Collection[int] | None
"""Keys of the wanted records; None for all."""

_AT_ONCE = 2000
_KEYS_AT_ONCE = 500


@dataclass
class TiedTo:
    """What a segment or clip speaks of: references and names by field, and periods."""

    refs: dict[str, list[str]] = field(default_factory=dict)
    names: dict[str, list[str]] = field(default_factory=dict)
    periods: list[UncertainDate] = field(default_factory=list)


@dataclass(frozen=True)
class IndexedRow:
    """A segment as it is indexed."""

    id: int
    text: str
    speaker_id: int | None
    interview_id: int


INDEXED = (
    "agreement",
    "clip",
    "closure",
    "control",
    "hazard",
    "interview",
    "object",
    "object_process",
    "permission",
    "person",
    "picture",
    "process",
    "process_section",
    "recording",
    "segment",
    "statement",
    "station",
    "term",
    "tie",
)
"""The tables whose rows stand in the index, or decide what does."""


def stamp(session: Session) -> str:
    """Changes with every load, and with every change of a record that stands in the index."""
    indexed = or_(*(Change.record.startswith(f"{table}:") for table in INDEXED))
    last_change = session.scalar(select(Change.id).where(indexed).order_by(Change.id.desc()).limit(1))
    last_load = session.scalar(select(func.max(Load.id)))
    return f"load {last_load or 0} change {last_change or 0}"


def interviews(session: Session, keys: Keys = None) -> Sequence[Interview]:
    """Interviews with their narrators."""
    return _by_key(session, select(Interview).options(selectinload(Interview.narrators)), Interview.id, keys)


def segments(session: Session, interview_keys: Keys = None) -> Iterator[IndexedRow]:
    """The segments of the interviews that overlap no closure, a bearable number at a time."""
    wanted = (
        select(Segment.id, Segment.text, Segment.speaker_id, Recording.interview_id)
        .join(Segment.recording)
        .where(clear_of_closures(Segment.recording_id, Segment.start_ms, Segment.end_ms))
        .order_by(Segment.recording_id, Segment.position)
    )
    for part in parts_of(interview_keys):
        rows = wanted if part is None else wanted.where(Recording.interview_id.in_(part))
        for row in session.execute(rows.execution_options(yield_per=_AT_ONCE)):
            yield IndexedRow(*row)


def clips(session: Session, interview_keys: Keys = None) -> Sequence[Clip]:
    """The clips of the interviews that overlap no closure."""
    wanted = (
        select(Clip)
        .join(Clip.recording)
        .where(clear_of_closures(Clip.recording_id, Clip.start_ms, Clip.end_ms))
        .options(selectinload(Clip.recording))
    )
    return _by_key(session, wanted, Recording.interview_id, interview_keys)


def ties(session: Session, interview_keys: Keys = None) -> tuple[dict[int, TiedTo], dict[int, TiedTo]]:
    """What each segment, and each clip, of the interviews is accepted to speak of."""
    by_segment: defaultdict[int, TiedTo] = defaultdict(TiedTo)
    by_clip: defaultdict[int, TiedTo] = defaultdict(TiedTo)
    wanted = (
        select(
            Tie.segment_id,
            Tie.clip_id,
            Tie.period,
            Process.ref,
            Process.name,
            Station.ref,
            Station.name,
            MuseumObject.ref,
            MuseumObject.name,
            Term.ref,
            Term.preferred,
        )
        .outerjoin(Tie.segment)
        .outerjoin(Tie.clip)
        .join(Recording, Recording.id == func.coalesce(Segment.recording_id, Clip.recording_id))
        .outerjoin(Tie.process)
        .outerjoin(Tie.station)
        .outerjoin(Tie.object)
        .outerjoin(Tie.term)
        .where(Tie.state == "accepted")
    )
    for part in parts_of(interview_keys):
        rows = wanted if part is None else wanted.where(Recording.interview_id.in_(part))
        for segment_id, clip_id, period, *pairs in session.execute(rows):
            tied = by_clip[clip_id or 0] if segment_id is None else by_segment[segment_id]
            _tie(tied, period, pairs)
    return dict(by_segment), dict(by_clip)


def guarded(session: Session) -> set[int]:
    """The keys of the narrators whose agreements do not give the own name for every purpose, and of the unnamed."""
    narrators = (
        select(interview_narrator.c.person_id)
        .join(Agreement, Agreement.interview_id == interview_narrator.c.interview_id)
        .join(Permission, Permission.agreement_id == Agreement.id)
        .where(Permission.name_form != "own")
    )
    return set(session.scalars(select(Person.id).where(or_(Person.unnamed, Person.id.in_(narrators)))))


def narrators(session: Session) -> set[int]:
    """The keys of all narrators."""
    return set(session.scalars(select(interview_narrator.c.person_id)))


def people(session: Session, keys: Keys = None) -> Sequence[Person]:
    """People and firms."""
    return _by_key(session, select(Person), Person.id, keys)


def objects(session: Session, keys: Keys = None) -> Sequence[MuseumObject]:
    """Objects with all that is indexed of them."""
    whole = (
        selectinload(MuseumObject.maker),
        selectinload(MuseumObject.station),
        selectinload(MuseumObject.pictures),
        selectinload(MuseumObject.process_ties).selectinload(ObjectProcess.process),
    )
    return _by_key(session, select(MuseumObject).options(*whole), MuseumObject.id, keys)


def processes(session: Session, keys: Keys = None) -> Sequence[Process]:
    """Processes with all that is indexed of them."""
    whole = (selectinload(Process.sections), selectinload(Process.stations), selectinload(Process.terms))
    return _by_key(session, select(Process).options(*whole), Process.id, keys)


def hazards(session: Session, keys: Keys = None) -> Sequence[Hazard]:
    """Hazards with all that is indexed of them."""
    whole = (selectinload(Hazard.controls), selectinload(Hazard.processes))
    return _by_key(session, select(Hazard).options(*whole), Hazard.id, keys)


def terms(session: Session, keys: Keys = None) -> Sequence[Term]:
    """Terms of the thesaurus."""
    return _by_key(session, select(Term), Term.id, keys)


def statements(session: Session, keys: Keys = None) -> Sequence[Statement]:
    """Statements with what they are about."""
    whole = (
        selectinload(Statement.stations),
        selectinload(Statement.processes),
        selectinload(Statement.objects),
    )
    return _by_key(session, select(Statement).options(*whole), Statement.id, keys)


def _tie(tied: TiedTo, period: UncertainDate | None, pairs: Sequence[str | None]) -> None:
    if period is not None:
        tied.periods.append(period)
    for kind, ref, name in zip(("process", "station", "object", "term"), pairs[::2], pairs[1::2], strict=True):
        if ref is not None and name is not None:
            tied.refs.setdefault(kind, []).append(ref)
            tied.names.setdefault(kind, []).append(name)


def _by_key(session: Session, wanted: Select[Record], column: Column, keys: Keys) -> list[Record]:
    found: list[Record] = []
    for part in parts_of(keys):
        found += session.scalars((wanted if part is None else wanted.where(column.in_(part))).order_by(column))
    return found


def parts_of(keys: Keys) -> Iterator[list[int] | None]:
    """The keys in parts that any database takes; once None for all."""
    if keys is None:
        yield None
        return
    held = sorted(keys)
    for first in range(0, len(held), _KEYS_AT_ONCE):
        yield held[first : first + _KEYS_AT_ONCE]
