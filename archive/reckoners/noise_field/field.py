"""The field: the rooms of a house worked out together, and the level at any point of them.

In each room the sound of a machine is direct sound and, added to it, one even reverberant field. A doorway is met by
both; what passes it is a source of its own in the next room, and comes back again: the reverberant fields of all rooms
are solved as one set of equations, so that no energy is lost or made on the way.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from archive.reckoners.hazard.acoustics import stand_back_m
from archive.reckoners.noise_field.outlines import Points, corners, facing, kept_inside, nearest_on, seen
from archive.reckoners.noise_field.rooms import Machine, Opening, SoundHouse, SoundRoom, Spot
from archive.reckoners.noise_field.sound import (
    ON_A_HARD_FLOOR,
    Levels,
    direct_part,
    energy,
    level,
    power_level_db,
    room_constant_m2,
)

# Nearer than this a machine is not a point, and the level is told as it is here.
NEAREST_M = 0.5


@dataclass(frozen=True)
class _Source:
    """Something that sends out power into a room, and how near to it the level is still told."""

    spot: Spot
    power: float
    directivity: float
    nearest_m: float


@dataclass(frozen=True)
class Patch:
    """The levels over one room: rows of y, columns of x, on a grid that reaches just beyond its walls."""

    room: SoundRoom
    x_m: Levels
    y_m: Levels
    level_db: Levels


class Field:
    """The levels everywhere in a house."""

    def __init__(self, house: SoundHouse) -> None:
        self._house = house
        self._rooms = {room.key: room for room in house.rooms}
        self._sources: dict[str, list[_Source]] = {room.key: [] for room in house.rooms}
        self._powers: dict[str, float] = {}
        for machine in house.machines:
            constant = self.room_constant(machine.room)
            power = energy(power_level_db(machine.level_db, machine.at_m, constant, machine.directivity))
            self._powers[machine.key] = power
            self._sources[machine.room].append(_Source(machine.spot, power, machine.directivity, NEAREST_M))
        self._even = self._solve()
        self._add_doorways()

    def room_constant(self, key: str) -> float:
        """R of a room, m², with what its doorways let out counted as taken in."""
        room = self._rooms[key]
        taken_in = room.surface_m2 * room.absorption + sum(map(self._passing_m2, self._openings_of(key)))
        return room_constant_m2(room.surface_m2, min(1.0, taken_in / room.surface_m2))

    def reverberant_db(self, key: str) -> float:
        """The even part of a room's level; minus infinity where there is none."""
        return float(level(np.asarray(self._even[key])))

    def level_at(self, key: str, spot: Spot) -> float:
        """The level at a spot in a room; minus infinity where nothing is heard."""
        return float(self.levels(key, np.asarray([spot], dtype=np.float64))[0])

    def levels(self, key: str, points: Points) -> Levels:
        """The levels at many points (rows of x, y) of a room; a point outside is taken to its nearest wall."""
        outline = self._rooms[key].outline
        placed = kept_inside(outline, points)
        total = np.full(len(points), self._even[key])
        for source in self._sources[key]:
            away = np.maximum(np.hypot(*(placed - np.asarray(source.spot)).T), source.nearest_m)
            total += seen(outline, source.spot, placed) * source.power * direct_part(away, source.directivity)
        return level(total)

    def stand_back_m(self, machine: Machine, level_db: float) -> float | None:
        """How far from a machine its own sound and the even part of its room come down to a level; None: nowhere."""
        power, even = self._powers[machine.key], self._even[machine.room]
        as_if_alone_m2 = 4 * power / even if even > 0 else None
        return stand_back_m(10 * math.log10(power), level_db, machine.directivity, as_if_alone_m2)

    def patch(self, key: str, step_m: float) -> Patch:
        """The levels on a grid over a room, on whole steps of the plan."""
        around = corners(self._rooms[key].outline)
        low, high = np.floor(around.min(axis=0) / step_m), np.ceil(around.max(axis=0) / step_m)
        x, y = (np.arange(low[axis], high[axis] + 1) * step_m for axis in (0, 1))
        across, down = np.meshgrid(x, y)
        levels = self.levels(key, np.column_stack([across.ravel(), down.ravel()]))
        return Patch(self._rooms[key], x, y, levels.reshape(across.shape))

    def _openings_of(self, key: str) -> list[Opening]:
        return [opening for opening in self._house.openings if key in (opening.room_a, opening.room_b)]

    def _passing_m2(self, opening: Opening) -> float:
        """The area that an opening is worth to sound."""
        return opening.area_m2 * (1.0 if opening.is_open else energy(-self._house.shut_door_db))

    def _straight_through(self, opening: Opening, key: str) -> float:
        """Power that machines in a room send straight through one of its openings."""
        outline = self._rooms[key].outline
        spot = _on_wall(outline, opening.spot)
        through = 0.0
        for source in self._sources[key]:
            if seen(outline, source.spot, np.asarray([spot]))[0]:
                away = max(math.dist(source.spot, spot), source.nearest_m)
                falling = direct_part(away, source.directivity) * facing(outline, spot, source.spot)
                through += source.power * min(falling * self._passing_m2(opening), 0.5)
        return through

    def _solve(self) -> dict[str, float]:
        """The even energies of all rooms: p² = (4 / R) (W + what comes in by the doorways), solved together."""
        keys = list(self._rooms)
        place = {key: number for number, key in enumerate(keys)}
        ways, given = np.eye(len(keys)), np.zeros(len(keys))
        for key in keys:
            given[place[key]] += sum(source.power for source in self._sources[key])
        for opening in self._house.openings:
            for key in filter(None, (opening.room_a, opening.room_b)):
                beyond = opening.beyond(key)
                if beyond:
                    given[place[beyond]] += self._straight_through(opening, key)
                    ways[place[beyond], place[key]] -= self._passing_m2(opening) / self.room_constant(beyond)
        sounding = np.asarray([4.0 / self.room_constant(key) for key in keys])
        return dict(zip(keys, np.linalg.solve(ways, given * sounding).tolist(), strict=True)) if keys else {}

    def _add_doorways(self) -> None:
        """Each doorway sends what reaches it into the next room, as a source in its wall."""
        sent = []
        for opening in self._house.openings:
            for key in filter(None, (opening.room_a, opening.room_b)):
                beyond = opening.beyond(key)
                if beyond:
                    even = self._even[key] / 4.0 * self._passing_m2(opening)
                    power = even + self._straight_through(opening, key)
                    spot = _on_wall(self._rooms[beyond].outline, opening.spot)
                    nearest = math.sqrt(opening.area_m2 / (2 * math.pi))
                    sent.append((beyond, _Source(spot, power, ON_A_HARD_FLOOR, nearest)))
        for beyond, source in sent:
            self._sources[beyond].append(source)


def _on_wall(outline: tuple[Spot, ...], spot: Spot) -> Spot:
    x, y = nearest_on(outline, np.asarray([spot], dtype=np.float64))[0]
    return float(x), float(y)
