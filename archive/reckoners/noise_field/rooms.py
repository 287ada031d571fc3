"""What the field is worked out from: rooms, the openings between them, and machines that run. Metres, dB(A)."""

from __future__ import annotations

from dataclasses import dataclass

from archive.reckoners.noise_field.outlines import area_m2, perimeter_m
from archive.reckoners.noise_field.sound import ON_A_HARD_FLOOR

Spot = tuple[float, float]

# Where the plan does not say: a workshop of middling height with hard, whitewashed walls.
ASSUMED_HEIGHT_M = 3.5
ASSUMED_ABSORPTION = 0.08
# What an old boarded door takes off the sound that meets it. No source here gives it, so the page asks for it.
SHUT_DOOR_DB = 20.0


@dataclass(frozen=True)
class SoundRoom:
    """A room: its outline, height, and the mean share of sound that its surfaces take in."""

    key: str
    outline: tuple[Spot, ...]
    height_m: float = ASSUMED_HEIGHT_M
    absorption: float = ASSUMED_ABSORPTION

    @property
    def surface_m2(self) -> float:
        """Floor, ceiling and walls."""
        return 2 * area_m2(self.outline) + perimeter_m(self.outline) * self.height_m


@dataclass(frozen=True)
class Opening:
    """A doorway between two rooms, or out of doors (`room_b` empty)."""

    key: str
    room_a: str
    room_b: str
    spot: Spot
    area_m2: float
    is_open: bool

    def beyond(self, room: str) -> str:
        """The room on the other side."""
        return self.room_b if room == self.room_a else self.room_a


@dataclass(frozen=True)
class Machine:
    """A machine that runs, told by the level measured in its own room at a distance."""

    key: str
    room: str
    spot: Spot
    level_db: float
    at_m: float
    directivity: float = ON_A_HARD_FLOOR


@dataclass(frozen=True)
class SoundHouse:
    """Everything that is heard together."""

    rooms: tuple[SoundRoom, ...]
    openings: tuple[Opening, ...] = ()
    machines: tuple[Machine, ...] = ()
    shut_door_db: float = SHUT_DOOR_DB
