"""Selects on what was cut; not for readers, who ask for the clip itself first."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.interviews.model import Clip, CutClip, Recording


def cut_of(session: Session, made_from: str, form: str) -> CutClip | None:
    """What was cut by one recipe, if it is kept."""
    return session.scalar(select(CutClip).where(CutClip.made_from == made_from, CutClip.form == form))


def clip_by_key(session: Session, key: int) -> Clip | None:
    """A clip as it is now, if it still exists."""
    return session.get(Clip, key)


def all_cut(session: Session) -> Sequence[CutClip]:
    """Everything that was cut."""
    return session.scalars(select(CutClip).order_by(CutClip.id)).all()


def recordings_cut_from(session: Session) -> Sequence[Recording]:
    """The recordings of which anything was cut, with clips and closures."""
    cut_from = Recording.id.in_(select(CutClip.recording_id))
    whole = (selectinload(Recording.clips), selectinload(Recording.closures))
    return session.scalars(select(Recording).where(cut_from).options(*whole)).all()
