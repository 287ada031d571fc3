"""A day as it is kept, made into the plain problem that is solved and looked at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.objects.model import Demonstration
from archive.plan.model import Floor
from archive.plan.queries import floors
from archive.plan.ways import Leg
from archive.reckoners.noise_field.outlines import inside
from archive.rights.decisions import Viewer
from archive.tours.day.itinerary import Itinerary, RoomsBetween, itinerary_of
from archive.tours.day.problem import TENTHS, DayProblem, Going, Rules
from archive.tours.day.queries import departures
from archive.tours.day.words import Names
from archive.tours.heard import Heard, heard_levels
from archive.tours.model import Departure, Tour
from archive.tours.queries import telling_ids, tours
from archive.tours.sheet import TourSheet, tour_sheet
from archive.tours.walking import walking_needs, walking_party, ways_on


@dataclass(frozen=True)
class Day:
    """A day with its departures, the sheet of each that has a tour, the plain problem, and how things are called."""

    date: dt.date
    rows: Sequence[Departure]
    sheets: Mapping[str, TourSheet]
    problem: DayProblem
    names: Names
    floors: Sequence[Floor]

    @property
    def times(self) -> dict[str, int]:
        """When those leave that have a time."""
        return {one.ref: one.leaves for one in self.problem.goings if one.leaves is not None}


def day_of(session: Session, viewer: Viewer, date: dt.date, rules: Rules) -> Day:
    """A day as this viewer may know it: what is open to them today and that day, with that day's papers."""
    rows, levels = departures(session, date), floors(session)
    sheets = _sheets(session, viewer, date, rows)
    shown, heard = _demonstrations(sheets), heard_levels(session, date)
    goings = tuple(_going(session, row, sheets[row.ref], heard, levels) for row in rows if row.ref in sheets)
    names = Names(
        rooms={room.ref: room.name for floor in levels for room in floor.rooms},
        machines={one.machine.ref: one.machine.name for one in shown},
        demonstrations={one.ref: one.title for one in shown},
    )
    capacities = {room.ref: room.capacity for floor in levels for room in floor.rooms}
    problem = DayProblem(goings, capacities, _levels(heard, shown), rules)
    return Day(date, rows, sheets, problem, names, levels)


def _sheets(session: Session, viewer: Viewer, date: dt.date, rows: Sequence[Departure]) -> dict[str, TourSheet]:
    that_day = replace(viewer, on=date)
    kept = telling_ids(session, viewer) & telling_ids(session, that_day)
    names = shown_names(session, viewer)
    whole = {tour.id: tour for tour in tours(session)}
    given = {row.ref: whole[row.tour_id] for row in rows if row.tour_id in whole}
    return {
        ref: tour_sheet(tour, open_tellings=kept, statements={}, names=names, on=date) for ref, tour in given.items()
    }


def _demonstrations(sheets: Mapping[str, TourSheet]) -> list[Demonstration]:
    told = [item.telling.demonstration for one in sheets.values() for stop in one.stops for item in stop.told]
    return sorted({one.ref: one for one in told if one is not None}.values(), key=lambda one: one.ref)


def _going(session: Session, row: Departure, sheet: TourSheet, heard: Heard, levels: Sequence[Floor]) -> Going:
    itinerary = itinerary_of(sheet, _rooms_between(session, sheet.tour, row, levels))
    return Going(
        ref=row.ref,
        name=sheet.tour.name,
        guide=row.guide,
        size=row.group_size,
        tenths=itinerary.tenths,
        earliest=row.earliest,
        latest=row.latest,
        leaves=row.leaves,
        fixed=row.fixed,
        rooms=itinerary.rooms,
        stations=itinerary.stations,
        runs=itinerary.runs,
        noise=_noise(heard, itinerary),
    )


def _noise(heard: Heard, itinerary: Itinerary) -> tuple[tuple[float, float], ...]:
    """The level at the line behind which guide and group stand, for as long as each machine is shown."""
    runs = [run for run in itinerary.runs if run.demonstration in heard.at_line]
    return tuple((float(heard.at_line[run.demonstration]), (run.ends - run.told_from) / TENTHS / 60) for run in runs)


def _levels(heard: Heard, shown: Sequence[Demonstration]) -> dict[tuple[str, str], float]:
    """How loud each demonstration is at each station, run alone with the doors open."""
    refs = [one.ref for one in shown]
    return {(ref, station): level for ref in refs for station, level in heard.at.get(ref, {}).items()}


def _rooms_between(session: Session, tour: Tour, row: Departure, levels: Sequence[Floor]) -> RoomsBetween:
    party, needs = walking_party(session, row.group_size), walking_needs(tour.needs)
    ways = ways_on(session, row.day, needs)

    def between(start: str, finish: str) -> list[tuple[str, float]]:
        leg = ways.leg(start, finish, needs, party)
        return [] if leg is None else _rooms_of(leg, levels)

    return between


def _rooms_of(leg: Leg, levels: Sequence[Floor]) -> list[tuple[str, float]]:
    """The rooms that a way leads through, each with the metres in it, in order; between floors it is in none."""
    by_ref = {floor.ref: floor for floor in levels}
    shares: list[tuple[str, float]] = []
    for one, other in pairwise(leg.spots):
        metres = ((one.x_m - other.x_m) ** 2 + (one.y_m - other.y_m) ** 2) ** 0.5
        middle = (one.x_m + other.x_m) / 2, (one.y_m + other.y_m) / 2
        room = _room_at(by_ref[one.floor], *middle) if one.floor == other.floor else ""
        if shares and shares[-1][0] == room:
            shares[-1] = room, shares[-1][1] + metres
        else:
            shares.append((room, metres))
    return shares


def _room_at(floor: Floor, x_m: float, y_m: float) -> str:
    point = np.asarray([(x_m / floor.metres_per_unit, y_m / floor.metres_per_unit)], dtype=np.float64)
    return next((room.ref for room in floor.rooms if inside(room.outline, point)[0]), "")
