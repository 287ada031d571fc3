"""A tour drawn as a strip of stops whose widths are their minutes. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from archive.tours.sheet import TimedStop, TourSheet

WIDTH = 1000.0
NUMBER_WIDTH = 28.0


@dataclass(frozen=True)
class Piece:
    """One stop on the strip: where it starts and how wide it is, of 1000, and the row that its number stands on.

    Row 0 is inside the piece; a number too wide for that stands over it, on row 1 or higher where others stand close.
    `wait` is how wide the wait before it is.
    """

    timed: TimedStop
    x: float
    width: float
    row: int
    wait: float = 0.0

    @property
    def middle(self) -> float:
        """Where its number stands."""
        return self.x + self.width / 2


@dataclass(frozen=True)
class Strip:
    """The pieces, the ticks at every ten minutes, and where the tour's minutes end."""

    pieces: tuple[Piece, ...]
    ticks: tuple[tuple[float, int], ...]
    end: float

    @property
    def rows(self) -> int:
        """How many rows of numbers stand over the strip."""
        return max((piece.row for piece in self.pieces), default=0)


def strip_of(sheet: TourSheet) -> Strip:
    """The strip of a sheet; the longer of planned and told minutes fills the width."""
    whole = max(sheet.minutes, sheet.tour.minutes, 1.0)
    scale = WIDTH / whole
    spans = [((timed.arrive + timed.wait) * scale, timed.telling_minutes * scale) for timed in sheet.stops]
    rows = number_rows(spans)
    pieces = tuple(
        Piece(timed, *span, row, timed.wait * scale) for timed, span, row in zip(sheet.stops, spans, rows, strict=True)
    )
    ticks = tuple((minute * scale, minute) for minute in range(0, int(whole) + 1, 10))
    return Strip(pieces, ticks, sheet.tour.minutes * scale)


def number_rows(spans: Iterable[tuple[float, float]]) -> list[int]:
    """The row of each number, so that no two numbers lie on each other."""
    taken: list[float] = []  # for each row over the strip, where its last number ends
    rows = []
    for x, width in spans:
        if width >= NUMBER_WIDTH:
            rows.append(0)
            continue
        start = x + width / 2 - NUMBER_WIDTH / 2
        row = next((number for number, end in enumerate(taken) if end <= start), len(taken))
        taken[row : row + 1] = [start + NUMBER_WIDTH]
        rows.append(row + 1)
    return rows
