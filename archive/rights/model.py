"""What is kept of agreements, their permissions by purpose, and closures."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import CheckConstraint, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.store.base import Base, Key, link


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
    """A stretch of a recording that may not be heard or read by anyone."""

    __tablename__ = "closure"
    __table_args__ = (CheckConstraint("0 <= start_ms and start_ms < end_ms", name="span"),)

    id: Mapped[Key]
    recording_id: Mapped[int] = link("recording")
    start_ms: Mapped[int]
    end_ms: Mapped[int]
    reason: Mapped[str] = mapped_column(Text, default="")
    review_on: Mapped[dt.date | None]
