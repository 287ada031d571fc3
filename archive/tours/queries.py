"""Every select on tours and tellings for readers; tellings that are closed to the viewer are left out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from sqlalchemy import ColumnElement, and_, exists, or_, select
from sqlalchemy.orm import Session, selectinload

from archive.evidence.queries import statement_open
from archive.interviews.model import Clip, Recording, Segment
from archive.interviews.queries import clip_open
from archive.objects.model import Demonstration, MuseumObject
from archive.plan.model import Station
from archive.rights.decisions import Viewer
from archive.store.queries import found
from archive.tours.model import Departure, Stop, StopTelling, Telling, Tour, TourVersion


def telling_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Telling: no clip that is closed to the viewer, and nothing that rests on a closed statement.

    What is said in a telling is written from its statements, so its script would tell what they tell.
    """
    open_clips = select(Clip.id).join(Clip.recording).where(clip_open(viewer))
    closed = Telling.statements.any(~statement_open(viewer))
    return and_(or_(Telling.clip_id.is_(None), Telling.clip_id.in_(open_clips)), ~closed)


def tellings(session: Session, viewer: Viewer) -> Sequence[Telling]:
    """The tellings open to the viewer, by reference."""
    whole = (selectinload(Telling.station), selectinload(Telling.clip).selectinload(Clip.recording))
    return session.scalars(select(Telling).where(telling_open(viewer)).options(*whole).order_by(Telling.ref)).all()


def tellings_at(session: Session, viewer: Viewer, station: Station) -> Sequence[Telling]:
    """The tellings open to the viewer at one station, without those that were withdrawn."""
    here = select(Telling).where(Telling.station_id == station.id, ~Telling.withdrawn, telling_open(viewer))
    mine = here.options(*TELLING_WHOLE)
    return session.scalars(mine.order_by(Telling.kind, Telling.ref)).all()


def tellings_to_plan(session: Session, viewer: Viewer) -> Sequence[Telling]:
    """The tellings that a tour may be made of: open to the viewer and not withdrawn, with the papers of machines."""
    mine = select(Telling).where(~Telling.withdrawn, telling_open(viewer)).options(*TELLING_WHOLE)
    placed = selectinload(Telling.station)
    return session.scalars(mine.options(placed).order_by(Telling.ref)).all()


def captioned_clips(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the open clips of which every part that is spoken can be read: those that have segments."""
    written = exists().where(
        Segment.recording_id == Clip.recording_id, Segment.start_ms < Clip.end_ms, Segment.end_ms > Clip.start_ms
    )
    return frozenset(session.scalars(select(Clip.id).join(Clip.recording).where(clip_open(viewer), written)))


def clips_on(session: Session, viewer: Viewer, tour: Tour) -> Sequence[Clip]:
    """The open clips that were chosen for a tour."""
    told = (Telling.id == StopTelling.telling_id) & (Stop.id == StopTelling.stop_id)
    chosen = select(Telling.clip_id).where(told, Stop.tour_id == tour.id)
    whole = selectinload(Clip.recording).selectinload(Recording.closures)
    mine = select(Clip).join(Clip.recording).where(clip_open(viewer), Clip.id.in_(chosen))
    return session.scalars(mine.options(whole).order_by(Clip.ref)).all()


def departures_of(session: Session, day: dt.date, guide: str) -> Sequence[Departure]:
    """A guide's departures on a day, with their tours."""
    mine = select(Departure).where(Departure.day == day, Departure.guide == guide)
    return session.scalars(mine.options(selectinload(Departure.tour).options(*_WHOLE)).order_by(Departure.id)).all()


def telling_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the tellings open to the viewer."""
    return frozenset(session.scalars(select(Telling.id).where(telling_open(viewer))))


def tours(session: Session) -> Sequence[Tour]:
    """All tours by name but those withdrawn, with what was chosen for them; show only tellings in `telling_ids`."""
    kept = select(Tour).where(~Tour.withdrawn)
    return session.scalars(kept.options(*_WHOLE).order_by(Tour.minutes, Tour.name)).all()


def withdrawn_tours(session: Session) -> Sequence[Tour]:
    """The tours that were put away, by name."""
    return session.scalars(select(Tour).where(Tour.withdrawn).order_by(Tour.name)).all()


def version_of(session: Session, tour: Tour, number: int) -> TourVersion | None:
    """One version of a tour, if it is kept."""
    return session.scalar(select(TourVersion).where(TourVersion.tour_id == tour.id, TourVersion.number == number))


def steps_of(session: Session, tour: Tour) -> tuple[str, str]:
    """What undoing would undo and what doing again would do, in words; empty where there is no such step."""
    here, on = version_of(session, tour, tour.version), version_of(session, tour, tour.version + 1)
    back = version_of(session, tour, tour.version - 1)
    return (here.said if here and back else "", on.said if on else "")


def refs_taken(session: Session, beginning: str) -> frozenset[str]:
    """The references of tours that begin so."""
    return frozenset(session.scalars(select(Tour.ref).where(Tour.ref.startswith(beginning, autoescape=True))))


def tellings_named(session: Session, refs: Iterable[str]) -> dict[str, Telling]:
    """Tellings by reference, open or not: for putting a tour back as it was, never for showing."""
    rows = session.scalars(select(Telling).where(Telling.ref.in_(list(refs))))
    return {row.ref: row for row in rows}


def tour(session: Session, ref: str) -> Tour:
    """One tour by reference, with stops and what was chosen for them; show only tellings in `telling_ids`."""
    return found(session.scalar(select(Tour).where(Tour.ref == ref).options(*_WHOLE)), "tour", ref)


TELLING_WHOLE = (
    selectinload(Telling.clip).selectinload(Clip.recording).selectinload(Recording.interview),
    selectinload(Telling.object),
    selectinload(Telling.demonstration).selectinload(Demonstration.machine).selectinload(MuseumObject.clearances),
    selectinload(Telling.statements),
)
_CHOSEN = selectinload(Tour.stops).selectinload(Stop.chosen).selectinload(StopTelling.telling)
_WHOLE = (
    selectinload(Tour.stops).selectinload(Stop.station).selectinload(Station.room),
    *(_CHOSEN.options(part) for part in TELLING_WHOLE),
)
