"""A tour as it was planned on the day it was given, stop by stop, as plain data that a device can keep. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from archive.tours.sheet import TourSheet


@dataclass(frozen=True)
class PlannedTelling:
    """One telling by reference, with its minutes."""

    ref: str
    minutes: float


@dataclass(frozen=True)
class PlannedStop:
    """One stop: the minutes walked to it and those of its tellings."""

    station: str
    walk: float
    tellings: tuple[PlannedTelling, ...]

    @property
    def minutes(self) -> float:
        """How long the group was to stand here."""
        return round(sum(telling.minutes for telling in self.tellings), 2)


def planned_of(sheet: TourSheet) -> tuple[PlannedStop, ...]:
    """The stops of a sheet, which holds only what is open to its viewer."""
    return tuple(
        PlannedStop(
            timed.stop.station.ref,
            round(timed.walk, 2),
            tuple(PlannedTelling(item.telling.ref, item.telling.minutes) for item in timed.told),
        )
        for timed in sheet.stops
    )


def as_data(stops: Iterable[PlannedStop]) -> list[dict[str, Any]]:
    """What is kept in `Outing.planned` and sent to the device."""
    return [
        {
            "station": stop.station,
            "walk": stop.walk,
            "tellings": [{"ref": telling.ref, "minutes": telling.minutes} for telling in stop.tellings],
        }
        for stop in stops
    ]


def from_data(rows: Sequence[Mapping[str, Any]]) -> tuple[PlannedStop, ...]:
    """The stops again, from what `as_data` made."""
    return tuple(
        PlannedStop(
            row["station"],
            float(row["walk"]),
            tuple(PlannedTelling(each["ref"], float(each["minutes"])) for each in row["tellings"]),
        )
        for row in rows
    )
