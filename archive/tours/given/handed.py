"""A log as a device hands it in: read with care, every fault told with its place. Pure."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from archive.errors import Fault, Unacceptable
from archive.tours.given.planned import PlannedStop, PlannedTelling
from archive.tours.model import ENTRY_KINDS
from archive.values.identifiers import REF

TAKEN_BACK = "taken back"
MOST_ENTRIES, MOST_STOPS, MOST_TELLINGS = 2000, 100, 50
LONGEST_TEXT = 2000
LARGEST_GROUP = 500
KEY = re.compile(r"[a-z0-9]{16,40}", re.ASCII)
ENTRY_KEY = re.compile(r"[a-z0-9]{16,40}\.[a-z0-9.]{1,23}", re.ASCII)

Value = TypeVar("Value")


@dataclass(frozen=True)
class HandedEntry:
    """One line of a log; `taken_back` says that it was a slip of the finger, for good."""

    key: str
    at: dt.datetime
    kind: str
    station: str
    telling: str
    text: str
    taken_back: bool


@dataclass(frozen=True)
class HandedLog:
    """One outing with as much of its log as this hand-in brings."""

    key: str
    tour: str
    guide: str
    given_on: dt.date
    group_size: int
    note: str
    planned: tuple[PlannedStop, ...]
    entries: tuple[HandedEntry, ...]


def read_log(data: object) -> HandedLog:
    """The log in what was sent; Unacceptable with every fault in it."""
    reader = _Reader()
    whole = reader.mapping(data, "the log")
    outing = reader.mapping(whole.get("outing"), "outing")
    key = reader.match(outing.get("key"), "outing.key", KEY)
    log = HandedLog(
        key=key,
        tour=reader.match(outing.get("tour"), "outing.tour", REF),
        guide=reader.text(outing.get("guide", ""), "outing.guide", 120),
        given_on=reader.day(outing.get("given_on"), "outing.given_on"),
        group_size=int(reader.number(outing.get("group_size"), "outing.group_size", 1, LARGEST_GROUP)),
        note=reader.text(outing.get("note", ""), "outing.note", LONGEST_TEXT),
        planned=tuple(_planned(reader, outing.get("planned"))),
        entries=tuple(_entries(reader, whole.get("entries"), key)),
    )
    if reader.faults:
        raise Unacceptable(reader.faults, "The log")
    return log


def _planned(reader: _Reader, rows: object) -> Iterator[PlannedStop]:
    for number, row in enumerate(reader.listing(rows, "outing.planned", MOST_STOPS)):
        where = f"outing.planned[{number}]"
        stop = reader.mapping(row, where)
        told = []
        for place, each in enumerate(reader.listing(stop.get("tellings"), f"{where}.tellings", MOST_TELLINGS)):
            at = f"{where}.tellings[{place}]"
            telling = reader.mapping(each, at)
            ref = reader.match(telling.get("ref"), f"{at}.ref", REF)
            minutes, begins = reader.number(telling.get("minutes"), f"{at}.minutes", 0, 600), telling.get("not_before")
            begins = None if begins is None else reader.number(begins, f"{at}.not_before", 0, 600)
            told.append(PlannedTelling(ref, minutes, begins))
        station = reader.match(stop.get("station"), f"{where}.station", REF)
        yield PlannedStop(station, reader.number(stop.get("walk"), f"{where}.walk", 0, 600), tuple(told))


def _entries(reader: _Reader, rows: object, outing: str) -> Iterator[HandedEntry]:
    for number, row in enumerate(reader.listing(rows, "entries", MOST_ENTRIES)):
        where = f"entries[{number}]"
        entry = reader.mapping(row, where)
        key = reader.match(entry.get("key"), f"{where}.key", ENTRY_KEY)
        if outing and key and not key.startswith(f"{outing}."):
            reader.say(f"{where}.key", f"'{key}' is of another outing", f"It must begin with '{outing}.'")
        yield HandedEntry(
            key=key,
            at=reader.moment(entry.get("at"), f"{where}.at"),
            kind=reader.one_of(entry.get("kind"), f"{where}.kind", ENTRY_KINDS),
            station=reader.match(entry.get("station", ""), f"{where}.station", REF, or_empty=True),
            telling=reader.match(entry.get("telling", ""), f"{where}.telling", REF, or_empty=True),
            text=reader.text(entry.get("text", ""), f"{where}.text", LONGEST_TEXT),
            taken_back=entry.get("taken_back") is True,
        )


class _Reader:
    """Takes values out of untrusted data and gathers what is wrong with them."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def say(self, where: str, found: str, allowed: str) -> None:
        """Write a fault down."""
        self.faults.append(Fault(where, 0, found, allowed))

    def mapping(self, value: object, where: str) -> Mapping[str, Any]:
        """An object of JSON; an empty one where it is something else."""
        if isinstance(value, dict):
            return value
        self.say(where, f"{_shown(value)} is no group of named values", "An object with its names")
        return {}

    def listing(self, value: object, where: str, most: int) -> list[object]:
        """A list of up to so many."""
        if isinstance(value, list) and len(value) <= most:
            return value
        told = f"{len(value)} entries" if isinstance(value, list) else _shown(value)
        self.say(where, told, f"A list of up to {most}")
        return []

    def match(self, value: object, where: str, pattern: re.Pattern[str], *, or_empty: bool = False) -> str:
        """A text of a given form."""
        if isinstance(value, str) and (pattern.fullmatch(value) or (or_empty and value == "")):
            return value
        self.say(where, f"{_shown(value)} is none", "Letters, figures and dots, as the device makes them")
        return ""

    def text(self, value: object, where: str, longest: int) -> str:
        """Free words."""
        if isinstance(value, str) and len(value) <= longest and "\0" not in value:
            return value.strip()
        self.say(where, f"{_shown(value)} cannot be kept", f"Words of up to {longest} letters")
        return ""

    def number(self, value: object, where: str, least: float, most: float) -> float:
        """A number within bounds."""
        if isinstance(value, (int, float)) and not isinstance(value, bool) and least <= value <= most:
            return float(value)
        self.say(where, f"{_shown(value)} is no number that fits", f"From {least:g} to {most:g}")
        return least

    def one_of(self, value: object, where: str, allowed: tuple[str, ...]) -> str:
        """A word out of a few."""
        if isinstance(value, str) and value in allowed:
            return value
        self.say(where, f"{_shown(value)} is not a kind of entry", "One of: " + ", ".join(allowed))
        return allowed[0]

    def day(self, value: object, where: str) -> dt.date:
        """A date."""
        return self._read(value, where, "A date such as 2026-05-03", dt.date.fromisoformat, dt.date(1970, 1, 1))

    def moment(self, value: object, where: str) -> dt.datetime:
        """A moment with its zone, as the database keeps it: UTC without zone."""
        allowed = "A moment with its zone, such as 2026-05-03T10:30:00Z"
        return self._read(value, where, allowed, _utc, dt.datetime(1970, 1, 1))

    def _read(self, value: object, where: str, allowed: str, read: Callable[[str], Value], instead: Value) -> Value:
        if isinstance(value, str) and len(value) <= 40:
            try:
                return read(value)
            except (ValueError, OverflowError):
                pass
        self.say(where, f"{_shown(value)} is none", allowed)
        return instead


def _utc(text: str) -> dt.datetime:
    moment = dt.datetime.fromisoformat(text)
    if moment.tzinfo is None:
        raise ValueError("no zone")
    return moment.astimezone(dt.UTC).replace(tzinfo=None)


def _shown(value: object) -> str:
    return "nothing" if value is None else f"'{str(value)[:40]}'"
