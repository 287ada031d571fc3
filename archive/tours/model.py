"""What is kept of tellings, tours, stops, departures and outings."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.evidence.model import Statement
from archive.interviews.model import Clip
from archive.objects.model import Demonstration, MuseumObject
from archive.plan.model import Station
from archive.store.base import Base, Key, Name, Ref, link, tie_table, utc_now

TELLING_KINDS = ("talk", "clip", "object", "demonstration", "question")
DEPTHS = ("glance", "closer", "metal")
AUDIENCES = ("families", "school", "adults", "metal")
THEMES = ("metal", "machines", "skill", "women-at-work", "health", "money", "making", "metal-saved", "town")
NEEDS = ("step-free", "narrow", "no-lift", "quiet", "no-sudden-noise", "seats", "captions", "spoken-description")
ENTRY_KINDS = ("started", "arrived", "left", "told", "dropped", "question", "note", "incident", "finished")

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
    withdrawn: Mapped[bool] = mapped_column(default=False)

    station: Mapped[Station] = relationship()
    clip: Mapped[Clip | None] = relationship()
    object: Mapped[MuseumObject | None] = relationship()
    demonstration: Mapped[Demonstration | None] = relationship()
    statements: Mapped[list[Statement]] = relationship(secondary=telling_statement, order_by=Statement.ref)


class Tour(Base):
    """An ordered list of stops for one kind of group.

    `inputs` are the wishes that it was planned from; `outcome` is what the planner said of it (its worth, the bound,
    whether that is proven, what was left out and why). `version` is the number of the `TourVersion` that it shows.
    """

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
    outcome: Mapped[dict[str, Any]] = mapped_column(default=dict)
    version: Mapped[int] = mapped_column(default=0)
    withdrawn: Mapped[bool] = mapped_column(default=False)

    start: Mapped[Station | None] = relationship(foreign_keys=[start_id])
    finish: Mapped[Station | None] = relationship(foreign_keys=[finish_id])
    stops: Mapped[list[Stop]] = relationship(
        cascade="all, delete-orphan", order_by="Stop.position", passive_deletes=True
    )


class Stop(Base):
    """A station on a tour, and the minutes of walking to reach it. What is pinned stays when the rest is finished."""

    __tablename__ = "stop"
    __table_args__ = (UniqueConstraint("tour_id", "position"),)

    id: Mapped[Key]
    tour_id: Mapped[int] = link("tour")
    position: Mapped[int]
    station_id: Mapped[int] = link("station")
    walk_minutes: Mapped[float]
    pinned: Mapped[bool] = mapped_column(default=False)

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
    pinned: Mapped[bool] = mapped_column(default=False)

    telling: Mapped[Telling] = relationship()


class TourVersion(Base):
    """A tour as it stood after one deed, so that the deed can be undone and done again.

    `state` holds stops and tellings by reference; `said` is the deed in words.
    """

    __tablename__ = "tour_version"
    __table_args__ = (UniqueConstraint("tour_id", "number"),)

    id: Mapped[Key]
    tour_id: Mapped[int] = link("tour")
    number: Mapped[int]
    made_at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    who: Mapped[str] = mapped_column(String(120))
    said: Mapped[str] = mapped_column(String(300))
    state: Mapped[dict[str, Any]]


class Departure(Base):
    """A tour that is to leave on a day: with whom, not before and not after which minute of the day, and when it does.

    Minutes of the day are counted from midnight. A fixed departure keeps its time when the day is planned again.
    """

    __tablename__ = "departure"
    __table_args__ = (
        CheckConstraint("earliest >= 0 and latest >= earliest and latest <= 1440", name="window"),
        CheckConstraint("group_size > 0", name="group"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    day: Mapped[dt.date] = mapped_column(index=True)
    tour_id: Mapped[int | None] = mapped_column(ForeignKey("tour.id", ondelete="SET NULL"), index=True)
    guide: Mapped[str] = mapped_column(String(120))
    group_size: Mapped[int]
    earliest: Mapped[int]
    latest: Mapped[int]
    leaves: Mapped[int | None]
    fixed: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(Text, default="")

    tour: Mapped[Tour | None] = relationship()


class Outing(Base):
    """One giving of a tour: when, by whom, to how many, and what happened.

    `key` is the device's own, so that an outing handed in twice is kept once. `planned` is the tour as it was planned
    then, stop by stop, since the tour may change afterwards.
    """

    __tablename__ = "outing"

    id: Mapped[Key]
    key: Mapped[str | None] = mapped_column(String(64), unique=True)
    tour_id: Mapped[int | None] = mapped_column(ForeignKey("tour.id", ondelete="SET NULL"), index=True)
    account_id: Mapped[int | None] = mapped_column(ForeignKey("account.id", ondelete="SET NULL"), index=True)
    given_on: Mapped[dt.date]
    group_size: Mapped[int]
    planned: Mapped[list[Any]] = mapped_column(default=list)
    note: Mapped[str] = mapped_column(Text, default="")

    tour: Mapped[Tour | None] = relationship()
    entries: Mapped[list[OutingEntry]] = relationship(
        cascade="all, delete-orphan", order_by="OutingEntry.at", passive_deletes=True
    )


class OutingEntry(Base):
    """One line of an outing's log, as the device wrote it down: what happened, when, at which station.

    Station and telling are named by reference, so that the log outlives the loading of a collection anew.
    """

    __tablename__ = "outing_entry"

    id: Mapped[Key]
    key: Mapped[str] = mapped_column(String(64), unique=True)
    outing_id: Mapped[int] = link("outing")
    at: Mapped[dt.datetime]
    kind: Mapped[str] = mapped_column(String(12))
    station: Mapped[str] = mapped_column(String(64), default="")
    telling: Mapped[str] = mapped_column(String(64), default="")
    text: Mapped[str] = mapped_column(Text, default="")
