"""Sulphuric acid: its density by strength, and what it does with copper oxide."""

from __future__ import annotations

from itertools import pairwise

# Per cent by weight and g/cm³ at 20 °C. Source: CRC Handbook (from memory).
DENSITY_OF_STRENGTH = (
    (0, 0.9982), (5, 1.0317), (10, 1.0661), (15, 1.1020), (20, 1.1394), (25, 1.1783), (30, 1.2185),
)  # fmt: skip
STRONGEST_PICKLE_PERCENT = 30
# g/mol. Source: IUPAC standard atomic masses.
COPPER_OXIDE_G_PER_MOL = 79.545
ACID_G_PER_MOL = 98.079
COPPER_SULPHATE_G_PER_MOL = 159.609


def density_g_per_cm3(strength_percent: float) -> float:
    """Density of dilute acid of 0 to 30 % by weight at 20 °C, on a straight line between the figures tabled."""
    for (low, light), (high, heavy) in pairwise(DENSITY_OF_STRENGTH):
        if low <= strength_percent <= high:
            return light + (heavy - light) * (strength_percent - low) / (high - low)
    raise ValueError(f"{strength_percent} % is outside the table")


def acid_for_oxide_g(oxide_g: float) -> float:
    """Acid used up by copper oxide: CuO + H2SO4 -> CuSO4 + H2O, 98.079 g for each 79.545 g."""
    return oxide_g * ACID_G_PER_MOL / COPPER_OXIDE_G_PER_MOL


def sulphate_of_oxide_g(oxide_g: float) -> float:
    """Copper sulphate made, without its water: 159.609 g for each 79.545 g of oxide."""
    return oxide_g * COPPER_SULPHATE_G_PER_MOL / COPPER_OXIDE_G_PER_MOL
