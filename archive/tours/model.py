"""What is kept of tellings, tours, stops and outings."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.evidence.model import Statement
from archive.interviews.model import Clip
from archive.objects.model import Demonstration, MuseumObject
from archive.plan.model import Station
from archive.store.base import Base, Key, Name, Ref, link, tie_table

TELLING_KINDS = ("talk", "clip", "object", "demonstration", "question")
DEPTHS = ("glance", "closer", "metal")
AUDIENCES = ("families", "school", "adults", "metal")
THEMES = ("metal", "machines", "skill", "women-at-work", "health", "money", "making", "metal-saved", "town")
NEEDS = ("step-free", "quiet", "seats")

telling_statement = tie_table("telling_statement", "telling", "statement")


class Telling(Base):
    """Something told at a station, with its minutes."""

    __tablename__ = "telling"
    __table_args__ = (
        CheckConstraint("kind in ('talk', 'clip', 'object', 'demonstration', 'question')", name="kind"),
        CheckConstraint("kind <> 'clip' or clip_id is not null", name="clip_given"),
        CheckConstraint("kind <> 'demonstration' or demonstration_id is not null", name="demonstration_given"),
        CheckConstraint("minutes > 0", name="minutes"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    station_id: Mapped[int] = link("station")
    kind: Mapped[str] = mapped_column(String(15))
    title: Mapped[Name]
    minutes: Mapped[float]
    script: Mapped[str] = mapped_column(Text, default="")
    clip_id: Mapped[int | None] = link("clip")
    object_id: Mapped[int | None] = link("object")
    demonstration_id: Mapped[int | None] = link("demonstration")
    themes: Mapped[list[str]]
    depth: Mapped[str] = mapped_column(String(10))
    audiences: Mapped[list[str]]
    language: Mapped[str] = mapped_column(String(35))

    station: Mapped[Station] = relationship()
    clip: Mapped[Clip | None] = relationship()
    object: Mapped[MuseumObject | None] = relationship()
    demonstration: Mapped[Demonstration | None] = relationship()
    statements: Mapped[list[Statement]] = relationship(secondary=telling_statement, order_by=Statement.ref)


class Tour(Base):
    """An ordered list of stops for one kind of group."""

    __tablename__ = "tour"

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    summary: Mapped[str] = mapped_column(Text)
    audience: Mapped[str] = mapped_column(String(15))
    minutes: Mapped[float]
    group_size: Mapped[int]
    needs: Mapped[list[str]]
    start_id: Mapped[int | None] = mapped_column(ForeignKey("station.id", ondelete="SET NULL"))
    finish_id: Mapped[int | None] = mapped_column(ForeignKey("station.id", ondelete="SET NULL"))
    inputs: Mapped[dict[str, Any]]

    start: Mapped[Station | None] = relationship(foreign_keys=[start_id])
    finish: Mapped[Station | None] = relationship(foreign_keys=[finish_id])
    stops: Mapped[list[Stop]] = relationship(
        cascade="all, delete-orphan", order_by="Stop.position", passive_deletes=True
    )


class Stop(Base):
    """A station on a tour, and the minutes of walking to reach it."""

    __tablename__ = "stop"
    __table_args__ = (UniqueConstraint("tour_id", "position"),)

    id: Mapped[Key]
    tour_id: Mapped[int] = link("tour")
    position: Mapped[int]
    station_id: Mapped[int] = link("station")
    walk_minutes: Mapped[float]

    station: Mapped[Station] = relationship()
    chosen: Mapped[list[StopTelling]] = relationship(
        cascade="all, delete-orphan", order_by="StopTelling.position", passive_deletes=True
    )


class StopTelling(Base):
    """A telling chosen for a stop, in its place."""

    __tablename__ = "stop_telling"
    __table_args__ = (UniqueConstraint("stop_id", "position"),)

    id: Mapped[Key]
    stop_id: Mapped[int] = link("stop")
    position: Mapped[int]
    telling_id: Mapped[int] = link("telling")

    telling: Mapped[Telling] = relationship()


class Outing(Base):
    """One giving of a tour: when, by whom, to how many, and what happened."""

    __tablename__ = "outing"

    id: Mapped[Key]
    tour_id: Mapped[int | None] = mapped_column(ForeignKey("tour.id", ondelete="SET NULL"), index=True)
    account_id: Mapped[int | None] = mapped_column(ForeignKey("account.id", ondelete="SET NULL"), index=True)
    given_on: Mapped[dt.date]
    group_size: Mapped[int]
    note: Mapped[str] = mapped_column(Text, default="")
