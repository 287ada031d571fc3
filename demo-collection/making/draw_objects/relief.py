"""The designs struck on the works' badge and button, drawn on any flat face through a mapping."""

from __future__ import annotations

import math
from collections.abc import Callable

from making.draw_objects.hand import Drawing, Point, arc, as_shape, line_colour, spline

Mapping = Callable[[Point], Point]

FLAME = spline([(0, -26), (-13, -18), (-15, -4), (-8, 8), (-9, 18), (-2, 12), (0, 26), (8, 12), (7, 4), (13, 8), (15, -6),
                (10, -20)], closed=True)
FLAME_HEART = spline([(0, -22), (-6, -14), (-5, -4), (0, 6), (4, -4), (7, -10), (5, -19)], closed=True)


def oval(half_width: float, half_height: float, ragged: float = 0.0) -> list[Point]:
    """An oval; a ragged one has an uneven edge, like the fringe left by a blow."""
    found = []
    for n in range(144):
        a = math.tau * n / 144
        more = ragged * (0.55 + 0.3 * math.sin(3 * a + 1) + 0.22 * math.sin(7 * a) + 0.14 * math.sin(17 * a))
        found.append(((half_width + more) * math.cos(a), (half_height + more) * math.sin(a)))
    return found


def axe(lean: int) -> tuple[list[Point], list[Point]]:
    """Haft and head of one of two crossed axes."""
    turn = math.radians(38 * lean)

    def m(points: list[Point]) -> list[Point]:
        return [(x * math.cos(turn) + y * math.sin(turn), -x * math.sin(turn) + y * math.cos(turn)) for x, y in points]

    haft = m([(-1.8, -44), (1.8, -44), (1.8, 44), (-1.8, 44)])
    edge = [(14.0 * lean, 46.0), (20 * lean, 38), (20 * lean, 28), (14 * lean, 20)]
    head = m([(-6.0 * lean, 38), (-12 * lean, 33), (-6 * lean, 28), (1.8 * lean, 28), *reversed(edge), (1.8 * lean, 38)])
    return haft, head


def leaves() -> list[list[Point]]:
    """A wreath: pairs of leaves up both sides of the oval."""
    found = []
    for side in (-1, 1):
        for n in range(9):
            a = math.radians(-74 + n * 16.5)
            x, y = 43 * math.cos(a), 54 * math.sin(a)
            way = math.atan2(54 * math.cos(a), -43 * math.sin(a))
            for out in (-0.5, 0.5):
                found.append([(px * side, py) for px, py in leaf(x, y, way + out)])
    return found


def leaf(x: float, y: float, way: float) -> list[Point]:
    shape = spline([(0, 0), (5, 2.6), (12, 0.2), (5, -2.6)], closed=True, step=6)
    c, s = math.cos(way), math.sin(way)
    return [(x + px * c - py * s, y + px * s + py * c) for px, py in shape]


def badge(d: Drawing, at: Mapping, tone: str = "brass", sunk: bool = False, edge: bool = True) -> None:
    """Flame, crossed axes and wreath; sunk gives the die, where the light falls on the other side."""

    def area(points: list[Point], level: int = 0, weight: float = 2.0) -> None:
        d.area([at(p) for p in points], tone, level, 40 if sunk else 58, weight)

    if edge:
        area(oval(54, 66), 0, 3.0)
        d.loop([at(p) for p in oval(50.5, 62.5)], 1.6)
    field = as_shape([at(p) for p in oval(34, 46)])
    d.hatch(field, 1, 0, line_colour(tone))
    for side in (-1, 1):
        stem = [(side * 43 * math.cos(math.radians(t)), 54 * math.sin(math.radians(t))) for t in range(-80, 64, 6)]
        d.line([at(p) for p in stem], 1.5, line_colour(tone))
    for shape in leaves():
        area(shape, 2 if sunk else 0, 1.5)
    for lean in (1, -1):
        haft, head = axe(lean)
        area([(x * 0.84, y * 0.84 - 6) for x, y in haft], 1 if sunk else 0, 1.9)
        area([(x * 0.84, y * 0.84 - 6) for x, y in head], 2 if sunk else 0, 2.1)
    area(FLAME, 2 if sunk else 0, 2.3)
    if not sunk:
        right = [(x, y) for x, y in FLAME if x > 2] or FLAME
        d.hatch(as_shape([at(p) for p in FLAME]).intersection(as_shape([at(p) for p in [*right, (4, 0)]])), 2, 58,
                line_colour(tone))
    area(FLAME_HEART, 1 if sunk else 0, 1.6)
    area(spline([(-16, -52), (0, -47), (16, -52), (20, -58), (0, -54), (-20, -58)], closed=True), 0, 1.7)


def barge(d: Drawing, at: Mapping) -> None:
    """A barge on water over a chevron, under a crown of reeds."""

    def area(points: list[Point], level: int = 0, weight: float = 2.0) -> None:
        d.area([at(p) for p in points], "brass", level, weight=weight)

    def line(points: list[Point], weight: float = 1.6) -> None:
        d.line([at(p) for p in spline(points)], weight)

    area([(-44, 6), (-36, -8), (30, -8), (44, 8), (34, 4), (-34, 2)], 1, 2.3)
    area([(-30, 3), (-30, 14), (-12, 14), (-12, 3)], 0)
    area(arc(-2, 4, 10, 7, 0, 180), 0)
    area(arc(16, 4, 10, 6, 0, 180), 0)
    area([(-22, 14), (-22, 22), (-18, 22), (-18, 14)], 1, 1.6)
    for n, y in enumerate((-13, -18)):
        line([(-46 + n * 6, y), (-30, y + 2), (-14, y - 1), (4, y + 2), (22, y - 1), (42 - n * 6, y + 1)], 1.5)
    area([(-34, -48), (0, -26), (34, -48), (28, -54), (0, -36), (-28, -54)], 0, 2.2)
    for n in range(9):
        x = -24 + n * 6
        lift = 10 - abs(n - 4) * 1.6
        line([(x * 0.8, 30), (x * 0.95, 40), (x * 1.2, 44 + lift)], 1.7)
        area([(x * 1.2 + 2.1 * math.cos(a), 47 + lift + 4.4 * math.sin(a)) for a in _turns()], 1, 1.5)
    area([(-24, 26), (24, 26), (26, 32), (-26, 32)], 0, 2.0)


def _turns() -> list[float]:
    return [math.tau * n / 20 for n in range(20)]
