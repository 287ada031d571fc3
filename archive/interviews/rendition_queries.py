"""Selects that the making of renditions needs; not for readers, since it works on every recording."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import ColumnElement, Text, cast, exists, or_, select
from sqlalchemy.orm import Session, selectinload

from archive.interviews.model import Recording, Rendition
from archive.store.base import Base
from archive.store.model import KeptFile

_KEPT = KeptFile.__table__.c.sha256


def recordings_with_renditions(session: Session) -> Sequence[Recording]:
    """Every recording with its closures and renditions."""
    whole = (selectinload(Recording.closures), selectinload(Recording.renditions))
    return session.scalars(select(Recording).options(*whole).order_by(Recording.ref)).all()


def recording_by_key(session: Session, key: int) -> Recording | None:
    """One recording as it is now, if it still exists."""
    return session.get(Recording, key)


def supplied(session: Session) -> Sequence[Rendition]:
    """The renditions that came in the folder beside their master, or as the master."""
    return session.scalars(select(Rendition).where(Rendition.kind == "supplied").order_by(Rendition.id)).all()


def is_in_use(session: Session, sha256: str) -> bool:
    """Whether anything rests on a kept file.

    Every column of every table that leads to kept files is asked, so that a new kind of file cannot be forgotten here;
    and the levels at other zooms, of which a recording's facts tell.
    """
    leading = [key.parent for table in Base.metadata.sorted_tables for key in table.foreign_keys if key.column is _KEPT]
    rests = (*(exists().where(column == sha256) for column in leading), exists().where(_told_of(sha256)))
    return bool(session.scalar(select(or_(*rests))))


def _told_of(sha256: str) -> ColumnElement[bool]:
    """Whether the facts of a recording name a file."""
    return cast(Recording.facts, Text).contains(sha256, autoescape=True)
