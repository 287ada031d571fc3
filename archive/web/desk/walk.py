"""The walked line of a tour on the plan of each floor that it touches."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.drawing import Drawing, Frame, drawing_of, frame_around
from archive.plan.model import Floor
from archive.plan.queries import floors
from archive.plan.ways import Spot
from archive.tours.sheet import TimedStop, TourSheet
from archive.tours.walking import tour_legs

# An arrow stands short of the middle, so that there and back again are two arrows and not a cross.
_ARROW_AT = 0.42
_SHORT_M = 3.2


@dataclass(frozen=True)
class Arrow:
    """Which way a leg is walked, at a point of it."""

    x: float
    y: float
    degrees: float


@dataclass(frozen=True)
class WalkedFloor:
    """A floor's drawing with the lines walked on it (in its own units) and the stops made there."""

    floor: Floor
    drawing: Drawing
    lines: tuple[str, ...]
    arrows: tuple[Arrow, ...]
    stops: tuple[TimedStop, ...]

    @property
    def frame(self) -> Frame:
        """What is seen of it: its rooms and their walls."""
        rooms = frame_around(room.outline for room in self.floor.rooms)
        return rooms.grown(rooms.width / 50)

    @property
    def unit(self) -> float:
        """A thirty-sixth of the width: the measure of checks and letters."""
        return self.frame.width / 36


def walked_floors(session: Session, sheet: TourSheet, on: dt.date) -> Sequence[WalkedFloor]:
    """The floors that a tour touches, in the order of first arrival."""
    runs = [leg.spots for leg in tour_legs(session, sheet, on) if leg is not None]
    by_ref = {floor.ref: floor for floor in floors(session)}
    order = dict.fromkeys(timed.stop.station.room.floor.ref for timed in sheet.stops)
    return [_walked(by_ref[ref], runs, sheet) for ref in order]


def _walked(floor: Floor, legs: Sequence[Sequence[Spot]], sheet: TourSheet) -> WalkedFloor:
    runs = [run for leg in legs for run in _runs(leg, floor.ref) if len(run) > 1]
    return WalkedFloor(
        floor=floor,
        drawing=drawing_of(floor.svg),
        lines=tuple(" ".join(f"{x:.0f},{y:.0f}" for x, y in _points(run, floor.metres_per_unit)) for run in runs),
        arrows=tuple(_arrow(run, floor.metres_per_unit) for run in runs if _longest(run)[2] >= _SHORT_M),
        stops=tuple(timed for timed in sheet.stops if timed.stop.station.room.floor_id == floor.id),
    )


def _runs(leg: Sequence[Spot], floor: str) -> list[list[Spot]]:
    """The unbroken parts of a leg that lie on one floor."""
    return [list(run) for ref, run in itertools.groupby(leg, key=lambda spot: spot.floor) if ref == floor]


def _points(run: list[Spot], metres_per_unit: float) -> list[tuple[float, float]]:
    return [(spot.x_m / metres_per_unit, spot.y_m / metres_per_unit) for spot in run]


def _longest(run: list[Spot]) -> tuple[Spot, Spot, float]:
    stretches = [
        (one, other, math.dist((one.x_m, one.y_m), (other.x_m, other.y_m))) for one, other in itertools.pairwise(run)
    ]
    return max(stretches, key=lambda stretch: stretch[2])


def _arrow(run: list[Spot], metres_per_unit: float) -> Arrow:
    one, other, _length = _longest(run)
    across, down = other.x_m - one.x_m, other.y_m - one.y_m
    x, y = one.x_m + across * _ARROW_AT, one.y_m + down * _ARROW_AT
    return Arrow(x / metres_per_unit, y / metres_per_unit, math.degrees(math.atan2(down, across)))
