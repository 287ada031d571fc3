"""How loud it is at each station while a machine is run for visitors, and what of a day's noise that takes up."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.objects.clearance import clearance_on
from archive.objects.model import Demonstration
from archive.objects.queries import machines
from archive.objects.running.line import line_of
from archive.objects.running.sounding import house_of, machine_of, spot_of
from archive.plan.model import Room, Station
from archive.plan.queries import doors, floors, stations
from archive.reckoners.hazard.noise_law import LOWER, LOWER_ACTION_DB
from archive.reckoners.noise_field.field import Field
from archive.store.freshness import memory

MILLION = 1_000_000
# What a group, and a guide over a day, are kept below. Source: Directive 2003/10/EC, article 3: the lower action value,
# 80 dB(A) as a day of eight hours. It is the law for workers; visitors are owed no less, so it is kept to for both.
KEPT_BELOW_DB = LOWER_ACTION_DB


@dataclass(frozen=True)
class Heard:
    """Levels in dB(A) while one demonstration runs alone with the doors open, by its reference.

    `at_line` is the level where its own group stands, `at` that at each station, `in_room` the loudest at any station
    of a room or at its middle. What was never measured is not in them. `cleared` are those that may run that day;
    `stands_in` are the rooms of the machines.
    """

    at_line: Mapping[str, int]
    at: Mapping[str, Mapping[str, float]]
    in_room: Mapping[str, Mapping[str, float]]
    cleared: frozenset[str]
    stands_in: Mapping[str, str]


def heard_levels(session: Session, on: dt.date) -> Heard:
    """What is heard of every demonstration that has a measured level; clearances are for the day."""
    held = memory(session)
    key = "heard", on
    if key not in held:
        held[key] = _heard(session, on)
    heard: Heard = held[key]
    return heard


def share_of_day(level_db: float, minutes: float) -> float:
    """The share of a day at the lower action value, 80 dB(A) for 8 hours, that some minutes take up."""
    return minutes / 60 / LOWER.hours_allowed(level_db)


def noise_of(heard: Heard, demonstration: Demonstration, minutes: float) -> int:
    """What a group behind the line takes in, in millionths of the day that is kept to, rounded up."""
    level = heard.at_line.get(demonstration.ref)
    return 0 if level is None else int(share_of_day(level, minutes) * MILLION) + 1


def _heard(session: Session, on: dt.date) -> Heard:
    levels, ways = floors(session), [door for door in doors(session) if door.room_b is not None]
    scales = {floor.id: floor.metres_per_unit for floor in levels}
    placed = stations(session)
    at_line, at, in_room, stands_in = {}, {}, {}, {}
    cleared: set[str] = set()
    for owner in machines(session):
        valid = clearance_on(owner.clearances, on).valid
        for one in owner.demonstrations:
            cleared |= {one.ref} if valid else set()
            if owner.station is None:
                continue
            stands_in[one.ref] = owner.station.room.ref
            machine = machine_of(one, owner.station, scales[owner.station.room.floor_id])
            if machine is None:
                continue
            house = house_of(levels, ways, machine)
            line = line_of(one.stand_back_m, machine, house, sudden=one.sudden)
            if line.level_db is not None:
                at_line[one.ref] = line.level_db
            field = Field(house)
            at[one.ref] = {station.ref: _level(field, station, scales) for station in placed}
            rooms = [(room, floor.metres_per_unit) for floor in levels for room in floor.rooms]
            in_room[one.ref] = {room.ref: _loudest(field, room, scale, at[one.ref]) for room, scale in rooms}
    return Heard(at_line, at, in_room, frozenset(cleared), stands_in)


def _level(field: Field, station: Station, scales: Mapping[int, float]) -> float:
    return field.level_at(station.room.ref, spot_of(station.x, station.y, scales[station.room.floor_id]))


def _loudest(field: Field, room: Room, scale: float, at: Mapping[str, float]) -> float:
    middle = field.level_at(room.ref, spot_of(room.label_x, room.label_y, scale))
    return max([middle, *(at[station.ref] for station in room.stations)])
