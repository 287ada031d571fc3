"""Rows of blanks that repeat without end: straight, staggered and head to tail, as close as no-fit polygons allow."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from shapely import Polygon
from shapely.affinity import rotate

from archive.reckoners.press.envelopes import Envelope, Numbers, Term, envelope, height_over, lowest_shift, reach_right
from archive.reckoners.press.no_fit import no_fit
from archive.reckoners.press.outlines import Outline

ROWS, STAGGERED, HEAD_TO_TAIL = "rows", "staggered", "head to tail"
_SAME = 1e-9


@dataclass(frozen=True)
class Blank:
    """One blank in a row: where it lies, and whether it is turned by half a turn."""

    along: float
    up: float
    turned: bool


@dataclass(frozen=True)
class Row:
    """The blanks that repeat along a row, and how far the next row is moved along and up from it."""

    blanks: tuple[Blank, ...]
    along: float
    up: float


@dataclass(frozen=True)
class Pattern:
    """Rows that repeat: the pitch along a row, and the rows in turn."""

    arrangement: str
    angle_deg: float
    pitch_mm: float
    rows: tuple[Row, ...]

    @property
    def area_each_mm2(self) -> float:
        """Sheet taken by each blank, on an endless sheet."""
        return self.pitch_mm * sum(row.up for row in self.rows) / sum(len(row.blanks) for row in self.rows)


@dataclass(frozen=True)
class Turned:
    """An outline at one angle, with all that packing it needs."""

    outline: Outline
    angle_deg: float
    same: Numbers
    other: Numbers

    @cached_property
    def corners(self) -> Numbers:
        """The outline's corners at this angle."""
        return np.asarray(self.outline.corners) @ _rotation(self.angle_deg)

    @cached_property
    def envelopes(self) -> dict[tuple[bool, bool], Envelope]:
        """By whether the lower and the upper blank are turned."""
        same = envelope(self.same)
        if self.other is self.same:
            return {(lower, upper): same for lower in (False, True) for upper in (False, True)}
        over, under = envelope(self.other), envelope(-self.other)
        return {(False, False): same, (True, True): same, (False, True): over, (True, False): under}

    def extent(self, axis: int, turned: bool) -> tuple[float, float]:
        """The least and greatest x (axis 0) or y (axis 1) of a blank."""
        low, high = float(self.corners[:, axis].min()), float(self.corners[:, axis].max())
        return (-high, -low) if turned else (low, high)

    @cached_property
    def least_pitch(self) -> float:
        """The pitch of a row of blanks all laid alike."""
        return reach_right(self.same, 0.0)


def _rotation(angle_deg: float) -> Numbers:
    """Corners as rows, turned anticlockwise when multiplied by this on the right."""
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return np.array([[cos, sin], [-sin, cos]])


@lru_cache(maxsize=32)
def _no_fits(outline: Outline, bridge_mm: float) -> tuple[Numbers, Numbers]:
    same = no_fit(outline, turned=False, bridge_mm=bridge_mm)
    return same, same if half_turn_alike(outline) else no_fit(outline, turned=True, bridge_mm=bridge_mm)


@lru_cache(maxsize=64)
def half_turn_alike(outline: Outline) -> bool:
    """Whether half a turn leaves the outline as it was, so that head to tail is no other way to lay it."""
    if outline.is_circle:
        return True
    polygon: Polygon = outline.polygon
    flipped = rotate(polygon, 180, origin=polygon.envelope.centroid)
    return bool(flipped.symmetric_difference(polygon).area < 1e-6 * polygon.area)


@lru_cache(maxsize=1024)
def turned(outline: Outline, bridge_mm: float, angle_deg: float) -> Turned:
    """The outline at an angle; the no-fit polygons are worked once and turned."""
    same, other = _no_fits(outline, bridge_mm)
    rotation = _rotation(angle_deg)
    at_angle = same @ rotation
    return Turned(outline, angle_deg, at_angle, at_angle if other is same else other @ rotation)


def patterns(shape: Turned, pitch_mm: float | None = None) -> Iterator[Pattern]:
    """The ways to lay rows at this angle; a pitch wider than the least may be asked for."""
    pitch = pitch_mm or shape.least_pitch
    yield _lined_up(shape, pitch)
    yield from _staggered(shape, pitch)
    if not half_turn_alike(shape.outline):
        yield _rows_in_turn(shape, pitch)
        if pitch_mm is None:
            yield from _turned_within_the_row(shape)


def _terms(shape: Turned, lower: tuple[Blank, ...], upper: tuple[Blank, ...]) -> list[Term]:
    return [
        Term(shape.envelopes[(a.turned, b.turned)], b.along - a.along, b.up - a.up) for a in lower for b in upper
    ]  # fmt: skip


def _height(shape: Turned, pitch: float, lower: tuple[Blank, ...], upper: tuple[Blank, ...], along: float) -> float:
    return float(height_over(_terms(shape, lower, upper), pitch, np.array([along]))[0])


_PLAIN = (Blank(0.0, 0.0, False),)
_OVER = (Blank(0.0, 0.0, True),)


def _lined_up(shape: Turned, pitch: float) -> Pattern:
    return _raised(shape, ROWS, pitch, (Row(_PLAIN, 0.0, _height(shape, pitch, _PLAIN, _PLAIN, 0.0)),))


def _staggered(shape: Turned, pitch: float) -> Iterator[Pattern]:
    """Each row moved on by the same, and each second row moved on and back."""
    best, up = lowest_shift(_terms(shape, _PLAIN, _PLAIN), pitch)
    half = _height(shape, pitch, _PLAIN, _PLAIN, pitch / 2)
    for along, lift in dict.fromkeys([(best, up), (pitch / 2, half)]):
        yield _raised(shape, STAGGERED, pitch, (Row(_PLAIN, along, lift),))
        back = _height(shape, pitch, _PLAIN, _PLAIN, -along)
        yield _raised(shape, STAGGERED, pitch, (Row(_PLAIN, along, lift), Row(_PLAIN, -along, back)))


def _rows_in_turn(shape: Turned, pitch: float) -> Pattern:
    """A row one way, a row the other way."""
    first, second = lowest_shift(_terms(shape, _PLAIN, _OVER), pitch), lowest_shift(_terms(shape, _OVER, _PLAIN), pitch)
    return _raised(shape, HEAD_TO_TAIL, pitch, (Row(_PLAIN, *first), Row(_OVER, *second)))


def _turned_within_the_row(shape: Turned) -> Iterator[Pattern]:
    """Each second blank of a row turned, all between the same two lines."""
    low, _ = shape.extent(1, False)
    lift = low - shape.extent(1, True)[0]
    first = max(reach_right(shape.other, lift), 0.0)
    pair = max(first + max(reach_right(-shape.other, -lift), 0.0), shape.least_pitch)
    blanks = (_PLAIN[0], Blank(first, lift, True))
    yield _raised(shape, HEAD_TO_TAIL, pair, (Row(blanks, 0.0, _height(shape, pair, blanks, blanks, 0.0)),))
    best = lowest_shift(_terms(shape, blanks, blanks), pair)
    yield _raised(shape, HEAD_TO_TAIL, pair, (Row(blanks, *best),))


def _raised(shape: Turned, arrangement: str, pitch: float, rows: tuple[Row, ...]) -> Pattern:
    """The pattern, its rows drawn apart if a row would reach one further on than the next."""
    factor = max((_wanting(shape, pitch, rows, start) for start in range(len(rows))), default=1.0)
    lifted = tuple(replace(row, up=row.up * factor) for row in rows) if factor > 1 + _SAME else rows
    return Pattern(arrangement, shape.angle_deg, pitch, lifted)


def _wanting(shape: Turned, pitch: float, rows: tuple[Row, ...], start: int) -> float:
    """By how much rows must be drawn apart so that each row clears those two and more above it."""
    reach = max(one.highest for one in shape.envelopes.values()) + _spread(rows)
    along, up, factor = rows[start].along, rows[start].up, 1.0
    upper = start + 1
    while up < reach and up > _SAME:
        here = rows[upper % len(rows)]
        along, up, upper = along + here.along, up + here.up, upper + 1
        needed = _height(shape, pitch, rows[start].blanks, rows[upper % len(rows)].blanks, along)
        factor = max(factor, needed / up)
    return factor


def _spread(rows: tuple[Row, ...]) -> float:
    ups = [blank.up for row in rows for blank in row.blanks]
    return max(ups) - min(ups)
