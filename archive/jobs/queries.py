"""Every select on jobs."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.jobs.model import ENDED, Job


def job(session: Session, key: str) -> Job:
    """One job by its key."""
    row = session.scalar(select(Job).where(Job.key == key))
    if row is None:
        raise NotFound(f"There is no work '{key[:40]}' here.")
    return row


def unended(session: Session) -> Sequence[Job]:
    """The jobs of which something may still come, in the order in which they were asked."""
    return session.scalars(select(Job).where(Job.state.not_in(ENDED)).order_by(Job.id)).all()


def jobs_of_kind(session: Session, kind: str, limit: int = 50) -> Sequence[Job]:
    """The jobs of one kind, the newest first."""
    return session.scalars(select(Job).where(Job.kind == kind).order_by(Job.id.desc()).limit(limit)).all()
