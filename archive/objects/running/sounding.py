"""The plan's records as the map of noise hears them: rooms, doorways and machines in metres. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

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
        rooms=tuple(sound_room(room, floor.metres_per_unit) for floor in floors for room in floor.rooms),
        openings=tuple(opening_of(door, scales) for door in doors if door.room_b is not None),
        machines=(machine,),
    )


def machine_of(demonstration: Demonstration, station: Station, scale: float) -> Machine | None:
    """The machine as a source of sound; None where no level was measured."""
    if demonstration.noise_db is None or demonstration.noise_at_m is None:
        return None
    spot = spot_of(station.x, station.y, scale)
    return Machine(demonstration.ref, station.room.ref, spot, demonstration.noise_db, demonstration.noise_at_m)


def sound_room(room: Room, scale: float) -> SoundRoom:
    """A room with its height and absorption, assumed where the plan does not tell them."""
    outline = tuple(spot_of(x, y, scale) for x, y in room.outline)
    return SoundRoom(room.ref, outline, room.height_m or ASSUMED_HEIGHT_M, room.absorption or ASSUMED_ABSORPTION)


def opening_of(door: Door, scales: Mapping[int, float], *, is_open: bool = True) -> Opening:
    """A doorway; `scales` are metres per unit by the floor's key."""
    spot = spot_of(door.x, door.y, scales[door.floor_id])
    beyond = door.room_b.ref if door.room_b else ""
    return Opening(door.ref, door.room_a.ref, beyond, spot, door.width_m * door.headroom_m, is_open)


def spot_of(x: float, y: float, scale: float) -> Spot:
    """A point of a drawing in metres."""
    return x * scale, y * scale
