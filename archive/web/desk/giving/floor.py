"""What a guide needs of each stop on the floor: clock times, the way there, seats, toilets and exits near."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flask import request
from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.plan.queries import amenities
from archive.rights.decisions import Viewer
from archive.tours.given.near import NearPlace, near
from archive.tours.sheet import TimedStop, TourSheet
from archive.tours.walking import tour_legs


@dataclass(frozen=True)
class FloorStop:
    """A stop with how to get there from the one before, and what is near it."""

    timed: TimedStop
    directions: tuple[str, ...]
    metres: float | None
    near: tuple[NearPlace, ...]


def floor_stops(session: Session, viewer: Viewer, sheet: TourSheet) -> Sequence[FloorStop]:
    """The stops of a sheet with ways for the tour's needs; where there is no way the directions are left out."""
    places, stops = amenities(session), []
    for leg, timed in zip((None, *tour_legs(session, sheet, viewer.on)), sheet.stops, strict=False):
        directions, metres = (leg.directions, leg.metres) if leg else ((), None)
        stops.append(FloorStop(timed, directions, metres, near(timed.stop.station, places)))
    return stops


def starts_asked() -> int | None:
    """The minute of the day at which the tour starts, from `?starts=10:30`; None where it is not asked."""
    text = request.args.get("starts", "").strip()
    if not text:
        return None
    hours, colon, minutes = text.partition(":")
    right = colon and all(part.isascii() and part.isdigit() and len(part) <= 2 for part in (hours, minutes))
    if not right or int(hours) > 23 or int(minutes) > 59:
        fault = Fault("starts", 0, f"'{text[:20]}' is not a time of day", "Write hours and minutes, such as 10:30")
        raise Unacceptable([fault], "The address")
    return int(hours) * 60 + int(minutes)
