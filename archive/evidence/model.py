"""What is kept of statements and their evidence."""

from __future__ import annotations

from typing import Any

from sqlalchemy import CheckConstraint, String, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.interviews.model import Segment
from archive.objects.model import MuseumObject
from archive.plan.model import Station
from archive.processes.model import Process
from archive.store.base import Base, Key, Ref, link, tie_table

EVIDENCE_KINDS = ("segment", "object", "document", "reckoning")

statement_station = tie_table("statement_station", "statement", "station")
statement_process = tie_table("statement_process", "statement", "process")
statement_object = tie_table("statement_object", "statement", "object")


class Statement(Base):
    """A sentence that a guide may say, and what it is about."""

    __tablename__ = "statement"

    id: Mapped[Key]
    ref: Mapped[Ref]
    text: Mapped[str] = mapped_column(Text)
    note: Mapped[str] = mapped_column(Text, default="")

    evidence: Mapped[list[Evidence]] = relationship(
        back_populates="statement",
        cascade="all, delete-orphan",
        order_by="Evidence.position",
        passive_deletes=True,
    )
    stations: Mapped[list[Station]] = relationship(secondary=statement_station, order_by=Station.number)
    processes: Mapped[list[Process]] = relationship(secondary=statement_process, order_by=Process.ref)
    objects: Mapped[list[MuseumObject]] = relationship(secondary=statement_object, order_by=MuseumObject.ref)


class Evidence(Base):
    """One thing that supports or contradicts a statement.

    Pieces with the same `source` are not independent of one another; `firsthand` is false for what was only heard.
    """

    __tablename__ = "evidence"
    __table_args__ = (
        CheckConstraint("side in ('for', 'against')", name="side"),
        CheckConstraint("kind in ('segment', 'object', 'document', 'reckoning')", name="kind"),
        CheckConstraint("kind <> 'segment' or segment_id is not null", name="segment_given"),
        CheckConstraint("kind <> 'object' or object_id is not null", name="object_given"),
    )

    id: Mapped[Key]
    statement_id: Mapped[int] = link("statement")
    position: Mapped[int]
    side: Mapped[str] = mapped_column(String(8))
    kind: Mapped[str] = mapped_column(String(10))
    source: Mapped[str] = mapped_column(String(120), default="")
    firsthand: Mapped[bool] = mapped_column(default=True)
    segment_id: Mapped[int | None] = link("segment")
    object_id: Mapped[int | None] = link("object")
    document: Mapped[str] = mapped_column(Text, default="")
    reckoner: Mapped[str] = mapped_column(String(80), default="")
    inputs: Mapped[dict[str, Any] | None]
    figure: Mapped[str] = mapped_column(String(200), default="")

    statement: Mapped[Statement] = relationship(back_populates="evidence")
    segment: Mapped[Segment | None] = relationship()
    object: Mapped[MuseumObject | None] = relationship()
