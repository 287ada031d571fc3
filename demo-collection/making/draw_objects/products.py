"""What the works made: badges and buttons, whole and in their parts."""

from __future__ import annotations

import math

from shapely import LineString

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import BRASS_LINE, Drawing, Point, arc, as_shape, spline
from making.draw_objects.relief import Mapping, badge, barge, oval
from making.draw_objects.solids import View, around, lay_rope


def turned(x: float, y: float, degrees: float = 0.0) -> Mapping:
    """A mapping that turns and moves a design on the sheet."""
    a = math.radians(degrees)

    def at(p: Point) -> Point:
        return x + p[0] * math.cos(a) - p[1] * math.sin(a), y + p[0] * math.sin(a) + p[1] * math.cos(a)

    return at


def shade_below(d: Drawing, shape: list[Point]) -> None:
    d.hatch([(x + 7, y - 6) for x, y in shape], 2, 4)


@pictures("TY.1987.3")
def struck_badge() -> Drawing:
    d = Drawing(portrait=True)
    at = turned(0, 0, -5)
    fringe = [at(p) for p in oval(58, 70, 9)]
    shade_below(d, fringe)
    d.area(fringe, "brass", 0, weight=3.2)
    rim = as_shape(fringe).difference(as_shape([at(p) for p in oval(55, 67)]))
    d.hatch(rim, 1, 20, BRASS_LINE)
    for n in range(40):
        a = math.tau * n / 40 + 0.1 * math.sin(n * 5)
        crease = LineString([at((r * math.cos(a), (r + 12) * math.sin(a))) for r in (57.0, 62.0)]).intersection(rim)
        if crease.geom_type == "LineString" and crease.length > 2:
            d.line([(x, y) for x, y in crease.coords], 1.3, BRASS_LINE)
    badge(d, at)
    return d


@pictures("TY.1987.4")
def finished_badge() -> Drawing:
    d = Drawing(portrait=True)
    at = turned(0, 0, 4)
    shade_below(d, [at(p) for p in oval(54, 66)])
    d.area([at((x + 1.6, y - 1.6)) for x, y in oval(54, 66)], "brass", 2, weight=2.6)
    badge(d, at)
    for start, end in ((100, 168), (108, 150)):
        r = 0.95 if start == 100 else 0.97
        d.line([at((54 * r * math.cos(math.radians(a)), 66 * r * math.sin(math.radians(a))))
                for a in range(start, end, 4)], 1.2, BRASS_LINE)
    return d


@pictures("TY.1987.9")
def livery_button() -> Drawing:
    d = Drawing()
    shade_below(d, arc(0, 0, 72))
    d.area(arc(0, 0, 72), "brass", 0, weight=3.4)
    body = as_shape(arc(0, 0, 72))
    d.hatch(body.difference(as_shape(arc(-9, 9, 72))), 2, 46, BRASS_LINE)
    d.loop(arc(0, 0, 66), 2.0)
    for n in range(96):
        a = math.tau * n / 96
        d.line([(62.4 * math.cos(a), 62.4 * math.sin(a)), (65 * math.cos(a), 65 * math.sin(a))], 1.3)
    d.loop(arc(0, 0, 61.5), 1.7)
    ground = as_shape(arc(0, 0, 60)).difference(as_shape(arc(-5, 6, 58)))
    d.hatch(ground, 1, 46, BRASS_LINE)
    barge(d, turned(0, -1))
    at = (128.0, -30.0)
    d.hatch(arc(at[0] + 6, at[1] - 6, 40, 40), 2, 4)
    d.area(arc(*at, 40), "brass", 1, weight=3)
    d.area(arc(*at, 33), "brass", 0, weight=2)
    d.loop(arc(*at, 30), 1.4)
    d.area(arc(at[0], at[1], 13, 9), "brass", 2, weight=2)
    lay_rope(d, arc(at[0], at[1] + 5, 8, 10, -60, 240), 2.5, "brass", twisted=False)
    return d


@pictures("TY.1987.10")
def button_parts() -> Drawing:
    v = View(0, 38)
    v.shadow(-108, -34, -30, 30, 0.1)
    v.shadow(0, 68, -30, 30, 0.1)
    v.turned((-70, 0, 0), "z", [(0, 34), (3, 41), (20, 44)], "brass")
    mouth = as_shape(v.flat(around((-70, 0, 20), "z", 44)))
    inner = as_shape(v.flat(around((-70, 0, 20), "z", 41)))
    v.drawing.area(mouth, "brass", weight=2.8)
    v.drawing.area(inner, "brass", weight=1.8)
    floor = as_shape(v.flat(around((-70, 0, 3), "z", 34)))
    v.drawing.hatch(inner.difference(floor), 2, 50, BRASS_LINE)
    v.drawing.outline(floor.intersection(inner), 1.4)
    v.rod((32, 0, 0), (32, 0, 2.6), 40, tone="brass")
    v.drawing.loop(v.flat(around((32, 0, 2.6), "z", 36)), 1.4)
    hole = as_shape(v.flat(around((32, 0, 2.6), "z", 5)))
    v.drawing.area(hole, "ink", 0, weight=1.8)
    for n in range(10):
        spots = around((32, 0, 2.7), "z", 14 + n * 2.1, n * 77, n * 77 + 26)
        v.drawing.line(v.flat(spots), 1.1, BRASS_LINE)
    x, y = v.at((104, 0, 8))
    v.drawing.hatch(arc(x + 10, y - 12, 26, 5), 1, 2)
    loop = spline([(x - 17, y - 13), (x - 9, y - 8), (x - 15, y + 8), (x - 12, y + 24), (x, y + 31), (x + 12, y + 24), (x + 15, y + 8),
                   (x + 9, y - 8), (x + 17, y - 13)])
    lay_rope(v.drawing, loop, 3.6, "brass", twisted=False)
    return v.drawing
