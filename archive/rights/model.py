"""What is kept of agreements, their permissions by purpose, and closures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from sqlalchemy import CheckConstraint, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.audio.guarding import guarded_span
from archive.store.base import Base, Key, link
from archive.values.timecode import Span


class Agreement(Base):
    """What the narrator of one interview signed."""

    __tablename__ = "agreement"
    __table_args__ = (UniqueConstraint("interview_id"),)

    id: Mapped[Key]
    interview_id: Mapped[int] = link("interview")
    signed: Mapped[dt.date | None]
    note: Mapped[str] = mapped_column(Text, default="")

    permissions: Mapped[list[Permission]] = relationship(
        cascade="all, delete-orphan", order_by="Permission.purpose", passive_deletes=True
    )


class Permission(Base):
    """What an agreement says of one purpose: whether, from when, under which name, until when."""

    __tablename__ = "permission"
    __table_args__ = (
        UniqueConstraint("agreement_id", "purpose"),
        CheckConstraint("purpose in ('research', 'tour', 'kiosk', 'web', 'publication')", name="purpose"),
        CheckConstraint("name_form in ('own', 'initials', 'other')", name="name_form"),
        CheckConstraint("name_form <> 'other' or shown_as <> ''", name="other_name_given"),
    )

    id: Mapped[Key]
    agreement_id: Mapped[int] = link("agreement")
    purpose: Mapped[str] = mapped_column(String(12))
    allowed: Mapped[bool]
    from_date: Mapped[dt.date | None]
    withdrawn_on: Mapped[dt.date | None]
    name_form: Mapped[str] = mapped_column(String(10), default="own")
    shown_as: Mapped[str] = mapped_column(String(200), default="")


class Closure(Base):
    """A stretch of a recording that may not be heard or read by anyone.

    What is masked of the sound, and hidden of the words, is a little more: the closure with its guard on both sides.
    The two are only ever set together, so that there is no closure without its guard.
    """

    __tablename__ = "closure"
    __table_args__ = (
        CheckConstraint("0 <= start_ms and start_ms < end_ms", name="span"),
        CheckConstraint(
            "0 <= masked_start_ms and masked_start_ms <= start_ms and end_ms <= masked_end_ms", name="mask"
        ),
    )

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    start_ms: Mapped[int]
    end_ms: Mapped[int]
    masked_start_ms: Mapped[int]
    masked_end_ms: Mapped[int]
    reason: Mapped[str] = mapped_column(Text, default="")
    review_on: Mapped[dt.date | None]

    def __init__(
        self,
        span: Span,
        pauses: Iterable[Span],
        duration_ms: int,
        *,
        reason: str = "",
        review_on: dt.date | None = None,
        recording_id: int | None = None,
    ) -> None:
        more = {} if recording_id is None else {"recording_id": recording_id}
        super().__init__(reason=reason, review_on=review_on, **more)
        self.cover(span, pauses, duration_ms)

    def cover(self, span: Span, pauses: Iterable[Span], duration_ms: int) -> None:
        """Let it close a stretch of a recording so long, with what pauses are known of its sound."""
        guarded = guarded_span(span, pauses, duration_ms)
        self.start_ms, self.end_ms = span.start_ms, span.end_ms
        self.masked_start_ms, self.masked_end_ms = guarded.start_ms, guarded.end_ms

    @property
    def span(self) -> Span:
        """What was closed, from when to when."""
        return Span(self.start_ms, self.end_ms)

    @property
    def masked(self) -> Span:
        """What is masked for it, from when to when."""
        return Span(self.masked_start_ms, self.masked_end_ms)
