"""What keeping itself keeps: the collection's own card, files by checksum, events, changes and loads."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import BigInteger, CheckConstraint, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from archive.store.base import Base, Key, Name, utc_now


class Collection(Base):
    """The card of the one collection that this home keeps."""

    __tablename__ = "collection"
    __table_args__ = (CheckConstraint("id = 1", name="only_one"),)

    id: Mapped[Key]
    ref: Mapped[str] = mapped_column(String(64))
    name: Mapped[Name]
    place: Mapped[Name]
    language: Mapped[str] = mapped_column(String(35))
    contact: Mapped[str] = mapped_column(Text, default="")
    about: Mapped[str] = mapped_column(Text, default="")
    voices_note: Mapped[str] = mapped_column(Text, default="")
    walking_pace_m_per_s: Mapped[float]
    speaking_pace_wpm: Mapped[float]


class KeptFile(Base):
    """A file kept by its checksum; the bytes lie in the home's `files` folder."""

    __tablename__ = "kept_file"

    sha256: Mapped[str] = mapped_column(String(64), primary_key=True)
    size: Mapped[int] = mapped_column(BigInteger)
    media_type: Mapped[str] = mapped_column(String(100))
    checked_at: Mapped[dt.datetime | None]
    sound: Mapped[bool] = mapped_column(default=True)


class Event(Base):
    """Something that happened to a kept file, named in the words of PREMIS (ingestion, fixity check)."""

    __tablename__ = "event"

    id: Mapped[Key]
    at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    kind: Mapped[str] = mapped_column(String(60))
    outcome: Mapped[str] = mapped_column(String(60))
    sha256: Mapped[str] = mapped_column(String(64), index=True)
    detail: Mapped[str] = mapped_column(Text, default="")


class Change(Base):
    """One change to one record: who, when, before and after."""

    __tablename__ = "change"

    id: Mapped[Key]
    at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    who: Mapped[str] = mapped_column(String(120))
    kind: Mapped[str] = mapped_column(String(60), index=True)
    record: Mapped[str] = mapped_column(String(120), index=True)
    before: Mapped[dict[str, Any] | None]
    after: Mapped[dict[str, Any] | None]


class Load(Base):
    """One load of a collection folder: when, from where, how many records of each kind."""

    __tablename__ = "load"

    id: Mapped[Key]
    at: Mapped[dt.datetime] = mapped_column(default=utc_now)
    folder: Mapped[str] = mapped_column(Text)
    counts: Mapped[dict[str, Any]]
    notes: Mapped[list[str]]
    seconds: Mapped[float]
