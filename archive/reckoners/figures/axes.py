"""Two axes with units and ticks, and the mapping of values to places on the paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive.reckoners.figures.paper import Paper, Place

LEFT, RIGHT, TOP, BOTTOM = 134.0, 34.0, 34.0, 96.0
_POINT = 9.0


@dataclass(frozen=True)
class Axis:
    """One axis: its title with the unit, its ends (low may be the greater, to turn it over), and its ticks."""

    title: str
    low: float
    high: float
    ticks: tuple[tuple[float, str], ...]
    logarithmic: bool = False

    def share(self, value: float) -> float:
        """How far along the axis a value lies, 0 to 1."""
        if self.logarithmic:
            return math.log(value / self.low) / math.log(self.high / self.low)
        return (value - self.low) / (self.high - self.low)


def plain_axis(title: str, low: float, high: float, about: int = 6) -> Axis:
    """An axis with ticks at round figures, about so many, and its far end at the first tick that holds `high`."""
    step = round_step((high - low) / about)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    figures = [number * step for number in range(first, last + 1)]
    return Axis(title, figures[0], figures[-1], tuple((figure, f"{figure:,.6g}") for figure in figures))


def round_step(least: float) -> float:
    """The first of 1, 2, 5, 10, 20 ... that is not less."""
    size = 10.0 ** math.floor(math.log10(least))
    return next(size * factor for factor in (1, 2, 5, 10) if size * factor >= least * (1 - 1e-9))


class Axes:
    """A pair of axes drawn on a sheet."""

    def __init__(self, paper: Paper, across: Axis, up: Axis) -> None:
        self.paper, self.across, self.up = paper, across, up
        self.left, self.right = LEFT, paper.width - RIGHT
        self.top, self.bottom = TOP, paper.height - BOTTOM
        self._draw()

    def at(self, x: float, y: float) -> Place:
        """Where two values lie on the paper."""
        return (
            self.left + self.across.share(x) * (self.right - self.left),
            self.bottom - self.up.share(y) * (self.bottom - self.top),
        )

    def curve(self, points: Iterable[tuple[float, float]], kind: str = "drawn-line") -> None:
        """A line through values."""
        self.paper.path([self.at(x, y) for x, y in points], kind)

    def area(self, points: Sequence[tuple[float, float]], kind: str = "drawn-area") -> None:
        """A closed shape through values."""
        self.paper.path([self.at(x, y) for x, y in points], kind, closed=True)

    def point(self, x: float, y: float, kind: str = "drawn-point") -> None:
        """A marked point."""
        self.paper.circle(self.at(x, y), _POINT, kind)

    def guides(self, x: float, y: float) -> None:
        """Thin lines from a point to both axes."""
        place = self.at(x, y)
        self.paper.line(place, (place[0], self.bottom), "drawn-guide")
        self.paper.line(place, (self.left, place[1]), "drawn-guide")

    def label(self, x: float, y: float, text: str, *, off: Place = (0, 0), anchor: str = "middle") -> None:
        """Words beside values, kept below the top of the sheet."""
        across, down = self.at(x, y)
        place = (across + off[0], max(down + off[1], self.top + 20))
        self.paper.words(place, text, "drawn-label", anchor=anchor)

    def _draw(self) -> None:
        for value, text in self.across.ticks:
            x = self.at(value, self.up.low)[0]
            self.paper.line((x, self.top), (x, self.bottom), "drawn-grid")
            self.paper.line((x, self.bottom), (x, self.bottom + 8), "drawn-axis")
            self.paper.words((x, self.bottom + 36), text, "drawn-tick")
        for value, text in self.up.ticks:
            y = self.at(self.across.low, value)[1]
            self.paper.line((self.left, y), (self.right, y), "drawn-grid")
            self.paper.line((self.left - 8, y), (self.left, y), "drawn-axis")
            self.paper.words((self.left - 14, y + 8), text, "drawn-tick", anchor="end")
        self.paper.path([(self.left, self.top), (self.left, self.bottom), (self.right, self.bottom)], "drawn-axis")
        self.paper.words(((self.left + self.right) / 2, self.paper.height - 18), self.across.title, "drawn-title")
        self.paper.upright((26, (self.top + self.bottom) / 2), self.up.title)
