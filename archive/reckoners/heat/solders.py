"""The table of solders: where each begins to melt and where it flows; a gap where no source gives it."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path


@dataclass(frozen=True)
class Solder:
    """One solder; `solidus_c` None where a source gives the flow point alone."""

    key: str
    name: str
    solidus_c: float | None
    liquidus_c: float
    source: str

    @property
    def begins_c(self) -> float:
        """Where it begins to melt, or its flow point where that is all that is known."""
        return self.liquidus_c if self.solidus_c is None else self.solidus_c


@cache
def solders() -> dict[str, Solder]:
    """Every solder by key."""
    with Path(__file__).with_name("solders.csv").open(encoding="utf-8", newline="") as file:
        return {
            row["solder"]: Solder(
                row["solder"],
                row["name"],
                float(row["solidus"]) if row["solidus"] else None,
                float(row["liquidus"]),
                row["source"],
            )
            for row in csv.DictReader(file)
        }


def solder_names() -> dict[str, str]:
    """Keys and names: the choices of a field."""
    return {key: solder.name for key, solder in solders().items()}
