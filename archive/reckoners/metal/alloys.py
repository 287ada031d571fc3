"""The table of alloys: every cell with its source; a cell that no source gives stays empty."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from archive.reckoners.measures import convert

# Numbers of the Brown and Sharpe gauge that a temper is rolled or drawn through after annealing.
TEMPER_NUMBERS = {
    "annealed": 0,
    "quarter hard": 1,
    "half hard": 2,
    "three-quarter hard": 3,
    "hard": 4,
    "extra hard": 6,
    "spring": 8,
    "extra spring": 10,
}
_HOUSE_UNITS = {"ksi": "N/mm²"}


@dataclass(frozen=True)
class Cell:
    """One cell; `high` None means "at least low". `form` is strip, wire or rod, or the element of a composition."""

    alloy: str
    what: str
    form: str
    temper: str
    low: float
    high: float | None
    unit: str
    source: str

    def __str__(self) -> str:
        if self.high is None:
            return f"at least {self.low:.4g} {self.unit}"
        if self.low == self.high:
            return f"{self.low:.6g} {self.unit}"
        return f"{self.low:.4g} to {self.high:.4g} {self.unit}"


@dataclass(frozen=True)
class Alloy:
    """One row of the table."""

    key: str
    name: str
    family: str
    cells: tuple[Cell, ...]

    def every(self, what: str, form: str = "", temper: str = "") -> tuple[Cell, ...]:
        """All cells of a kind; an empty form or temper means any."""
        return tuple(
            cell for cell in self.cells if cell.what == what and form in ("", cell.form) and temper in ("", cell.temper)
        )

    def first(self, what: str, form: str = "", temper: str = "") -> Cell | None:
        """The first cell of a kind, or None for a gap."""
        return next(iter(self.every(what, form, temper)), None)

    @property
    def mix(self) -> dict[str, float]:
        """Nominal parts by weight, per cent."""
        return {cell.form: cell.low for cell in self.every("mix")}


def _rows(name: str) -> Iterator[dict[str, str]]:
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _cell(row: dict[str, str]) -> Cell:
    unit = _HOUSE_UNITS.get(row["unit"], row["unit"])
    ends = [float(row[end]) if row[end] else None for end in ("low", "high")]
    if unit != row["unit"]:
        ends = [None if end is None else convert(end, row["unit"], unit) for end in ends]
    assert ends[0] is not None, row
    return Cell(row["alloy"], row["what"], row["form"], row["temper"], ends[0], ends[1], unit, row["source"])


@cache
def alloys() -> dict[str, Alloy]:
    """Every alloy by key."""
    cells = [_cell(row) for row in _rows("alloys.csv")]
    return {
        row["alloy"]: Alloy(
            row["alloy"], row["name"], row["family"], tuple(cell for cell in cells if cell.alloy == row["alloy"])
        )
        for row in _rows("alloy_names.csv")
    }


def alloys_with(*kinds: str) -> dict[str, str]:
    """Keys and names of the alloys that have a cell of every kind: the choices of a field."""
    return {key: alloy.name for key, alloy in alloys().items() if all(alloy.every(kind) for kind in kinds)}
