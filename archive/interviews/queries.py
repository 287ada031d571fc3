"""Every select on interviews, recordings, segments and clips for readers; each takes a viewer.

What is closed to the viewer is not in the rows, so it cannot be in counts, lists or names made of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import ColumnElement, Select, and_, exists, func, or_, select
from sqlalchemy.orm import Session, contains_eager, joinedload, selectinload

from archive.interviews.model import (
    Clip,
    Interview,
    Recording,
    Segment,
    Tie,
    interview_narrator,
)
from archive.people.model import Person
from archive.processes.model import Hazard
from archive.rights.decisions import Allowance, Viewer
from archive.rights.model import Agreement, Closure, Permission
from archive.rights.queries import clear_of_closures, interview_open, permission_open
from archive.store.queries import found
from archive.values.timecode import Span


def open_interviews(viewer: Viewer) -> Select[Interview]:
    """The select that every list of interviews starts from."""
    return select(Interview).where(interview_open(viewer, Interview.id))


def segment_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Segment (joined to Recording): interview open and clear of closures."""
    return and_(
        interview_open(viewer, Recording.interview_id),
        clear_of_closures(Segment.recording_id, Segment.start_ms, Segment.end_ms),
    )


def clip_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Clip (joined to Recording): interview open and clear of closures."""
    return and_(
        interview_open(viewer, Recording.interview_id),
        clear_of_closures(Clip.recording_id, Clip.start_ms, Clip.end_ms),
    )


def person_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Person: a narrator none of whose interviews is open is not known of."""
    narrated = exists().where(interview_narrator.c.person_id == Person.id)
    heard = exists().where(
        interview_narrator.c.person_id == Person.id, interview_open(viewer, interview_narrator.c.interview_id)
    )
    return or_(~narrated, heard)


def tied_to(kind: str, key: int) -> ColumnElement[bool]:
    """The clause on Tie for one record: `tied_to("station", 7)`."""
    columns = {
        "object": Tie.object_id,
        "process": Tie.process_id,
        "station": Tie.station_id,
        "person": Tie.person_id,
        "term": Tie.term_id,
    }
    return columns[kind] == key


def interviews(session: Session, viewer: Viewer) -> Sequence[Interview]:
    """The open interviews by reference, with narrators and recordings."""
    whole = (selectinload(Interview.narrators), selectinload(Interview.recordings))
    return session.scalars(open_interviews(viewer).options(*whole).order_by(Interview.ref)).all()


def interview(session: Session, viewer: Viewer, ref: str) -> Interview:
    """One open interview."""
    return found(session.scalar(open_interviews(viewer).where(Interview.ref == ref)), "interview", ref)


def recording(session: Session, viewer: Viewer, ref: str) -> Recording:
    """One recording of an open interview. It may have closures: only its masked copies may be heard then."""
    wanted = select(Recording).where(Recording.ref == ref, interview_open(viewer, Recording.interview_id))
    return found(session.scalar(wanted), "recording", ref)


def segments(session: Session, viewer: Viewer, recording: Recording) -> Sequence[Segment]:
    """The open segments of a recording in order, with ties."""
    return session.scalars(
        _segments(viewer)
        .where(Segment.recording_id == recording.id)
        .options(selectinload(Segment.ties))
        .order_by(Segment.position)
    ).all()


def segments_to_read(session: Session, viewer: Viewer, recording: Recording) -> Sequence[Segment]:
    """The same, with all that the ties lead to, for the page of a whole transcript."""
    targets = (Tie.object, Tie.process, Tie.station, Tie.person, Tie.term)
    whole = selectinload(Segment.ties).options(*(selectinload(target) for target in targets))
    wanted = _segments(viewer).where(Segment.recording_id == recording.id)
    return session.scalars(wanted.options(whole).order_by(Segment.position)).all()


def segments_by_id(session: Session, viewer: Viewer, ids: Iterable[int]) -> dict[int, Segment]:
    """The open segments among the given keys, with recording and interview."""
    whole = selectinload(Segment.recording).selectinload(Recording.interview)
    rows = session.scalars(_segments(viewer).where(Segment.id.in_(list(ids))).options(whole))
    return {segment.id: segment for segment in rows}


def segments_about(session: Session, viewer: Viewer, about: ColumnElement[bool]) -> Sequence[Segment]:
    """The open segments with an accepted tie that meets the clause, such as `Tie.process_id == 7`."""
    tied = exists().where(Tie.segment_id == Segment.id, Tie.state == "accepted", about)
    whole = selectinload(Segment.recording).selectinload(Recording.interview)
    ordered = _segments(viewer).where(tied).options(whole).order_by(Recording.ref, Segment.start_ms)
    return session.scalars(ordered).all()


def lines_about(session: Session, viewer: Viewer, about: ColumnElement[bool], most: int) -> Sequence[Segment]:
    """The longest open lines by narrators with an accepted tie that meets the clause, with recording and interview."""
    tied = exists().where(Tie.segment_id == Segment.id, Tie.state == "accepted", about)
    narrated = exists().where(
        interview_narrator.c.interview_id == Recording.interview_id,
        interview_narrator.c.person_id == Segment.speaker_id,
    )
    whole = contains_eager(Segment.recording).selectinload(Recording.interview).selectinload(Interview.narrators)
    wanted = _segments(viewer).where(tied, narrated).options(whole)
    return session.scalars(wanted.order_by(func.length(Segment.text).desc(), Segment.id).limit(most)).all()


def clips(session: Session, viewer: Viewer, about: ColumnElement[bool] | None = None) -> Sequence[Clip]:
    """The open clips by reference; with a clause on Tie, only those that speak of it."""
    wanted = _clips(viewer)
    if about is not None:
        wanted = wanted.where(exists().where(Tie.clip_id == Clip.id, Tie.state == "accepted", about))
    return session.scalars(wanted.order_by(Clip.ref)).all()


def testimony(session: Session, viewer: Viewer, hazard: Hazard) -> Sequence[Clip]:
    """The open clips that bear witness to a hazard, by reference."""
    witness = _clips(viewer).where(Clip.hazards.any(Hazard.id == hazard.id))
    return session.scalars(witness.order_by(Clip.ref)).all()


def clip(session: Session, viewer: Viewer, ref: str) -> Clip:
    """One open clip."""
    return found(session.scalar(_clips(viewer).where(Clip.ref == ref)), "clip", ref)


def ties_of(session: Session, clip: Clip) -> Sequence[Tie]:
    """What a clip speaks of, accepted, with the records themselves."""
    whole = (joinedload(Tie.object), joinedload(Tie.process), joinedload(Tie.station), joinedload(Tie.term))
    mine = select(Tie).where(Tie.clip_id == clip.id, Tie.state == "accepted").options(*whole)
    return session.scalars(mine.order_by(Tie.id)).all()


def lines_within(session: Session, viewer: Viewer, recording_id: int, span: Span) -> Sequence[Segment]:
    """The open segments of a recording that overlap a span, in order."""
    mine = _segments(viewer).where(
        Segment.recording_id == recording_id, Segment.start_ms < span.end_ms, Segment.end_ms > span.start_ms
    )
    return session.scalars(mine.order_by(Segment.position)).all()


def clip_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the clips that are open."""
    return frozenset(session.scalars(select(Clip.id).join(Clip.recording).where(clip_open(viewer))))


def segment_ids(session: Session, viewer: Viewer, ids: Iterable[int]) -> frozenset[int]:
    """Which of the given segments are open."""
    wanted = select(Segment.id).join(Segment.recording).where(segment_open(viewer), Segment.id.in_(list(ids)))
    return frozenset(session.scalars(wanted))


def closed_segment_ids(session: Session) -> frozenset[int]:
    """The keys of the segments that are hidden, for leaving them out of what was made before they were."""
    # From the few closures to their segments, where `clear_of_closures` would look at every segment there is.
    over = Closure.recording_id == Segment.recording_id
    reached = over & (Closure.masked_start_ms < Segment.end_ms) & (Closure.masked_end_ms > Segment.start_ms)
    return frozenset(session.scalars(select(Segment.id).join(Closure, reached)))


def open_interview_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the open interviews."""
    return frozenset(session.scalars(select(Interview.id).where(interview_open(viewer, Interview.id))))


def people(session: Session, viewer: Viewer) -> Sequence[Person]:
    """The people that the viewer may know of."""
    return session.scalars(select(Person).where(person_open(viewer)).order_by(Person.ref)).all()


def person(session: Session, viewer: Viewer, ref: str) -> Person:
    """One person that the viewer may know of."""
    return found(session.scalar(select(Person).where(Person.ref == ref, person_open(viewer))), "person", ref)


def open_person_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the people that the viewer may know of."""
    return frozenset(session.scalars(select(Person.id).where(person_open(viewer))))


def allowances(session: Session, viewer: Viewer) -> dict[int, list[Allowance]]:
    """What the open agreements of each narrator say of the viewer's purpose, by the person's key."""
    told = (
        select(interview_narrator.c.person_id, Permission)
        .join(Agreement, Agreement.interview_id == interview_narrator.c.interview_id)
        .join(Permission, Permission.agreement_id == Agreement.id)
        .where(permission_open(viewer))
    )
    mine: dict[int, list[Allowance]] = {}
    for person_id, said in session.execute(told):
        allowance = Allowance(said.allowed, said.from_date, said.withdrawn_on, said.name_form, said.shown_as)
        mine.setdefault(person_id, []).append(allowance)
    return mine


def narrated_by(session: Session, viewer: Viewer, person: Person) -> Sequence[Interview]:
    """The open interviews of one narrator."""
    told = open_interviews(viewer).where(Interview.narrators.any(Person.id == person.id))
    return session.scalars(told.order_by(Interview.ref)).all()


def open_segment_count(session: Session, viewer: Viewer) -> int:
    """How many segments the viewer may read."""
    counted = select(func.count(Segment.id)).join(Segment.recording).where(segment_open(viewer))
    return session.scalar(counted) or 0


def interview_refs(session: Session) -> dict[int, str]:
    """Every interview's reference by key, for the keeper: open or closed, and nothing but the reference."""
    return {row.id: row.ref for row in session.execute(select(Interview.id, Interview.ref))}


def recording_refs(session: Session) -> dict[int, str]:
    """Every recording's reference by key, for the keeper."""
    return {row.id: row.ref for row in session.execute(select(Recording.id, Recording.ref))}


def _segments(viewer: Viewer) -> Select[Segment]:
    return select(Segment).join(Segment.recording).where(segment_open(viewer))


def _clips(viewer: Viewer) -> Select[Clip]:
    whole = selectinload(Clip.recording).selectinload(Recording.interview).selectinload(Interview.narrators)
    return select(Clip).join(Clip.recording).where(clip_open(viewer)).options(whole)
