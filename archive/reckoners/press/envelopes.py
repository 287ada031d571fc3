"""The upper edge of a no-fit polygon as a function, and the lowest place of one row over another."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
_NUDGE = 1e-10
_SAME = 1e-9
_BEST_PLACES = 4


@dataclass(frozen=True)
class Envelope:
    """How high the polygon reaches at each x: straight pieces, which may jump; nothing outside."""

    x: Numbers
    y: Numbers

    def at(self, where: Numbers) -> Numbers:
        """The height at each x; at a jump the lower side, because touching is allowed."""
        left = np.interp(where - _NUDGE, self.x, self.y, left=0.0, right=0.0)
        right: Numbers = np.interp(where + _NUDGE, self.x, self.y, left=0.0, right=0.0)
        return np.minimum(left, right)

    @cached_property
    def bends(self) -> Numbers:
        """Where it bends or jumps."""
        return np.unique(self.x)

    @cached_property
    def highest(self) -> float:
        """The greatest height anywhere."""
        return float(self.y.max())


def envelope(corners: Numbers) -> Envelope:
    """The upper edge of a simple polygon: between neighbouring corners one side is on top the whole way."""
    start, end = corners, np.roll(corners, -1, axis=0)
    lie = np.abs(end[:, 0] - start[:, 0]) > _SAME
    start, end = start[lie], end[lie]
    slope = (end[:, 1] - start[:, 1]) / (end[:, 0] - start[:, 0])
    ends: Numbers = np.sort(np.stack([start[:, 0], end[:, 0]]), axis=0).round(9)
    bends: Numbers = np.unique(ends)
    first, last = np.searchsorted(bends, ends)
    # Each side once for every stretch between bends that it spans; of a stretch, the highest side comes last.
    side = np.repeat(np.arange(len(slope)), last - first)
    stretch = np.arange(len(side)) - np.repeat(np.cumsum(last - first) - last + first, last - first) + first[side]
    middle = (bends[stretch] + bends[stretch + 1]) / 2
    height = start[side, 1] + (middle - start[side, 0]) * slope[side]
    order = np.lexsort((height, stretch))
    top = side[order][np.append(np.diff(stretch[order]) > 0, True)]
    x: Numbers = np.stack([bends[:-1], bends[1:]], axis=1)
    y = start[top, 1][:, None] + (x - start[top, 0][:, None]) * slope[top][:, None]
    return Envelope(x.ravel(), y.ravel())


def reach_right(corners: Numbers, height: float) -> float:
    """The greatest x of the polygon's inside at a height; 0 where it has none."""
    return min(_crossing(corners, height - _NUDGE), _crossing(corners, height + _NUDGE))


def _crossing(corners: Numbers, height: float) -> float:
    start, end = corners, np.roll(corners, -1, axis=0)
    cross = (start[:, 1] < height) != (end[:, 1] < height)
    if not cross.any():
        return 0.0
    a, b = start[cross], end[cross]
    return float((a[:, 0] + (height - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])).max())


@dataclass(frozen=True)
class Term:
    """One pair of blanks in two rows: the envelope of the second over the first, moved along and down."""

    envelope: Envelope
    along: float
    down: float


def height_over(terms: Sequence[Term], pitch: float, shifts: Numbers) -> Numbers:
    """How far up the second row must lie at each shift along, with both rows repeated at the pitch."""
    heights: Numbers = np.max([_one_term(term, pitch, shifts) for term in terms], axis=0)
    return heights


def _one_term(term: Term, pitch: float, shifts: Numbers) -> Numbers:
    heights: Numbers = term.envelope.at(_repeats(term, pitch, shifts)).max(axis=0) - term.down
    return heights


def _repeats(term: Term, pitch: float, shifts: Numbers) -> Numbers:
    """Every x at which the envelope bears on a shift."""
    low, high = term.envelope.x[0], term.envelope.x[-1]
    along = np.mod(shifts + term.along - low, pitch) + low
    repeats: Numbers = along + pitch * np.arange(max(1, math.ceil((high - low) / pitch)))[:, None]
    return repeats


def lowest_shift(terms: Sequence[Term], pitch: float) -> tuple[float, float]:
    """The shift along at which the second row lies lowest, and how far up it then is.

    Between two bends all pieces are straight, so the lowest place is a bend or where two pieces cross.
    """
    bends = np.concatenate([np.mod(term.envelope.bends - term.along, pitch) for term in terms])
    shifts = np.unique(np.concatenate([bends, [0.0, pitch / 2]]))
    heights = height_over(terms, pitch, shifts)
    around = _crossings(terms, pitch, shifts, np.argsort(heights, kind="stable")[:_BEST_PLACES])
    every = np.concatenate([shifts, around])
    heights = np.concatenate([heights, height_over(terms, pitch, around)])
    best = int(np.argmin(heights))
    return float(every[best]), float(heights[best])


def _crossings(terms: Sequence[Term], pitch: float, shifts: Numbers, near: Iterable[int]) -> Numbers:
    """Where two straight pieces cross, in the gaps on either side of the best bends."""
    count = len(shifts)
    found = [np.empty(0)]
    for place in near:
        for first in ((place - 1) % count, place):
            start = shifts[first]
            width = np.mod(shifts[(first + 1) % count] - start, pitch) or pitch
            found.append(start + width * _shares_of_crossings(_lines(terms, pitch, start, width)))
    return np.mod(np.concatenate(found), pitch)


def _lines(terms: Sequence[Term], pitch: float, start: float, width: float) -> Numbers:
    """Every piece over a gap, by its heights a third and two thirds of the way."""
    thirds = start + width * np.array([1 / 3, 2 / 3])
    return np.concatenate([term.envelope.at(_repeats(term, pitch, thirds)) - term.down for term in terms])


def _shares_of_crossings(lines: Numbers) -> Numbers:
    """How far along the gap each two pieces cross, where they do within it."""
    slope = (lines[:, 1] - lines[:, 0]) * 3
    base = lines[:, 0] - slope / 3
    first, second = np.triu_indices(len(lines), 1)
    apart = slope[first] - slope[second]
    real = np.abs(apart) > _SAME
    share = (base[second] - base[first])[real] / apart[real]
    return share[(share > 0) & (share < 1)]
