"""The house as plain values in metres, on one day: what may be walked, and what is out of use. Pure."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
Outline = tuple[Point, ...]


@dataclass(frozen=True)
class Level:
    """A floor of the house; a higher level lies further up."""

    ref: str
    name: str
    level: int


@dataclass(frozen=True)
class RoomShape:
    """A room's outline and what stands on its floor."""

    ref: str
    name: str
    floor: str
    outline: Outline
    obstacles: tuple[Outline, ...] = ()


@dataclass(frozen=True)
class Doorway:
    """An opening between two rooms, passed at its middle. A one-way door leads from the first to the second."""

    ref: str
    rooms: tuple[str, str]
    at: Point
    width_m: float
    headroom_m: float = 2.0
    step_mm: float = 0.0
    gradient_percent: float = 0.0
    one_way: bool = False


@dataclass(frozen=True)
class Standpoint:
    """Where a station's mark lies; who cannot stand there stands at the nearest free spot."""

    ref: str
    name: str
    room: str
    at: Point


@dataclass(frozen=True)
class PassageEnd:
    """Where stairs, a lift or a ramp begin."""

    room: str
    at: Point


@dataclass(frozen=True)
class Climb:
    """Stairs, a lift or a ramp. `rise_mm` is that of one step, or of the whole ramp."""

    ref: str
    kind: str
    name: str
    ends: tuple[PassageEnd, ...]
    width_m: float
    headroom_m: float = 2.0
    steps: int = 0
    rise_mm: float = 0.0
    length_m: float = 0.0
    capacity: int = 0
    cycle_s: float = 0.0


@dataclass(frozen=True)
class Premises:
    """The whole house. `closed` names what is out of use as (kind, reference), such as ("door", "d-yard")."""

    levels: tuple[Level, ...] = ()
    rooms: tuple[RoomShape, ...] = ()
    doors: tuple[Doorway, ...] = ()
    stations: tuple[Standpoint, ...] = ()
    passages: tuple[Climb, ...] = ()
    closed: frozenset[tuple[str, str]] = frozenset()
    noisy: frozenset[str] = frozenset()
