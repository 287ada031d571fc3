"""Selects that the making of renditions needs; not for readers, since it works on every recording."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import exists, or_, select
from sqlalchemy.orm import Session, selectinload

from archive.interviews.model import CutClip, Recording, Rendition


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
    """Whether any recording, rendition or cut clip rests on a kept file."""
    rests = or_(
        exists().where(Rendition.sha256 == sha256),
        exists().where(Recording.master_sha256 == sha256),
        exists().where(CutClip.sha256 == sha256),
    )
    return bool(session.scalar(select(rests)))
