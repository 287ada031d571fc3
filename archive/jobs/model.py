"""What is kept of work in the background."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import JSON, CheckConstraint, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from archive.store.base import Base, Key, utc_now

STATES = ("waiting", "working", "done", "failed", "stopped")
ENDED = ("done", "failed", "stopped")


class Job(Base):
    """One piece of work: what is asked, by whom, how far it is, and what came of it."""

    __tablename__ = "job"
    __table_args__ = (
        CheckConstraint("state in ('waiting', 'working', 'done', 'failed', 'stopped')", name="state"),
        CheckConstraint("share >= 0 and share <= 1", name="share"),
    )

    id: Mapped[Key]
    key: Mapped[str] = mapped_column(String(32), unique=True)
    kind: Mapped[str] = mapped_column(String(40))
    who: Mapped[str] = mapped_column(String(120))
    inputs: Mapped[dict[str, Any]]
    state: Mapped[str] = mapped_column(String(10), default="waiting")
    share: Mapped[float] = mapped_column(default=0.0)
    says: Mapped[str] = mapped_column(Text, default="")
    outcome: Mapped[Any] = mapped_column(JSON, default=None, nullable=True)
    stop_asked: Mapped[bool] = mapped_column(default=False)
    asked_at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    ended_at: Mapped[dt.datetime | None]

    @property
    def ended(self) -> bool:
        """Whether nothing more will come of it."""
        return self.state in ENDED
