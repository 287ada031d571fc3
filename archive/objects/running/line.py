"""How far from a running machine the group stands, and whether ears are protected there. Pure.

The sound of the map of noise is asked how far the level is below the lower action value; the keeper's own line is kept
where it is the further one. Protectors follow the level at the line, however short the run: the values of the rules are
for workers over a day of eight hours, and visitors have never agreed to any of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from archive.reckoners.hazard.noise_law import LOWER_ACTION_DB, UPPER_ACTION_DB
from archive.reckoners.noise_field.field import NEAREST_M, Field
from archive.reckoners.noise_field.rooms import Machine, SoundHouse
from archive.reckoners.noise_field.sound import direct_part, energy, power_level_db

# The whole figure that is shown is then below the lower action value.
WANTED_DB = LOWER_ACTION_DB - 1
OPERATOR_AT_M = 1.0
NONE, OFFERED, WORN = "none", "offered", "worn"
SOURCE = (
    "80 and 85 dB(A) are the lower and upper action values of Directive 2003/10/EC, article 3, for workers over a day "
    "of eight hours. Here they are held against the level itself, to be on the safe side for visitors."
)


@dataclass(frozen=True)
class Line:
    """The line to stand behind: the keeper's own and what the noise asks for, the level there, and what ears need.

    `asked_m` is None where no level was measured, or where nowhere in the room is quiet enough.
    """

    metres: float
    own_m: float
    asked_m: float | None
    level_db: int | None
    operator_db: int | None
    group_ears: str
    operator_ears: str
    how: str


def line_of(own_m: float, machine: Machine | None, house: SoundHouse | None, *, sudden: bool) -> Line:
    """The line of a machine that runs alone, with the doors standing open, as the map of noise has it."""
    if machine is None or house is None:
        how = f"The keeper's own line, {own_m:g} m. No level has been measured, so protectors are offered to all."
        return Line(own_m, own_m, None, None, None, OFFERED, WORN, how)
    field = Field(house)
    asked = field.stand_back_m(machine, WANTED_DB)
    room = next(room for room in house.rooms if room.key == machine.room)
    furthest = max(math.dist(machine.spot, corner) for corner in room.outline)
    reached = asked is not None and asked <= furthest
    metres = max(own_m, _rounded_up(asked)) if asked is not None and reached else own_m
    level, near = _level_at(field, machine, metres), _level_at(field, machine, OPERATOR_AT_M)
    return Line(
        metres=metres,
        own_m=own_m,
        asked_m=_rounded_up(asked) if asked is not None and reached else None,
        level_db=level,
        operator_db=near,
        group_ears=_ears(level, sudden=sudden),
        operator_ears=_ears(near, sudden=sudden),
        how=_how(own_m, asked if reached else None, level),
    )


def _level_at(field: Field, machine: Machine, metres: float) -> int:
    """The level at a distance from a machine in its own room, in whole dB(A), as the map shows it."""
    constant = field.room_constant(machine.room)
    power = energy(power_level_db(machine.level_db, machine.at_m, constant, machine.directivity))
    even = energy(field.reverberant_db(machine.room))
    there = power * direct_part(max(metres, NEAREST_M), machine.directivity) + even
    return round(10 * math.log10(there))


def _ears(level_db: float, *, sudden: bool) -> str:
    if level_db >= UPPER_ACTION_DB:
        return WORN
    return OFFERED if level_db >= LOWER_ACTION_DB or sudden else NONE


def _how(own_m: float, asked_m: float | None, level_db: int) -> str:
    own = f"The keeper's own line is at {own_m:g} m."
    if asked_m is None:
        return (
            f"{own} Nowhere in this room is the machine below {LOWER_ACTION_DB:g} dB(A), so the line alone does not "
            f"guard the ears. At the line it is about {level_db} dB(A)."
        )
    asked = _rounded_up(asked_m)
    larger = "the map's" if asked > own_m else "the keeper's"
    return (
        f"{own} By the map of noise the machine is below {LOWER_ACTION_DB:g} dB(A) from {asked:g} m. The larger of the "
        f"two is {larger}. At the line it is about {level_db} dB(A)."
    )


def _rounded_up(metres: float) -> float:
    return math.ceil(metres * 10 - 1e-6) / 10
