"""Where every constant and check of the reckoners comes from, by key, and how well each source was seen."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Mark(StrEnum):
    """How a source was seen."""

    PUBLISHED = "published"
    SECOND_HAND = "second-hand"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Source:
    """A work that a figure rests on; `where` is the chapter, table, page or address within it."""

    key: str
    author: str
    title: str
    edition: str
    where: str
    mark: Mark

    def __str__(self) -> str:
        parts = ", ".join(part for part in (self.author, self.title, self.edition, self.where) if part)
        return parts if self.mark is Mark.PUBLISHED else f"{parts} ({self.mark})"


_P, _S, _M, _C = Mark.PUBLISHED, Mark.SECOND_HAND, Mark.FROM_MEMORY, Mark.COMMON_PRACTICE

# One line each where it fits; keep them by room, and by key within a room.
_SOURCES = (
    # every room
    Source("arithmetic", "", "Arithmetic on definitions", "", "the sum is shown in full", _C),
    Source("trade", "", "Common practice of the trade", "", "", _C),
    Source("weights-and-measures", "UK Parliament", "Weights and Measures Act", "1985", "Schedule 1", _M),
    # metal
    Source("hallmarking-1973", "UK Parliament", "Hallmarking Act", "1973, as at 1 February 1991",
           "Schedule 2, paragraph 2", _P),
    Source("hallmarking-1998", "UK Parliament", "Statutory Instrument 1998/2978 and later orders", "1998",
           "amends the Hallmarking Act 1973, Schedule 2", _M),
    Source("tukes-marking", "Finnish Safety and Chemicals Agency", "Guidance on articles of precious metals", "",
           "rounding down to a standard of fineness", _P),
    Source("hallmark-exempt", "", "Weights below which an article needs no hallmark", "",
           "a table in a public document", _S),
    # units
    Source("swg", "Order in Council", "Imperial Standard Wire Gauge", "23 August 1883, in force 1 March 1884",
           "as tabled in public gauge tables and in Building Construction", _S),
    Source("swg-memory", "Order in Council", "Imperial Standard Wire Gauge", "1883", "numbers 31 to 49", _M),
    Source("bg-1914", "Order in Council", "Birmingham Gauge for sheet and hoop", "10 July 1914",
           "as tabled on a public page of measures", _S),
    Source("bg-memory", "", "Machinery's Handbook", "", "Birmingham Gauge, numbers 23 to 30", _M),
    Source("bwg", "Holtzapffel", "Stubs or Birmingham wire gauge", "", "as tabled on public pages", _S),
    Source("bwg-memory", "", "Machinery's Handbook", "", "Stubs or Birmingham wire gauge", _M),
    Source("us-gauge-memory", "US Congress", "United States Standard gauge", "3 March 1893", "Act, section 1", _M),
    Source("astm-b258", "ASTM", "B258, nominal diameters of AWG sizes", "", "formula; agrees with a public table", _S),
)
SOURCES = {source.key: source for source in _SOURCES}


def source(key: str) -> Source:
    """The source with this key; a KeyError is a mistake in a reckoner."""
    return SOURCES[key]
