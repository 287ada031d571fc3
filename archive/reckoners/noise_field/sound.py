"""What the closed forms of hazard/acoustics.py lack for a field: energies of many points, and rooms that are open.

Source: Bies and Hansen, Engineering Noise Control, chapter 7 (from memory).
"""

from __future__ import annotations

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from archive.reckoners.hazard import acoustics

Levels = NDArray[np.float64]
Number = TypeVar("Number", float, Levels)

ON_A_HARD_FLOOR = 2.0


def energy(level_db: float) -> float:
    """A level as an energy that can be added: 10^(L / 10)."""
    return float(10.0 ** (level_db / 10.0))


def level(added: Levels) -> Levels:
    """Energies as levels: 10 lg E. No energy at all is minus infinity."""
    with np.errstate(divide="ignore"):
        return np.asarray(10.0 * np.log10(added))


def direct_part(distance_m: Number, directivity: float) -> Number:
    """Q / (4 π r²), per m²: how a source's power thins with distance. Q is 1 in the open, 2 on a hard floor."""
    return directivity / (4.0 * math.pi * distance_m**2)


def room_constant_m2(surface_m2: float, absorption: float) -> float:
    """R = S α / (1 - α), m²; endless where everything is taken in (out of doors).

    Good for a roughly diffuse room, mean absorption up to about 0.3.
    """
    return math.inf if absorption >= 1 else acoustics.room_constant_m2(surface_m2, absorption)


def power_level_db(level_db: float, at_m: float, room_constant: float, directivity: float = ON_A_HARD_FLOOR) -> float:
    """Sound power from a level measured in a room: L_W = L_p - 10 lg (Q / (4 π r²) + 4 / R), dB."""
    return level_db - acoustics.room_level_db(0.0, at_m, directivity, room_constant)
