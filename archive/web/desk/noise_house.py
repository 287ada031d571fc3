"""The plan's records as a house that sounds: rooms, doorways and the machines that have a level."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.objects.clearance import clearance_on
from archive.objects.model import Demonstration
from archive.objects.queries import machines
from archive.objects.running.sounding import opening_of, sound_room, spot_of
from archive.plan.model import Door, Floor, Room, Station
from archive.plan.queries import doors
from archive.reckoners.noise_field.rooms import Machine, SoundHouse
from archive.web.desk.noise_asked import NoiseAsked

OTHER_AT_M = 1.0


@dataclass(frozen=True)
class LoudMachine:
    """A machine with a measured level: where it stands, whether its papers hold today, and whether it runs here."""

    demonstration: Demonstration
    station: Station
    level_db: float
    at_m: float
    cleared: bool
    runs: bool


@dataclass(frozen=True)
class Doorway:
    """A door between two rooms, and whether it stands open here."""

    door: Door
    is_open: bool


def loud_machines(session: Session, asked: NoiseAsked, on: dt.date) -> tuple[LoudMachine, ...]:
    """The loudest level of each machine that has one; as the page opens, those that are cleared today run."""
    found = []
    for machine in machines(session):
        told = [one for one in machine.demonstrations if one.noise_db is not None and one.noise_at_m is not None]
        if told and machine.station is not None:
            loudest = max(told, key=lambda one: one.noise_db or 0.0)
            cleared = clearance_on(machine.clearances, on).valid
            runs = cleared if asked.running is None else machine.ref in asked.running
            level, away = loudest.noise_db or 0.0, loudest.noise_at_m or OTHER_AT_M
            found.append(LoudMachine(loudest, machine.station, level, away, cleared, runs))
    return tuple(sorted(found, key=lambda one: one.station.number))


def doorways(session: Session, asked: NoiseAsked) -> tuple[Doorway, ...]:
    """The doors between rooms; as the page opens all stand open. Doors to the outside stay shut."""
    inner = [door for door in doors(session) if door.room_b is not None]
    return tuple(Doorway(door, asked.open_doors is None or door.ref in asked.open_doors) for door in inner)


def sound_house(
    floors: Sequence[Floor],
    loud: Sequence[LoudMachine],
    ways: Sequence[Doorway],
    asked: NoiseAsked,
    other: Station | None,
) -> SoundHouse:
    """Everything that is heard together, in metres."""
    scales = {floor.id: floor.metres_per_unit for floor in floors}
    running = [_machine(one, scales) for one in loud if one.runs]
    if other is not None and asked.other_db is not None:
        spot = spot_of(other.x, other.y, scales[other.room.floor_id])
        running.append(Machine("other", other.room.ref, spot, float(asked.other_db), OTHER_AT_M))
    return SoundHouse(
        rooms=tuple(sound_room(room, floor.metres_per_unit) for floor in floors for room in floor.rooms),
        openings=tuple(opening_of(way.door, scales, is_open=way.is_open) for way in ways),
        machines=tuple(running),
        shut_door_db=float(asked.shut_door_db),
    )


def assumed_rooms(floor: Floor) -> tuple[Room, ...]:
    """The rooms of a floor whose height or absorption the plan does not tell."""
    return tuple(room for room in floor.rooms if room.height_m is None or room.absorption is None)


def _machine(one: LoudMachine, scales: dict[int, float]) -> Machine:
    room = one.station.room
    spot = spot_of(one.station.x, one.station.y, scales[room.floor_id])
    return Machine(one.demonstration.ref, room.ref, spot, one.level_db, one.at_m)
