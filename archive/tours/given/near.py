"""Which seat, toilet or exit is near a stop, told by its room. Pure."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from archive.plan.model import Amenity, Station

NEEDED = ("seat", "toilet", "exit")


@dataclass(frozen=True)
class NearPlace:
    """The nearest place of a kind, and the words for where it is: none in the same room."""

    kind: str
    amenity: Amenity
    where: str


def near(station: Station, amenities: Iterable[Amenity], kinds: Iterable[str] = NEEDED) -> tuple[NearPlace, ...]:
    """For each kind that the plan has, the place to go to: this room first, then this floor, then the next floor."""
    by_kind: dict[str, list[Amenity]] = {}
    for amenity in amenities:
        by_kind.setdefault(amenity.kind, []).append(amenity)
    return tuple(_nearest(station, kind, by_kind) for kind in kinds if kind in by_kind)


def _nearest(station: Station, kind: str, by_kind: Mapping[str, list[Amenity]]) -> NearPlace:
    here = station.room

    def far(amenity: Amenity) -> tuple[bool, int, float, str]:
        floors = abs(amenity.room.floor.level - here.floor.level)
        scale = here.floor.metres_per_unit
        away = math.dist((amenity.x, amenity.y), (station.x, station.y)) * scale if floors == 0 else 0.0
        return amenity.room_id != here.id, floors, away, amenity.ref

    best = min(by_kind[kind], key=far)
    if best.room_id == here.id:
        where = ""
    elif best.room.floor_id == here.floor_id:
        where = best.room.name
    else:
        where = f"{best.room.name}, {best.room.floor.name.lower()}"
    return NearPlace(kind, best, where)
