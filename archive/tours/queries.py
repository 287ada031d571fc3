"""Every select on tours and tellings for readers; tellings that are closed to the viewer are left out."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import ColumnElement, and_, or_, select
from sqlalchemy.orm import Session, selectinload

from archive.evidence.queries import statement_open
from archive.interviews.model import Clip, Recording
from archive.interviews.queries import clip_open
from archive.objects.model import Demonstration, MuseumObject
from archive.plan.model import Station
from archive.rights.decisions import Viewer
from archive.store.queries import found
from archive.tours.model import Stop, StopTelling, Telling, Tour


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


def telling_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the tellings open to the viewer."""
    return frozenset(session.scalars(select(Telling.id).where(telling_open(viewer))))


def tours(session: Session) -> Sequence[Tour]:
    """All tours by name, with stops and what was chosen for them; show only tellings in `telling_ids`."""
    return session.scalars(select(Tour).options(*_WHOLE).order_by(Tour.minutes, Tour.name)).all()


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
