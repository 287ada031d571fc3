"""Selects on what keeping itself keeps, and the one way of saying that a record is not there."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from archive.errors import Conflict, NotFound
from archive.store.base import Base
from archive.store.model import Collection, Event, KeptFile, Load

# The events at which every byte of a file was read.
READ = ("ingestion", "creation", "fixity check")

Record = TypeVar("Record")
Kept = TypeVar("Kept", bound=Base)


@dataclass(frozen=True)
class DayOfEvents:
    """How many files met the same event with the same outcome on one day, and when the last of them did."""

    kind: str
    outcome: str
    files: int
    at: dt.datetime


def found(record: Record | None, kind: str, ref: str) -> Record:
    """The record, or NotFound in the same words whether it is absent or closed."""
    if record is None:
        raise NotFound(f"There is no {kind} '{ref[:64]}' here.")
    return record


def collection(session: Session) -> Collection:
    """The card of the collection; Conflict when nothing has been loaded yet."""
    card = session.get(Collection, 1)
    if card is None:
        raise Conflict("This home is empty. Load a collection folder with: lemel load FOLDER")
    return card


def has_collection(session: Session) -> bool:
    """Whether anything has been loaded."""
    return session.get(Collection, 1) is not None


def last_load(session: Session) -> Load | None:
    """What the last load did."""
    return session.scalar(select(Load).order_by(Load.id.desc()).limit(1))


def unsound_files(session: Session) -> Sequence[KeptFile]:
    """Files whose checksum no longer held at the last check."""
    return session.scalars(select(KeptFile).where(~KeptFile.sound).order_by(KeptFile.sha256)).all()


def kept_files(session: Session) -> Sequence[KeptFile]:
    """Every kept file."""
    return session.scalars(select(KeptFile).order_by(KeptFile.sha256)).all()


def longest_unread(session: Session, before: dt.datetime) -> str | None:
    """The file that was read longest ago, when it was taken in or checked, if that was before a moment."""
    read = select(func.max(Event.at)).where(Event.sha256 == KeptFile.sha256, Event.kind.in_(READ)).scalar_subquery()
    last = func.coalesce(KeptFile.checked_at, read, dt.datetime(1, 1, 1))
    return session.scalar(select(KeptFile.sha256).where(last < before).order_by(last, KeptFile.sha256).limit(1))


def events_of(session: Session, checksums: Iterable[str]) -> Sequence[Event]:
    """What happened to some files, the newest first."""
    mine = select(Event).where(Event.sha256.in_(list(checksums)))
    return session.scalars(mine.order_by(Event.at.desc(), Event.id.desc())).all()


def days_of_events(session: Session, count: int) -> Sequence[DayOfEvents]:
    """What happened to files, day by day, the newest first."""
    last = func.max(Event.at)
    days = select(Event.kind, Event.outcome, func.count(), last).group_by(
        func.date(Event.at), Event.kind, Event.outcome
    )
    newest = days.order_by(last.desc(), func.max(Event.id).desc()).limit(count)
    return [DayOfEvents(*row) for row in session.execute(newest)]


def count_of(session: Session, kind: type[Base]) -> int:
    """How many records of a kind there are; for the keeper's eyes, since closed ones count too."""
    return session.scalar(select(func.count()).select_from(kind)) or 0


def everything(session: Session, kind: type[Kept]) -> Sequence[Kept]:
    """Every record of a kind in the order they came; for keeping and passing on whole, never for readers."""
    return session.scalars(select(kind).order_by(*kind.__table__.primary_key)).all()
