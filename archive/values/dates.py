"""Uncertain dates, written in EDTF (ISO 8601-2:2019, levels 0 and 1)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import lru_cache
from time import struct_time

from edtf import EDTFParseException, parse_edtf

DATE_ALLOWED = "Write an EDTF date, such as 1952, 1952~, 195X, 1931-04 or 1948/1971"


@dataclass(frozen=True)
class UncertainDate:
    """A date as written, with the earliest and latest day that the words allow.

    An open end (`1944/..`) reaches to the first or last day that a date can hold.
    """

    text: str
    first: dt.date
    last: dt.date

    @property
    def decades(self) -> tuple[int, ...]:
        """The decades it touches, each by its first year; of an open interval only the known end's."""
        first = self.last if self.first == dt.date.min else self.first
        last = self.first if self.last == dt.date.max else self.last
        return tuple(range(first.year // 10 * 10, last.year + 1, 10))


@lru_cache(maxsize=4096)
def parse_date(text: str) -> UncertainDate:
    """The uncertain date of an EDTF text; raises ValueError that says what is allowed."""
    try:
        parsed = parse_edtf(text.strip())
        first, last = _day(parsed.lower_strict(), dt.date.min), _day(parsed.upper_strict(), dt.date.max)
    except (EDTFParseException, ValueError, TypeError, AttributeError, OverflowError) as problem:
        raise ValueError(f"'{text[:40]}' is not a date. {DATE_ALLOWED}") from problem
    if first > last:
        raise ValueError(f"'{text[:40]}' ends before it starts. {DATE_ALLOWED}")
    return UncertainDate(text.strip(), first, last)


def _day(edge: struct_time | float, open_edge: dt.date) -> dt.date:
    """The day of one end as the library gives it; an open end is an infinite number there."""
    return open_edge if isinstance(edge, float) else dt.date(*edge[:3])
