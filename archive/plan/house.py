"""The plan's records as spots and links for walking."""

from __future__ import annotations

import math

from sqlalchemy.orm import Session

from archive.plan import queries
from archive.plan.model import Floor, Passage, Room
from archive.plan.walking import House, Link, Spot

# A metre of stairs is slow, and a lift is waited for; both count for more than their length on the plan.
_STAIR_STEP_M = 0.6
_LIFT_M = 25.0


def house_of(session: Session) -> House:
    """Every station, door and passage of the collection's plan."""
    floors = {floor.id: floor for floor in queries.floors(session)}
    outlines = {room.ref: _in_metres(room, floor) for floor in floors.values() for room in floor.rooms}
    passages = queries.passages(session)
    spots = [
        _spot(f"station {station.ref}", [station.room], station.x, station.y) for station in queries.stations(session)
    ]
    for door in queries.doors(session):
        rooms = [room for room in (door.room_a, door.room_b) if room is not None]
        spots.append(_spot(f"door {door.ref}", rooms, door.x, door.y, stepped=door.step_mm > 0))
    for passage in passages:
        spots += [_spot(f"{passage.ref} {end.position}", [end.room], end.x, end.y) for end in passage.ends]
    return House(spots, [_link(passage, floors) for passage in passages if len(passage.ends) == 2], outlines)


def _in_metres(room: Room, floor: Floor) -> list[tuple[float, float]]:
    return [(float(x) * floor.metres_per_unit, float(y) * floor.metres_per_unit) for x, y in room.outline]


def _spot(name: str, rooms: list[Room], x: float, y: float, *, stepped: bool = False) -> Spot:
    floor = rooms[0].floor
    scale = floor.metres_per_unit
    return Spot(name, floor.ref, tuple(room.ref for room in rooms), x * scale, y * scale, stepped)


def _link(passage: Passage, floors: dict[int, Floor]) -> Link:
    first, second = passage.ends
    scale = floors[first.room.floor_id].metres_per_unit
    plain = math.dist((first.x, first.y), (second.x, second.y)) * scale
    metres = {"stairs": passage.steps * _STAIR_STEP_M, "lift": _LIFT_M}.get(passage.kind, passage.length_m or plain)
    return Link(f"{passage.ref} {first.position}", f"{passage.ref} {second.position}", metres, passage.kind)
