"""A figure as it was spoken: its kind, its two ends, its unit, and the words it stands in. Pure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from archive.interviews.said.units import comparable

KINDS = ("quantity", "money", "date", "age", "rate", "weight", "length", "temperature", "duration", "power")


@dataclass(frozen=True)
class Spoken:
    """A figure of one of KINDS, from `low` to `high` (an open end is infinite), between two letters of its line.

    Money is in old pence (d). The unit of a date is a year of our reckoning, and that of an age is a year.
    """

    kind: str
    low: float
    high: float
    unit: str
    start: int
    end: int

    @property
    def value(self) -> float:
        """One number that stands for it: the middle, or the end that is not open."""
        if math.isinf(self.low) or math.isinf(self.high):
            return self.high if math.isinf(self.low) else self.low
        return (self.low + self.high) / 2

    @property
    def basic(self) -> tuple[float, float, str]:
        """Both ends in the base unit of its family, and the family; years and ages are their own."""
        if self.kind in {"date", "age"}:
            return self.low, self.high, self.kind
        low, family = comparable(self.low, self.unit)
        return low, comparable(self.high, self.unit)[0], family
