"""A day as it is kept, made into the plain problem that is solved and looked at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.objects.model import Demonstration
from archive.objects.running.queries import line_for
from archive.objects.running.sounding import house_of, machine_of
from archive.plan.model import Floor
from archive.plan.queries import doors, floors
from archive.plan.ways import Leg, Needs, Party, ways_of
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.outlines import inside
from archive.reckoners.noise_field.rooms import SoundHouse
from archive.rights.decisions import Viewer
from archive.store.queries import collection
from archive.tours.day.itinerary import Itinerary, RoomsBetween, itinerary_of
from archive.tours.day.problem import DayProblem, Going, Rules
from archive.tours.day.queries import departures
from archive.tours.day.words import Names
from archive.tours.model import Departure, Tour
from archive.tours.queries import telling_ids, tours
from archive.tours.sheet import TourSheet, tour_sheet


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
    shown = _demonstrations(sheets)
    goings = tuple(_going(session, row, sheets[row.ref], levels) for row in rows if row.ref in sheets)
    names = Names(
        rooms={room.ref: room.name for floor in levels for room in floor.rooms},
        machines={one.machine.ref: one.machine.name for one in shown},
        demonstrations={one.ref: one.title for one in shown},
    )
    capacities = {room.ref: room.capacity for floor in levels for room in floor.rooms}
    problem = DayProblem(goings, capacities, _levels(session, shown, levels), rules)
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


def _going(session: Session, row: Departure, sheet: TourSheet, levels: Sequence[Floor]) -> Going:
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
        noise=_noise(session, sheet, itinerary),
    )


def _noise(session: Session, sheet: TourSheet, itinerary: Itinerary) -> tuple[tuple[float, float], ...]:
    """The level at the line behind which guide and group stand, for as long as each machine is shown."""
    shown = {one.ref: one for one in _demonstrations({"": sheet})}
    lines = {ref: line_for(session, one).level_db for ref, one in shown.items()}
    runs = [(lines[run.demonstration], (run.ends - run.told_from) / 600) for run in itinerary.runs]
    return tuple((float(level), hours) for level, hours in runs if level is not None)


def _levels(session: Session, shown: Sequence[Demonstration], levels: Sequence[Floor]) -> dict[tuple[str, str], float]:
    """How loud each demonstration is at each station, run alone with the doors open."""
    scales = {floor.id: floor.metres_per_unit for floor in levels}
    found: dict[tuple[str, str], float] = {}
    for one in shown:
        station = one.machine.station
        machine = machine_of(one, station, scales[station.room.floor_id]) if station else None
        if machine is not None:
            field = _field(house_of(levels, doors(session), machine))
            for floor in levels:
                for at in (station for room in floor.rooms for station in room.stations):
                    spot = at.x * floor.metres_per_unit, at.y * floor.metres_per_unit
                    found[one.ref, at.ref] = field.level_at(at.room.ref, spot)
    return found


@lru_cache(maxsize=32)
def _field(house: SoundHouse) -> Field:
    return Field(house)


def _rooms_between(session: Session, tour: Tour, row: Departure, levels: Sequence[Floor]) -> RoomsBetween:
    ways = ways_of(session, row.day)
    party = Party(row.group_size, collection(session).walking_pace_m_per_s)
    words = set(tour.needs)
    needs = Needs(step_free="step-free" in words, narrow="narrow" in words, no_lift="no-lift" in words)

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
