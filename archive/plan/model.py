"""What is kept of the plan. Points and outlines are in the floor's own drawing units."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.store.base import Base, Key, Name, Ref, link

PASSAGE_KINDS = ("stairs", "lift", "ramp")
OBSTACLE_KINDS = ("machine", "bench", "barrier")
PLACE_KINDS = ("door", "passage", "room", "station")
AMENITY_KINDS = ("toilet", "seat", "exit", "first aid", "water")


class Floor(Base):
    """One level, with its drawing (clean SVG) and scale."""

    __tablename__ = "floor"
    __table_args__ = (CheckConstraint("metres_per_unit > 0", name="scale"),)

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    level: Mapped[int] = mapped_column(unique=True)
    svg_name: Mapped[str] = mapped_column(String(120))
    svg: Mapped[str] = mapped_column(Text)
    metres_per_unit: Mapped[float]

    rooms: Mapped[list[Room]] = relationship(back_populates="floor", order_by="Room.position", passive_deletes=True)


class Room(Base):
    """A room: its outline on the drawing, how many people it holds, and, where known, how it sounds.

    `absorption` is the mean share of sound that its surfaces take in, 0 to 1; open to the sky is 1 for that part.
    """

    __tablename__ = "room"
    __table_args__ = (
        CheckConstraint("capacity >= 0", name="capacity"),
        CheckConstraint("height_m > 0 and absorption > 0 and absorption <= 1", name="sound"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    position: Mapped[int]
    name: Mapped[Name]
    floor_id: Mapped[int] = link("floor")
    element: Mapped[str] = mapped_column(String(120))
    outline: Mapped[list[Any]]
    label_x: Mapped[float]
    label_y: Mapped[float]
    capacity: Mapped[int]
    note: Mapped[str] = mapped_column(Text, default="")
    height_m: Mapped[float | None]
    absorption: Mapped[float | None]

    floor: Mapped[Floor] = relationship(back_populates="rooms")
    stations: Mapped[list[Station]] = relationship(
        back_populates="room", order_by="Station.number", passive_deletes=True
    )


class Door(Base):
    """A doorway between two rooms, or out of doors (`room_b` empty).

    `gradient_percent` is the slope of a sill or short ramp in the doorway, rise over run.
    """

    __tablename__ = "door"
    __table_args__ = (
        CheckConstraint("width_m > 0 and headroom_m > 0 and step_mm >= 0", name="sizes"),
        CheckConstraint("gradient_percent >= 0", name="gradient"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    position: Mapped[int]
    floor_id: Mapped[int] = link("floor")
    element: Mapped[str] = mapped_column(String(120))
    x: Mapped[float]
    y: Mapped[float]
    room_a_id: Mapped[int] = link("room")
    room_b_id: Mapped[int | None] = link("room")
    width_m: Mapped[float]
    headroom_m: Mapped[float]
    step_mm: Mapped[float]
    gradient_percent: Mapped[float] = mapped_column(default=0.0)
    one_way: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(Text, default="")

    room_a: Mapped[Room] = relationship(foreign_keys=[room_a_id])
    room_b: Mapped[Room | None] = relationship(foreign_keys=[room_b_id])


class Station(Base):
    """A spot on the floor where something is told."""

    __tablename__ = "station"

    id: Mapped[Key]
    ref: Mapped[Ref]
    number: Mapped[int] = mapped_column(unique=True)
    name: Mapped[Name]
    room_id: Mapped[int] = link("room")
    element: Mapped[str] = mapped_column(String(120))
    x: Mapped[float]
    y: Mapped[float]
    summary: Mapped[str] = mapped_column(Text, default="")
    seats: Mapped[bool] = mapped_column(default=False)
    quiet: Mapped[bool] = mapped_column(default=False)

    room: Mapped[Room] = relationship(back_populates="stations")


class Passage(Base):
    """Stairs, a lift or a ramp between two spots in two rooms."""

    __tablename__ = "passage"
    __table_args__ = (
        CheckConstraint("kind in ('stairs', 'lift', 'ramp')", name="kind"),
        CheckConstraint("headroom_m > 0", name="headroom"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    position: Mapped[int]
    kind: Mapped[str] = mapped_column(String(10))
    name: Mapped[Name]
    width_m: Mapped[float]
    headroom_m: Mapped[float] = mapped_column(default=2.0)
    steps: Mapped[int]
    rise_mm: Mapped[float]
    length_m: Mapped[float]
    capacity: Mapped[int]
    cycle_s: Mapped[float]
    note: Mapped[str] = mapped_column(Text, default="")

    ends: Mapped[list[PassageEnd]] = relationship(
        cascade="all, delete-orphan", order_by="PassageEnd.position", passive_deletes=True
    )


class PassageEnd(Base):
    """One end of a passage: a spot in a room."""

    __tablename__ = "passage_end"

    id: Mapped[Key]
    passage_id: Mapped[int] = link("passage")
    position: Mapped[int]
    room_id: Mapped[int] = link("room")
    element: Mapped[str] = mapped_column(String(120))
    x: Mapped[float]
    y: Mapped[float]

    room: Mapped[Room] = relationship()


class Amenity(Base):
    """Something that a group may need on the way: a toilet, a seat, an exit."""

    __tablename__ = "amenity"
    __table_args__ = (CheckConstraint("kind in ('toilet', 'seat', 'exit', 'first aid', 'water')", name="kind"),)

    id: Mapped[Key]
    ref: Mapped[Ref]
    position: Mapped[int]
    kind: Mapped[str] = mapped_column(String(12))
    room_id: Mapped[int] = mapped_column(ForeignKey("room.id", ondelete="CASCADE"), index=True)
    element: Mapped[str] = mapped_column(String(120))
    x: Mapped[float]
    y: Mapped[float]

    room: Mapped[Room] = relationship()


class Obstacle(Base):
    """Something that stands on the floor and is walked round: a machine, a bench, a barrier."""

    __tablename__ = "obstacle"
    __table_args__ = (CheckConstraint("kind in ('machine', 'bench', 'barrier')", name="kind"),)

    id: Mapped[Key]
    ref: Mapped[Ref]
    position: Mapped[int]
    kind: Mapped[str] = mapped_column(String(12))
    room_id: Mapped[int] = link("room")
    element: Mapped[str] = mapped_column(String(120))
    outline: Mapped[list[Any]]

    room: Mapped[Room] = relationship()


class OutOfUse(Base):
    """That a door, passage, room or station may not be used, from a day on, until a day or until further notice.

    It names its place by reference, so that it outlives the loading of a plan anew.
    """

    __tablename__ = "out_of_use"
    __table_args__ = (
        CheckConstraint("kind in ('door', 'passage', 'room', 'station')", name="kind"),
        CheckConstraint("until_day is null or until_day >= from_day", name="days"),
    )

    id: Mapped[Key]
    kind: Mapped[str] = mapped_column(String(10))
    place: Mapped[str] = mapped_column(String(64), index=True)
    from_day: Mapped[dt.date]
    until_day: Mapped[dt.date | None]
    why: Mapped[str] = mapped_column(String(300), default="")
