"""The plan's records as plain values in metres, on one day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from sqlalchemy.orm import Session

from archive.plan import queries
from archive.plan.model import Door, Floor, Obstacle, Passage, Room, Station
from archive.plan.premises import (
    Climb,
    Doorway,
    Level,
    Outline,
    PassageEnd,
    Point,
    Premises,
    RoomShape,
    Standpoint,
)


def premises_of(session: Session, on: dt.date, noisy_rooms: frozenset[str] = frozenset()) -> Premises:
    """The whole house as it stands on a day."""
    floors = queries.floors(session)
    scales = {floor.id: floor.metres_per_unit for floor in floors}
    standing: dict[int, list[Obstacle]] = {}
    for obstacle in queries.obstacles(session):
        standing.setdefault(obstacle.room_id, []).append(obstacle)
    return Premises(
        levels=tuple(Level(floor.ref, floor.name, floor.level) for floor in floors),
        rooms=tuple(_room(room, floor, standing.get(room.id, [])) for floor in floors for room in floor.rooms),
        doors=tuple(_door(door, scales[door.floor_id]) for door in queries.doors(session)),
        stations=tuple(_station(one, scales[one.room.floor_id]) for one in queries.stations(session)),
        passages=tuple(_passage(one, scales) for one in queries.passages(session)),
        closed=frozenset((one.kind, one.place) for one in queries.out_of_use_on(session, on)),
        noisy=noisy_rooms,
    )


def _room(room: Room, floor: Floor, standing: Sequence[Obstacle]) -> RoomShape:
    scale = floor.metres_per_unit
    obstacles = tuple(_outline(obstacle.outline, scale) for obstacle in standing)
    return RoomShape(room.ref, room.name, floor.ref, _outline(room.outline, scale), obstacles)


def _door(door: Door, scale: float) -> Doorway:
    return Doorway(
        ref=door.ref,
        rooms=(door.room_a.ref, door.room_b.ref if door.room_b else ""),
        at=_point(door.x, door.y, scale),
        width_m=door.width_m,
        headroom_m=door.headroom_m,
        step_mm=door.step_mm,
        gradient_percent=door.gradient_percent,
        one_way=door.one_way,
    )


def _station(station: Station, scale: float) -> Standpoint:
    return Standpoint(station.ref, station.name, station.room.ref, _point(station.x, station.y, scale))


def _passage(passage: Passage, scales: dict[int, float]) -> Climb:
    return Climb(
        ref=passage.ref,
        kind=passage.kind,
        name=passage.name,
        ends=tuple(PassageEnd(one.room.ref, _point(one.x, one.y, scales[one.room.floor_id])) for one in passage.ends),
        width_m=passage.width_m,
        headroom_m=passage.headroom_m,
        steps=passage.steps,
        rise_mm=passage.rise_mm,
        length_m=passage.length_m,
        capacity=passage.capacity,
        cycle_s=passage.cycle_s,
    )


def _outline(points: Iterable[Sequence[float]], scale: float) -> Outline:
    return tuple(_point(x, y, scale) for x, y in points)


def _point(x: float, y: float, scale: float) -> Point:
    return float(x) * scale, float(y) * scale
