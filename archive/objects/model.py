"""What is kept of museum objects, pictures, demonstrations and clearances."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import CheckConstraint, ForeignKey, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Process
from archive.store.base import Base, Key, Name, Ref, link
from archive.values.dates import UncertainDate

CLEARANCE_KINDS = ("condition survey", "risk assessment", "operating instructions", "operator")


class MuseumObject(Base):
    """A museum object record; `ref` is its accession number. A machine is an object that can be run."""

    __tablename__ = "object"

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    description: Mapped[str] = mapped_column(Text)
    material: Mapped[str] = mapped_column(String(300), default="")
    dimensions: Mapped[str] = mapped_column(String(300), default="")
    maker_id: Mapped[int | None] = mapped_column(ForeignKey("person.id", ondelete="SET NULL"), index=True)
    made: Mapped[UncertainDate | None]
    station_id: Mapped[int | None] = mapped_column(ForeignKey("station.id", ondelete="SET NULL"), index=True)
    machine: Mapped[bool] = mapped_column(default=False)

    maker: Mapped[Person | None] = relationship()
    station: Mapped[Station | None] = relationship(backref="objects")
    pictures: Mapped[list[Picture]] = relationship(
        cascade="all, delete-orphan", order_by="Picture.position", passive_deletes=True
    )
    process_ties: Mapped[list[ObjectProcess]] = relationship(
        back_populates="object", cascade="all, delete-orphan", passive_deletes=True
    )
    worker_ties: Mapped[list[ObjectWorker]] = relationship(cascade="all, delete-orphan", passive_deletes=True)
    demonstrations: Mapped[list[Demonstration]] = relationship(
        back_populates="machine",
        cascade="all, delete-orphan",
        order_by="Demonstration.ref",
        passive_deletes=True,
    )
    clearances: Mapped[list[Clearance]] = relationship(
        cascade="all, delete-orphan", order_by="Clearance.position", passive_deletes=True
    )


class ObjectProcess(Base):
    """That an object was made by a process, or used in one."""

    __tablename__ = "object_process"
    __table_args__ = (
        UniqueConstraint("object_id", "process_id", "role"),
        CheckConstraint("role in ('made by', 'used in')", name="role"),
    )

    id: Mapped[Key]
    object_id: Mapped[int] = link("object")
    process_id: Mapped[int] = link("process")
    role: Mapped[str] = mapped_column(String(10))

    object: Mapped[MuseumObject] = relationship(back_populates="process_ties")
    process: Mapped[Process] = relationship(backref="object_ties")


class ObjectWorker(Base):
    """That a person worked with an object."""

    __tablename__ = "object_worker"
    __table_args__ = (UniqueConstraint("object_id", "person_id"),)

    id: Mapped[Key]
    object_id: Mapped[int] = link("object")
    person_id: Mapped[int] = link("person")

    person: Mapped[Person] = relationship()


class Picture(Base):
    """A picture of an object, kept by checksum, with words for those who cannot see it."""

    __tablename__ = "picture"

    id: Mapped[Key]
    object_id: Mapped[int] = link("object")
    position: Mapped[int]
    file_name: Mapped[str] = mapped_column(String(120), unique=True)
    sha256: Mapped[str] = mapped_column(ForeignKey("kept_file.sha256"))
    width: Mapped[int]
    height: Mapped[int]
    text: Mapped[str] = mapped_column(Text)


class Demonstration(Base):
    """Running a machine before visitors: its minutes, noise, line to stand behind, steps and cautions.

    `stand_back_m` is the keeper's own line; `sudden` says that its noise comes without build-up and makes people start.
    """

    __tablename__ = "demonstration"
    __table_args__ = (CheckConstraint("minutes > 0 and stand_back_m >= 0", name="sizes"),)

    id: Mapped[Key]
    ref: Mapped[Ref]
    object_id: Mapped[int] = link("object")
    title: Mapped[Name]
    minutes: Mapped[float]
    warm_up_minutes: Mapped[float]
    noise_db: Mapped[float | None]
    noise_at_m: Mapped[float | None]
    stand_back_m: Mapped[float]
    sudden: Mapped[bool] = mapped_column(default=False)
    steps: Mapped[list[str]]
    cautions: Mapped[list[str]]

    machine: Mapped[MuseumObject] = relationship(back_populates="demonstrations")


class Clearance(Base):
    """One paper that a machine needs before it is run for visitors, with the day it runs out."""

    __tablename__ = "clearance"
    __table_args__ = (
        CheckConstraint(
            "kind in ('condition survey', 'risk assessment', 'operating instructions', 'operator')",
            name="kind",
        ),
        CheckConstraint("dated <= runs_out", name="dates"),
    )

    id: Mapped[Key]
    object_id: Mapped[int] = link("object")
    position: Mapped[int]
    kind: Mapped[str] = mapped_column(String(30))
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id", ondelete="SET NULL"), index=True)
    dated: Mapped[dt.date]
    runs_out: Mapped[dt.date]
    note: Mapped[str] = mapped_column(Text, default="")

    person: Mapped[Person | None] = relationship()


class MachineRun(Base):
    """One line of a machine's running log: who ran it for visitors, when, for how long, and what went wrong.

    It names machine, demonstration and outing by reference, so that it outlives the loading of a collection anew.
    `confirmed` are the words of each check that the operator confirmed before the start. `key` is the device's own, so
    that a run handed in twice is kept once. `operator` is a person's reference. `lapsed` says in words what was not in
    force on the day of the run. A fault is open until a keeper sets `mended_on`.
    """

    __tablename__ = "machine_run"
    __table_args__ = (CheckConstraint("minutes is null or minutes >= 0", name="minutes"),)

    id: Mapped[Key]
    key: Mapped[str] = mapped_column(String(64), unique=True)
    machine: Mapped[str] = mapped_column(String(64), index=True)
    demonstration: Mapped[str] = mapped_column(String(64))
    outing: Mapped[str] = mapped_column(String(64), default="")
    operator: Mapped[str] = mapped_column(String(120))
    account_id: Mapped[int | None] = mapped_column(ForeignKey("account.id", ondelete="SET NULL"), index=True)
    started_at: Mapped[dt.datetime]
    minutes: Mapped[float | None]
    confirmed: Mapped[list[str]]
    faults: Mapped[str] = mapped_column(Text, default="")
    lapsed: Mapped[list[str]] = mapped_column(default=list)
    mended_on: Mapped[dt.date | None]
    mended_by: Mapped[str] = mapped_column(String(120), default="")
    mended_note: Mapped[str] = mapped_column(Text, default="")
