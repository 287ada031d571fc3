"""Every select on objects, pictures and demonstrations, which are open to all viewers."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.objects.model import Demonstration, MuseumObject, Picture
from archive.store.queries import found


def objects(session: Session) -> Sequence[MuseumObject]:
    """All objects by accession number, with pictures and station."""
    whole = (selectinload(MuseumObject.pictures), selectinload(MuseumObject.station))
    return session.scalars(select(MuseumObject).options(*whole).order_by(MuseumObject.ref)).all()


def museum_object(session: Session, ref: str) -> MuseumObject:
    """One object by accession number."""
    return found(session.scalar(select(MuseumObject).where(MuseumObject.ref == ref)), "object", ref)


def picture(session: Session, file_name: str) -> Picture:
    """One picture by file name."""
    return found(session.scalar(select(Picture).where(Picture.file_name == file_name)), "picture", file_name)


def demonstration(session: Session, ref: str) -> Demonstration:
    """One demonstration by reference."""
    return found(session.scalar(select(Demonstration).where(Demonstration.ref == ref)), "demonstration", ref)
