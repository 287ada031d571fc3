"""The walked line of a tour on the plan of each floor that it touches."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.drawing import Drawing, Frame, drawing_of
from archive.plan.house import house_of
from archive.plan.model import Floor
from archive.plan.queries import floors
from archive.plan.walking import Spot
from archive.tours.sheet import TimedStop, TourSheet


@dataclass(frozen=True)
class WalkedFloor:
    """A floor's drawing with the lines walked on it (in its own units) and the stops made there."""

    floor: Floor
    drawing: Drawing
    lines: tuple[str, ...]
    stops: tuple[TimedStop, ...]

    @property
    def frame(self) -> Frame:
        """What is seen of it."""
        return self.drawing.frame

    @property
    def unit(self) -> float:
        """A thirty-sixth of the width: the measure of checks and letters."""
        return self.frame.width / 36


def walked_floors(session: Session, sheet: TourSheet) -> Sequence[WalkedFloor]:
    """The floors that a tour touches, in the order of first arrival."""
    house = house_of(session)
    without = frozenset({"stairs"}) if "step-free" in sheet.tour.needs else frozenset[str]()
    refs = [timed.stop.station.ref for timed in sheet.stops]
    legs = [house.way(f"station {one}", f"station {other}", without=without) for one, other in itertools.pairwise(refs)]
    by_ref = {floor.ref: floor for floor in floors(session)}
    order = dict.fromkeys(timed.stop.station.room.floor.ref for timed in sheet.stops)
    return [_walked(by_ref[ref], legs, sheet) for ref in order]


def _walked(floor: Floor, legs: list[list[Spot]], sheet: TourSheet) -> WalkedFloor:
    lines = [_points(run, floor.metres_per_unit) for leg in legs for run in _runs(leg, floor.ref)]
    stops = tuple(timed for timed in sheet.stops if timed.stop.station.room.floor_id == floor.id)
    return WalkedFloor(floor, drawing_of(floor.svg), tuple(line for line in lines if " " in line), stops)


def _runs(leg: list[Spot], floor: str) -> list[list[Spot]]:
    """The unbroken parts of a leg that lie on one floor."""
    return [list(run) for ref, run in itertools.groupby(leg, key=lambda spot: spot.floor) if ref == floor]


def _points(run: list[Spot], metres_per_unit: float) -> str:
    return " ".join(f"{spot.x_m / metres_per_unit:.0f},{spot.y_m / metres_per_unit:.0f}" for spot in run)
