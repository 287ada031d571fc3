"""Every select on objects, pictures and demonstrations, which are open to all viewers."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import ColumnElement, select
from sqlalchemy.orm import Session, joinedload, selectinload

from archive.objects.model import Demonstration, MuseumObject, ObjectProcess, ObjectWorker, Picture
from archive.people.model import Person
from archive.processes.model import Process
from archive.store.queries import found


def objects(session: Session) -> Sequence[MuseumObject]:
    """All objects by accession number, with pictures and station."""
    whole = (selectinload(MuseumObject.pictures), selectinload(MuseumObject.station))
    return session.scalars(select(MuseumObject).options(*whole).order_by(MuseumObject.ref)).all()


def machines(session: Session) -> Sequence[MuseumObject]:
    """All objects that can be run, with demonstrations and clearances."""
    whole = (selectinload(MuseumObject.demonstrations), selectinload(MuseumObject.clearances))
    return session.scalars(
        select(MuseumObject).where(MuseumObject.machine).options(*whole).order_by(MuseumObject.ref)
    ).all()


def museum_object(session: Session, ref: str) -> MuseumObject:
    """One object by accession number."""
    return found(session.scalar(select(MuseumObject).where(MuseumObject.ref == ref)), "object", ref)


def picture(session: Session, file_name: str) -> Picture:
    """One picture by file name."""
    return found(session.scalar(select(Picture).where(Picture.file_name == file_name)), "picture", file_name)


def demonstration(session: Session, ref: str) -> Demonstration:
    """One demonstration by reference."""
    return found(session.scalar(select(Demonstration).where(Demonstration.ref == ref)), "demonstration", ref)


def object_with_all(session: Session, ref: str) -> MuseumObject:
    """One object with its pictures, station, maker, processes and workers."""
    whole = (
        joinedload(MuseumObject.station),
        joinedload(MuseumObject.maker),
        selectinload(MuseumObject.pictures),
        selectinload(MuseumObject.process_ties).joinedload(ObjectProcess.process).selectinload(Process.hazards),
        selectinload(MuseumObject.worker_ties).joinedload(ObjectWorker.person),
    )
    return found(session.scalar(select(MuseumObject).options(*whole).where(MuseumObject.ref == ref)), "object", ref)


def objects_of(session: Session, person: Person) -> Sequence[MuseumObject]:
    """The objects that a person or firm made or worked with."""
    worked = MuseumObject.worker_ties.any(ObjectWorker.person_id == person.id)
    return objects_where(session, (MuseumObject.maker_id == person.id) | worked)


def objects_where(session: Session, which: ColumnElement[bool]) -> Sequence[MuseumObject]:
    """The objects that meet a clause, such as `MuseumObject.station_id == 7`, with pictures."""
    mine = select(MuseumObject).where(which).options(selectinload(MuseumObject.pictures))
    return session.scalars(mine.order_by(MuseumObject.ref)).all()
