"""What is kept of processes, their chain, and hazards."""

from __future__ import annotations

from typing import Any

from sqlalchemy import CheckConstraint, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.plan.model import Station
from archive.store.base import Base, Key, Name, Ref, link, tie_table
from archive.terms.model import Term

SECTIONS = (
    "What goes in",
    "What is done",
    "What comes out",
    "At a glance",
    "A closer look",
    "For people who know metal",
    "Cautions",
)
HAZARD_SECTIONS = ("Then", "Now", "What keeps it from hurting", "Cautions")


process_station = tie_table("process_station", "process", "station")
process_hazard = tie_table("process_hazard", "process", "hazard")
process_term = tie_table("process_term", "process", "term")


class Process(Base):
    """A stage of the work: what goes in, what is done, what comes out, and why the metal behaves so."""

    __tablename__ = "process"

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    summary: Mapped[str] = mapped_column(Text)
    themes: Mapped[list[str]]

    sections: Mapped[list[ProcessSection]] = relationship(
        cascade="all, delete-orphan", order_by="ProcessSection.position", passive_deletes=True
    )
    comes_after: Mapped[list[ProcessLink]] = relationship(
        foreign_keys="ProcessLink.process_id", cascade="all, delete-orphan", passive_deletes=True
    )
    comes_before: Mapped[list[ProcessLink]] = relationship(foreign_keys="ProcessLink.after_id", viewonly=True)
    reckonings: Mapped[list[Reckoning]] = relationship(
        cascade="all, delete-orphan", order_by="Reckoning.position", passive_deletes=True
    )
    stations: Mapped[list[Station]] = relationship(
        secondary=process_station, order_by=Station.number, backref="processes"
    )
    hazards: Mapped[list[Hazard]] = relationship(
        secondary=process_hazard, order_by="Hazard.ref", back_populates="processes"
    )
    terms: Mapped[list[Term]] = relationship(secondary=process_term, order_by=Term.preferred)


class ProcessSection(Base):
    """A named stretch of a process's prose, as its author wrote it (plain marks, never HTML)."""

    __tablename__ = "process_section"
    __table_args__ = (UniqueConstraint("process_id", "heading"),)

    id: Mapped[Key]
    process_id: Mapped[int] = link("process")
    position: Mapped[int]
    heading: Mapped[str] = mapped_column(String(60))
    body: Mapped[str] = mapped_column(Text)


class ProcessLink(Base):
    """One arrow of the chain: this process comes after another, and what passes between them."""

    __tablename__ = "process_link"
    __table_args__ = (
        UniqueConstraint("process_id", "after_id"),
        CheckConstraint("process_id <> after_id", name="not_itself"),
    )

    id: Mapped[Key]
    process_id: Mapped[int] = link("process")
    after_id: Mapped[int] = link("process")
    passes: Mapped[str] = mapped_column(String(300), default="")

    process: Mapped[Process] = relationship(foreign_keys=[process_id], overlaps="comes_after,comes_before")
    after: Mapped[Process] = relationship(foreign_keys=[after_id], overlaps="comes_after,comes_before")


class Reckoning(Base):
    """A reckoner named by a process page, with this works' figures as inputs."""

    __tablename__ = "reckoning"

    id: Mapped[Key]
    process_id: Mapped[int] = link("process")
    position: Mapped[int]
    name: Mapped[str] = mapped_column(String(80))
    inputs: Mapped[dict[str, Any]]
    about: Mapped[str] = mapped_column(Text, default="")


class Hazard(Base):
    """What could hurt, then and now."""

    __tablename__ = "hazard"

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    summary: Mapped[str] = mapped_column(Text)
    limits: Mapped[str] = mapped_column(Text, default="")
    then: Mapped[str] = mapped_column(Text)
    now: Mapped[str] = mapped_column(Text)
    cautions: Mapped[str] = mapped_column(Text)

    controls: Mapped[list[Control]] = relationship(
        cascade="all, delete-orphan", order_by="Control.position", passive_deletes=True
    )
    processes: Mapped[list[Process]] = relationship(
        secondary=process_hazard, order_by=Process.name, back_populates="hazards"
    )


class Control(Base):
    """What keeps a hazard from hurting."""

    __tablename__ = "control"

    id: Mapped[Key]
    hazard_id: Mapped[int] = link("hazard")
    position: Mapped[int]
    text: Mapped[str] = mapped_column(Text)
