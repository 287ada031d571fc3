"""One machine that runs alone in the plan's house with its doors open, as the map of noise hears it. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from archive.objects.model import Demonstration
from archive.plan.model import Door, Floor, Room, Station
from archive.reckoners.noise_field.rooms import (
    ASSUMED_ABSORPTION,
    ASSUMED_HEIGHT_M,
    Machine,
    Opening,
    SoundHouse,
    SoundRoom,
    Spot,
)


def house_of(floors: Sequence[Floor], doors: Sequence[Door], machine: Machine) -> SoundHouse:
    """The rooms and the doorways between them, with the one machine."""
    scales = {floor.id: floor.metres_per_unit for floor in floors}
    return SoundHouse(
        rooms=tuple(_room(room, floor.metres_per_unit) for floor in floors for room in floor.rooms),
        openings=tuple(_opening(door, door.room_b, scales) for door in doors if door.room_b is not None),
        machines=(machine,),
    )


def machine_of(demonstration: Demonstration, station: Station, scale: float) -> Machine | None:
    """The machine as a source of sound; None where no level was measured."""
    if demonstration.noise_db is None or demonstration.noise_at_m is None:
        return None
    spot = _spot(station.x, station.y, scale)
    return Machine(demonstration.ref, station.room.ref, spot, demonstration.noise_db, demonstration.noise_at_m)


def _room(room: Room, scale: float) -> SoundRoom:
    outline = tuple(_spot(x, y, scale) for x, y in room.outline)
    return SoundRoom(room.ref, outline, room.height_m or ASSUMED_HEIGHT_M, room.absorption or ASSUMED_ABSORPTION)


def _opening(door: Door, beyond: Room, scales: dict[int, float]) -> Opening:
    spot = _spot(door.x, door.y, scales[door.floor_id])
    return Opening(door.ref, door.room_a.ref, beyond.ref, spot, door.width_m * door.headroom_m, True)


def _spot(x: float, y: float, scale: float) -> Spot:
    return x * scale, y * scale
