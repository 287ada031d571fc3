"""The day sheets: what one guide does on a day, and who comes to one room."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.plan.model import Room
from archive.rights.decisions import Viewer
from archive.tours.day.building import Day, day_of
from archive.tours.day.clashes import exposures
from archive.tours.day.problem import TENTHS, Going, InRoom, Rules
from archive.tours.sheet import TimedStop
from archive.values.dayclock import minute_told


@dataclass(frozen=True)
class StopLine:
    """A stop at its clock times, with what is told there after so many minutes of waiting."""

    number: int
    station: str
    room: str
    begins: str
    ends: str
    told: Sequence[str]
    wait: float


@dataclass(frozen=True)
class RunLine:
    """A machine that is run: when it is made ready, when it is shown, for whom."""

    title: str
    ready: str
    begins: str
    ends: str
    tour: str


@dataclass(frozen=True)
class TourPart:
    """One departure of a guide."""

    name: str
    size: int
    leaves: str
    back: str
    note: str
    stops: Sequence[StopLine]
    runs: Sequence[RunLine]


@dataclass(frozen=True)
class GuideSheet:
    """A guide's day."""

    date: dt.date
    guide: str
    parts: Sequence[TourPart]
    untimed: Sequence[str]
    exposure_db: float | None
    value_db: float


@dataclass(frozen=True)
class VisitLine:
    """A group in a room: from when to when, how many, whose, and whether it only walks through."""

    begins: str
    ends: str
    tour: str
    guide: str
    size: int
    walking: bool


@dataclass(frozen=True)
class RoomSheet:
    """A room's day: who comes, and which machines are asked for in it."""

    date: dt.date
    room: Room
    visits: Sequence[VisitLine]
    runs: Sequence[RunLine]


def guide_sheet(session: Session, viewer: Viewer, date: dt.date, guide: str, rules: Rules) -> GuideSheet:
    """What a guide does on a day; NotFound when the day has nothing for them."""
    day = day_of(session, viewer, date, rules)
    mine = [one for one in day.problem.goings if one.guide == guide]
    if not mine:
        raise NotFound(f"'{guide[:40]}' gives no tour on this day.")
    timed = sorted((one for one in mine if one.ref in day.times), key=lambda one: day.times[one.ref])
    return GuideSheet(
        date=date,
        guide=guide,
        parts=[_part(day, one) for one in timed],
        untimed=[one.name for one in mine if one.ref not in day.times],
        exposure_db=exposures(day.problem).get(guide),
        value_db=rules.value_db,
    )


def room_sheet(session: Session, viewer: Viewer, date: dt.date, ref: str, rules: Rules) -> RoomSheet:
    """Who comes to a room on a day."""
    day = day_of(session, viewer, date, rules)
    room = next((room for floor in day.floors for room in floor.rooms if room.ref == ref), None)
    if room is None:
        raise NotFound(f"There is no room '{ref[:40]}'.")
    timed = [one for one in day.problem.goings if one.ref in day.times]
    visits = [(day.times[one.ref] * TENTHS + stay.begins, one, stay) for one in timed for stay in _visits(one, ref)]
    visits.sort(key=lambda visit: (visit[0], visit[1].ref))
    return RoomSheet(
        date=date,
        room=room,
        visits=[_visit(day, one, stay) for _, one, stay in visits],
        runs=[line for _, line in sorted(_runs_in(day, timed, ref), key=lambda pair: pair[0])],
    )


def _part(day: Day, going: Going) -> TourPart:
    at = day.times[going.ref]
    row = next(row for row in day.rows if row.ref == going.ref)
    return TourPart(
        name=going.name,
        size=going.size,
        leaves=minute_told(at),
        back=_clock(at, going.tenths),
        note=row.note,
        stops=[_stop(at, stop) for stop in day.sheets[going.ref].stops],
        runs=[_run(day, going, number) for number in range(len(going.runs))],
    )


def _stop(at: int, stop: TimedStop) -> StopLine:
    station = stop.stop.station
    begins, ends = _clock(at, round(stop.arrive * TENTHS)), _clock(at, round(stop.leave * TENTHS))
    told = [one.title for one in stop.told]
    return StopLine(station.number, station.name, station.room.name, begins, ends, told, stop.wait)


def _run(day: Day, going: Going, number: int) -> RunLine:
    at, run = day.times[going.ref], going.runs[number]
    ready, begins, ends = (_clock(at, moment) for moment in (run.begins, run.told_from, run.ends))
    return RunLine(run.title, ready, begins, ends, going.name)


def _visits(going: Going, room: str) -> list[InRoom]:
    """A group's stays in a room, those that follow on each other as one; walked through if it only walks."""
    joined: list[InRoom] = []
    for stay in going.rooms:
        last = joined[-1] if joined else None
        if stay.room != room:
            continue
        if last and last.ends >= stay.begins:
            joined[-1] = InRoom(last.begins, stay.ends, room, last.walking and stay.walking)
        else:
            joined.append(stay)
    return joined


def _visit(day: Day, going: Going, stay: InRoom) -> VisitLine:
    at = day.times[going.ref]
    begins, ends = _clock(at, stay.begins), _clock(at, stay.ends)
    return VisitLine(begins, ends, going.name, going.guide, going.size, stay.walking)


def _runs_in(day: Day, timed: Sequence[Going], room: str) -> Sequence[tuple[int, RunLine]]:
    """The machines that are run in a room, with the moment at which each is made ready."""
    found = []
    for one in timed:
        for number, run in enumerate(one.runs):
            stands = any(stay.room == room and stay.begins <= run.told_from < stay.ends for stay in one.rooms)
            if stands:
                found.append((day.times[one.ref] * TENTHS + run.begins, _run(day, one, number)))
    return found


def _clock(at: int, tenths: int) -> str:
    return minute_told(at + round(tenths / TENTHS))
