"""One printed figure and the reckoner that must give it, to half of the last digit printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from archive.reckoners.registry import reckon


@dataclass(frozen=True)
class Check:
    """A figure with its source. Expected numbers are written as printed: "0.24" is held to ±0.005.

    `within` widens that where the reference says how far the print is rounded.
    """

    reckoner: str
    source: str
    given: Mapping[str, str]
    expected: Mapping[str, str]
    within: float | None = None

    def __str__(self) -> str:
        return f"{self.reckoner}: {self.source}"

    def holds(self) -> None:
        """Asserts every expected figure."""
        result = reckon(self.reckoner, self.given)
        for key, printed in self.expected.items():
            found = result.value(key).value
            if isinstance(found, str):
                assert found == printed, f"{self}: {key} is {found}, printed {printed}"
            else:
                limit = self.within if self.within is not None else half_last_digit(printed)
                assert abs(found - float(printed)) <= limit * (1 + 1e-9), f"{self}: {key} is {found}, printed {printed}"


def half_last_digit(printed: str) -> float:
    """Half of the last digit printed: 0.005 for "0.24", 0.5 for "467469"."""
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return float(Decimal(5).scaleb(exponent - 1))
