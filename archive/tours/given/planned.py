"""A tour as it was planned on the day it was given, stop by stop, as plain data that a device can keep. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from archive.tours.sheet import TourSheet


@dataclass(frozen=True)
class PlannedTelling:
    """One telling by reference, with its minutes, and for a machine those from the start before which it cannot run."""

    ref: str
    minutes: float
    not_before: float | None = None


@dataclass(frozen=True)
class PlannedStop:
    """One stop: the minutes walked to it and those of its tellings."""

    station: str
    walk: float
    tellings: tuple[PlannedTelling, ...]

    @property
    def minutes(self) -> float:
        """How long the group was to be told something here."""
        return round(sum(telling.minutes for telling in self.tellings), 2)

    def wait(self, arrived: float) -> float:
        """How long a group waits for machines that arrives so many minutes after the start."""
        told, waited = 0.0, 0.0
        for telling in self.tellings:
            waited = max(waited, (telling.not_before or 0.0) - arrived - told)
            told += telling.minutes
        return round(waited, 2)


@dataclass(frozen=True)
class DueStop:
    """A planned stop with the minutes from the start at which it is due, and how long it is then waited there."""

    planned: PlannedStop
    due: float
    wait: float


def due_stops(stops: Iterable[PlannedStop]) -> tuple[DueStop, ...]:
    """How the plan runs; the device runs the same in static/js/desk/giving/progress.js."""
    found, clock = [], 0.0
    for stop in stops:
        due = clock + stop.walk
        wait = stop.wait(due)
        found.append(DueStop(stop, round(due, 2), wait))
        clock = due + wait + stop.minutes
    return tuple(found)


def planned_of(sheet: TourSheet) -> tuple[PlannedStop, ...]:
    """The stops of a sheet, which holds only what is open to its viewer."""
    return tuple(
        PlannedStop(
            timed.stop.station.ref,
            round(timed.walk, 2),
            tuple(PlannedTelling(one.telling.ref, one.telling.minutes, one.not_before) for one in timed.told),
        )
        for timed in sheet.stops
    )


def as_data(stops: Iterable[PlannedStop]) -> list[dict[str, Any]]:
    """What is kept in `Outing.planned` and sent to the device."""
    return [
        {"station": stop.station, "walk": stop.walk, "tellings": [_telling_data(one) for one in stop.tellings]}
        for stop in stops
    ]


def from_data(rows: Sequence[Mapping[str, Any]]) -> tuple[PlannedStop, ...]:
    """The stops again, from what `as_data` made."""
    return tuple(
        PlannedStop(row["station"], float(row["walk"]), tuple(_telling_of(each) for each in row["tellings"]))
        for row in rows
    )


def _telling_data(telling: PlannedTelling) -> dict[str, Any]:
    told = {"ref": telling.ref, "minutes": telling.minutes}
    return told if telling.not_before is None else {**told, "not_before": telling.not_before}


def _telling_of(row: Mapping[str, Any]) -> PlannedTelling:
    begins = row.get("not_before")
    return PlannedTelling(row["ref"], float(row["minutes"]), None if begins is None else float(begins))
