"""The table of limits for the air of a workshop: each row in its own unit, each cell with its source."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

# L/mol at 20 °C and 101.3 kPa.
MOLAR_VOLUME_L_PER_MOL = 24.05526
MG, PPM = "mg/m³", "ppm"


@dataclass(frozen=True)
class Limit:
    """A substance's limits in one unit: over eight hours (twa), 15 minutes (stel), never to be passed (ceiling)."""

    substance: str
    name: str
    unit: str
    uk_twa: float | None
    uk_stel: float | None
    uk_source: str
    us_twa: float | None
    us_ceiling: float | None
    us_source: str
    molar_mass: float | None


def _cell(text: str) -> float | None:
    return float(text) if text else None


def _row(row: dict[str, str]) -> Limit:
    return Limit(
        row["substance"], row["name"], row["unit"], _cell(row["uk_twa"]), _cell(row["uk_stel"]), row["uk_source"],
        _cell(row["us_twa"]), _cell(row["us_ceiling"]), row["us_source"], _cell(row["molar_mass"]),
    )  # fmt: skip


@cache
def limits() -> dict[tuple[str, str], Limit]:
    """Every row by substance and unit."""
    with Path(__file__).with_name("air_limits.csv").open(encoding="utf-8", newline="") as file:
        return {(row["substance"], row["unit"]): _row(row) for row in csv.DictReader(file)}


def substances() -> dict[str, str]:
    """Keys and names: the choices of a field."""
    return {substance: limit.name for (substance, _), limit in limits().items()}


def vapours() -> dict[str, float]:
    """Those with a molar mass, in g/mol."""
    return {limit.substance: limit.molar_mass for limit in limits().values() if limit.molar_mass}


def mg_per_m3(parts_per_million: float, molar_mass_g_per_mol: float) -> float:
    """A vapour's mg/m³ from its ppm at 20 °C and 101.3 kPa: ppm M / 24.055. Never for a limit, which the law rounds."""
    return parts_per_million * molar_mass_g_per_mol / MOLAR_VOLUME_L_PER_MOL
