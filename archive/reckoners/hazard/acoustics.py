"""How sound adds, thins out with distance, and fills a room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

# Seconds a metre: 24 ln 10 over the speed of sound, as it is printed.
SABINE_S_PER_M = 0.161


def sum_of_levels_db(levels_db: Iterable[float]) -> float:
    """Levels of sources that do not keep step: 10 lg (sum of 10^(L / 10)). Source: any text of acoustics."""
    return 10 * math.log10(sum(10 ** (level / 10) for level in levels_db))


def level_at_db(level_db: float, from_m: float, to_m: float) -> float:
    """Level of one small source in the open at another distance: L - 20 lg (r2 / r1). Bies and Hansen (from memory)."""
    return level_db - 20 * math.log10(to_m / from_m)


def power_from_level_db(level_db: float, distance_m: float, directivity: float) -> float:
    """Sound power level behind a level in the open: L - 10 lg (Q / (4 pi r²))."""
    return level_db - 10 * math.log10(directivity / (4 * math.pi * distance_m**2))


def absorption_m2(surfaces: Sequence[tuple[float, float]]) -> float:
    """A = sum of surface × absorption."""
    return sum(area * alpha for area, alpha in surfaces)


def room_constant_m2(surface_m2: float, alpha: float) -> float:
    """R = S alpha / (1 - alpha)."""
    return surface_m2 * alpha / (1 - alpha)


def reverberation_s(volume_m3: float, area_m2: float) -> float:
    """T60 = 0.161 V / A. Source: Sabine (from memory)."""
    return SABINE_S_PER_M * volume_m3 / area_m2


def direct_db(power_db: float, distance_m: float, directivity: float) -> float:
    """Level straight from the source: L_W + 10 lg (Q / (4 pi r²))."""
    return power_db + 10 * math.log10(directivity / (4 * math.pi * distance_m**2))


def reverberant_db(power_db: float, area_m2: float) -> float:
    """Level of what the room gives back: L_W + 10 lg (4 / A); with R in place of A by the fuller form."""
    return power_db + 10 * math.log10(4 / area_m2)


def room_level_db(power_db: float, distance_m: float, directivity: float, area_m2: float) -> float:
    """L_p = L_W + 10 lg (Q / (4 pi r²) + 4 / R). Source: Bies and Hansen, chapter 7 (from memory)."""
    return power_db + 10 * math.log10(directivity / (4 * math.pi * distance_m**2) + 4 / area_m2)


def stand_back_m(power_db: float, wanted_db: float, directivity: float, area_m2: float | None) -> float | None:
    """Distance at which the level is down to the one wanted; None if the room alone gives more.

    The same formula turned round: r = sqrt(Q / (4 pi (10^((L - L_W) / 10) - 4 / A))).
    """
    left: float = 10 ** ((wanted_db - power_db) / 10) - (4 / area_m2 if area_m2 else 0.0)
    return math.sqrt(directivity / (4 * math.pi * left)) if left > 0 else None
