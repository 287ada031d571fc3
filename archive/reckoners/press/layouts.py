"""Lays an outline on a sheet: every angle and arrangement tried, the one that gives most blanks kept."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from archive.reckoners.press.envelopes import Numbers
from archive.reckoners.press.outlines import Outline
from archive.reckoners.press.patterns import HEAD_TO_TAIL, ROWS, STAGGERED, Pattern, Turned, patterns, turned

_SLACK = 1e-7
_COARSE_STEP_DEG = 6.0
_SIDES_TRIED = 10
_STARTS_TRIED = 8
_REFINED = (2, (3.0, 1.5, 0.75))
_HALVINGS = 14
_STRETCHED = 4
_FEWER_CONVEX, _FEWER_BENT = (0.0, 0.5), (0.0, 0.5, 1.0, 2.0, 3.0, 5.0)
_ORDER = {ROWS: 0, STAGGERED: 1, HEAD_TO_TAIL: 2}


@dataclass(frozen=True)
class Sheet:
    """A sheet in millimetres, with the bridge left between blanks and the margin left at its edges."""

    length_mm: float
    width_mm: float
    bridge_mm: float
    edge_mm: float


@dataclass(frozen=True)
class Place:
    """Where one blank lies: the outline turned by the angle about its own 0,0 and moved to x, y."""

    x_mm: float
    y_mm: float
    angle_deg: float


@dataclass(frozen=True)
class Layout:
    """Blanks on a sheet. Rows run along the length, or across it."""

    outline: Outline
    sheet: Sheet
    pattern: Pattern
    across: bool
    start_mm: float
    count: int
    rows: int

    def places(self) -> Iterator[Place]:
        """Every blank, row by row; x along the length of the sheet."""
        shape = turned(self.outline, self.sheet.bridge_mm, self.pattern.angle_deg)
        bed = _Bed(self.sheet, self.across)
        for row, along, up in bed.rows_of(shape, self.pattern):
            for blank in self.pattern.rows[row].blanks:
                base = self.start_mm + along + blank.along
                first, last = bed.span(shape, self.pattern.pitch_mm, np.array([base]), blank.turned)
                for step in range(int(first[0]), int(last[0]) + 1):
                    yield self._place(base + step * self.pattern.pitch_mm, up + blank.up, blank.turned)

    def _place(self, along: float, up: float, is_turned: bool) -> Place:
        angle = self.pattern.angle_deg + (180.0 if is_turned else 0.0)
        if self.across:
            # The sheet stands on its end: turn the whole picture a quarter back.
            return Place(up, self.sheet.width_mm - along, (angle - 90.0) % 360)
        return Place(along, up, angle % 360)


@dataclass(frozen=True)
class Found:
    """The best layout, the best of each arrangement, and the closest pattern whatever the sheet."""

    best: Layout
    by_arrangement: dict[str, Layout]
    closest: Pattern


class _Bed:
    """The sheet less its margins, as a pattern sees it: rows run along `wide`."""

    def __init__(self, sheet: Sheet, across: bool) -> None:
        wide, high = (sheet.width_mm, sheet.length_mm) if across else (sheet.length_mm, sheet.width_mm)
        self.edge = sheet.edge_mm
        self.wide, self.high = wide - sheet.edge_mm, high - sheet.edge_mm

    def rows_of(self, shape: Turned, pattern: Pattern) -> Iterator[tuple[int, float, float]]:
        """Each row that fits: its place in the pattern, and where it lies along and up."""
        ends = [_row_extent(shape, pattern, row) for row in range(len(pattern.rows))]
        along, up, index = 0.0, self.edge - ends[0][0], 0
        while up + ends[index % len(ends)][1] <= self.high + _SLACK:
            row = index % len(pattern.rows)
            if up + ends[row][0] >= self.edge - _SLACK:
                yield row, along, up
            along, up, index = along + pattern.rows[row].along, up + pattern.rows[row].up, index + 1

    def span(self, shape: Turned, pitch: float, base: Numbers, is_turned: bool) -> tuple[Numbers, Numbers]:
        """The first and the last repeat that lie on the sheet, for blanks of a row that starts at `base`."""
        low, high = shape.extent(0, is_turned)
        first = np.ceil((self.edge - low - base - _SLACK) / pitch)
        last = np.floor((self.wide - high - base + _SLACK) / pitch)
        return first, last

    def counted(self, shape: Turned, pattern: Pattern) -> tuple[int, float, int]:
        """Most blanks over several starts of the first row: how many, the start, and how many rows."""
        if pattern.pitch_mm <= 0 or min(row.up for row in pattern.rows) <= 0:
            return 0, 0.0, 0
        laid = list(self.rows_of(shape, pattern))
        starts = self._starts(shape, pattern, laid[:_STARTS_TRIED])
        totals = np.zeros(len(starts))
        for row in range(len(pattern.rows)):
            along = np.array([place for which, place, _ in laid if which == row])
            for blank in pattern.rows[row].blanks:
                base = starts[:, None] + along + blank.along
                first, last = self.span(shape, pattern.pitch_mm, base, blank.turned)
                totals += np.maximum(0, last - first + 1).sum(axis=1)
        best = int(totals.argmax())
        return int(totals[best]), float(starts[best]), len(laid)

    def _starts(self, shape: Turned, pattern: Pattern, laid: Iterable[tuple[int, float, float]]) -> Numbers:
        """Starts that bring the first blank of one of the rows to the edge."""
        starts = [
            self.edge - shape.extent(0, blank.turned)[0] - along - blank.along
            for row, along, _ in laid
            for blank in pattern.rows[row].blanks
        ]
        return np.array(starts or [0.0])


def _row_extent(shape: Turned, pattern: Pattern, row: int) -> tuple[float, float]:
    """The least and greatest height of a row, from its base."""
    ends = [(shape.extent(1, blank.turned), blank.up) for blank in pattern.rows[row].blanks]
    return min(low + up for (low, _), up in ends), max(high + up for (_, high), up in ends)


@lru_cache(maxsize=128)
def lay_out(outline: Outline, sheet: Sheet) -> Found | None:
    """The layout with most blanks, over angles, arrangements and both ways of the sheet; None if none fits."""
    found = [layout for angle in _angles(outline) for layout in _at_angle(outline, sheet, angle)]
    how_many, steps = (0, ()) if outline.is_circle else _REFINED
    for angle in dict.fromkeys(layout.pattern.angle_deg for layout in sorted(found, key=_rank)[: 3 * how_many]):
        found += [
            layout for step in steps for turn in (-step, step) for layout in _at_angle(outline, sheet, angle + turn)
        ]
    closest = _closest(outline, sheet.bridge_mm, [layout.pattern for layout in found])
    found += _at_angle(outline, sheet, closest.angle_deg)
    found += [wide for layout in sorted(found, key=_rank)[:_STRETCHED] for wide in _stretched(layout)]
    best = min(found, key=_rank)
    if best.count == 0:
        return None
    each = {kind: [one for one in found if one.pattern.arrangement == kind and one.count] for kind in _ORDER}
    closest = min((layout.pattern for layout in found), key=_sheet_taken)
    return Found(best, {kind: min(ones, key=_rank) for kind, ones in each.items() if ones}, closest)


def _closest(outline: Outline, bridge_mm: float, seen: list[Pattern]) -> Pattern:
    """The pattern that takes least sheet for each blank: the closest seen, then sought in ever finer steps."""
    best, step = min(seen, key=_sheet_taken), _COARSE_STEP_DEG / 2
    for _ in range(0 if outline.is_circle else _HALVINGS):
        beside = [best.angle_deg - step, best.angle_deg + step]
        best = min([best, *(one for angle in beside for one in _patterns_at(outline, bridge_mm, angle % 180))],
                   key=_sheet_taken)  # fmt: skip
        step /= 2
    return best


def _sheet_taken(pattern: Pattern) -> float:
    return pattern.area_each_mm2 if pattern.area_each_mm2 > 0 else math.inf


def _rank(layout: Layout) -> tuple[float, float, float, float]:
    """Most blanks first; of equals the plainest arrangement, then the least turned."""
    angle = layout.pattern.angle_deg % 90
    return -layout.count, _ORDER[layout.pattern.arrangement], round(min(angle, 90 - angle), 6), layout.across


def _angles(outline: Outline) -> list[float]:
    """A coarse fan, and every angle that lays a long side along or across the rows."""
    if outline.is_circle:
        return [0.0]
    hull = np.asarray(outline.polygon.convex_hull.exterior.coords)
    sides = np.diff(hull, axis=0)
    longest = np.argsort(-np.hypot(sides[:, 0], sides[:, 1]), kind="stable")[:_SIDES_TRIED]
    along = [-math.degrees(math.atan2(sides[i, 1], sides[i, 0])) for i in longest]
    fan = np.arange(0, 180, _COARSE_STEP_DEG).tolist()
    every = [0.0, *along, *(angle + 90 for angle in along), *fan]
    return list(dict.fromkeys(round(angle % 180, 9) % 180 for angle in every))


def _at_angle(outline: Outline, sheet: Sheet, angle_deg: float) -> Iterator[Layout]:
    shape = turned(outline, sheet.bridge_mm, angle_deg % 180)
    for pattern in _patterns_at(outline, sheet.bridge_mm, angle_deg % 180):
        for across in (False, True):
            yield _laid(shape, sheet, pattern, across)


@lru_cache(maxsize=1024)
def _patterns_at(outline: Outline, bridge_mm: float, angle_deg: float) -> tuple[Pattern, ...]:
    return tuple(patterns(turned(outline, bridge_mm, angle_deg)))


def _laid(shape: Turned, sheet: Sheet, pattern: Pattern, across: bool) -> Layout:
    count, start, rows = _Bed(sheet, across).counted(shape, pattern)
    return Layout(shape.outline, sheet, pattern, across, start, count, rows)


def _stretched(layout: Layout) -> Iterator[Layout]:
    """The same angle with wider pitches that just fill a row: rows may then sink deeper between blanks."""
    sheet, pattern = layout.sheet, layout.pattern
    shape = turned(layout.outline, sheet.bridge_mm, pattern.angle_deg)
    low, high = shape.extent(0, False)
    bed = _Bed(sheet, layout.across)
    room = bed.wide - bed.edge - (high - low)
    gaps = math.floor((room + _SLACK) / shape.least_pitch) if room > 0 else 0
    fewer = _FEWER_CONVEX if layout.outline.is_convex else _FEWER_BENT
    for share in (gaps - less for less in fewer):
        if share >= 1 and room / share > shape.least_pitch + _SLACK:
            for wider in patterns(shape, room / share):
                yield _laid(shape, sheet, wider, layout.across)
