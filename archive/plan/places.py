"""What of the plan can be put out of use: every door, passage, room and station, each with a name to choose it by."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan import queries
from archive.plan.model import Door


@dataclass(frozen=True)
class Place:
    """A part of the plan, by kind and reference, and what people call it."""

    kind: str
    ref: str
    name: str

    @property
    def key(self) -> str:
        """The place in one word, for a form."""
        return f"{self.kind}:{self.ref}"


def places(session: Session) -> list[Place]:
    """Every place that can be out of use: rooms, stations, doors, then passages, each kind in the plan's order."""
    names = Counter(_door_name(door) for door in queries.doors(session))
    doors = [Place("door", door.ref, _own_name(door, names)) for door in queries.doors(session)]
    rooms = [Place("room", room.ref, room.name) for room in queries.rooms(session)]
    stations = [
        Place("station", station.ref, f"{station.number} {station.name}") for station in queries.stations(session)
    ]
    return [*rooms, *stations, *doors, *(Place("passage", one.ref, one.name) for one in queries.passages(session))]


def _own_name(door: Door, names: Counter[str]) -> str:
    """A door's name; where two doors join the same rooms, with its reference."""
    name = _door_name(door)
    return f"{name} ({door.ref})" if names[name] > 1 else name


def _door_name(door: Door) -> str:
    beyond = door.room_b.name if door.room_b else "outside"
    return f"{door.room_a.name} to {beyond}"
