"""Wire and sheet gauges: a number means a thickness only with the name of its table."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from archive.reckoners.measures import INCH_MM

TABLES = {
    "SWG": "Imperial Standard Wire Gauge",
    "BG": "Birmingham Gauge, sheet and hoop",
    "BWG": "Birmingham or Stubs wire gauge",
    "B&S": "Brown and Sharpe or American wire gauge",
    "US": "United States Standard, sheet iron and steel",
}
_OTHER_NAMES = {"awg": "B&S", "bs": "B&S", "b & s": "B&S", "b and s": "B&S", "stubs": "BWG", "uss": "US", "isg": "SWG"}


@dataclass(frozen=True)
class Gauge:
    """One number of one table."""

    table: str
    number: str
    thickness_in: float
    source: str

    @property
    def thickness_mm(self) -> float:
        """The thickness in millimetres."""
        return self.thickness_in * INCH_MM


def brown_and_sharpe_in(number: float) -> float:
    """d = 0.005 * 92^((36 - n) / 39) inch; 2/0 is -1. Source: ASTM B258, as tabled."""
    return float(0.005 * 92 ** ((36 - number) / 39))


def _numbered(number: str) -> int:
    """ "0" is 0, "3/0" is -2: the order of a gauge from thick to thin."""
    return 1 - int(number[:-2]) if number.endswith("/0") else int(number)


@cache
def gauges() -> dict[tuple[str, str], Gauge]:
    """Every gauge number held, by table and number."""
    path = Path(__file__).with_name("gauges.csv")
    with path.open(encoding="utf-8", newline="") as file:
        rows = [Gauge(r["table"], r["number"], float(r["inch"]), r["source"]) for r in csv.DictReader(file)]
    names = [*(f"{n}/0" for n in (4, 3, 2)), *(str(n) for n in range(41))]
    rows += [Gauge("B&S", name, brown_and_sharpe_in(_numbered(name)), "astm-b258") for name in names]
    return {(row.table, row.number): row for row in rows}


def table_named(name: str) -> str | None:
    """The table that people mean by a name, or None."""
    word = " ".join(name.lower().replace(".", "").split())
    same = next((table for table in TABLES if table.lower() == word), None)
    return same or _OTHER_NAMES.get(word)


def gauge(table: str, number: str) -> Gauge | None:
    """A number of a table, or None where the table has none; "00" may be written for "2/0"."""
    tidy = f"{len(number)}/0" if len(number) > 1 and set(number) == {"0"} else number
    return gauges().get((table, tidy.lstrip("0") or "0" if "/" not in tidy else tidy))


def thicknesses(number: str) -> tuple[Gauge, ...]:
    """What the number means in each table that has it."""
    return tuple(found for table in TABLES if (found := gauge(table, number)))


def nearest(table: str, thickness_mm: float) -> Gauge:
    """The number of a table whose thickness is nearest."""
    held = (found for found in gauges().values() if found.table == table)
    return min(held, key=lambda found: abs(found.thickness_mm - thickness_mm))
