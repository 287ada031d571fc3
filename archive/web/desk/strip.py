"""A tour drawn as a strip of stops whose widths are their minutes. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from archive.tours.sheet import TimedStop, TourSheet

WIDTH = 1000.0


@dataclass(frozen=True)
class Piece:
    """One stop on the strip: where it starts and how wide it is, of 1000."""

    timed: TimedStop
    x: float
    width: float

    @property
    def middle(self) -> float:
        """Where its check hangs."""
        return self.x + self.width / 2


@dataclass(frozen=True)
class Strip:
    """The pieces, and the ticks at every ten minutes."""

    pieces: tuple[Piece, ...]
    ticks: tuple[tuple[float, int], ...]
    end: float


def strip_of(sheet: TourSheet) -> Strip:
    """The strip of a sheet; the longer of planned and told minutes fills the width."""
    whole = max(sheet.minutes, sheet.tour.minutes, 1.0)
    scale = WIDTH / whole
    pieces = tuple(Piece(timed, timed.arrive * scale, timed.minutes * scale) for timed in sheet.stops)
    ticks = tuple((minute * scale, minute) for minute in range(0, int(whole) + 1, 10))
    return Strip(pieces, ticks, sheet.tour.minutes * scale)
