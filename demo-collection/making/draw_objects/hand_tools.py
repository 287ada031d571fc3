"""The gilder's pan and brush."""

from __future__ import annotations

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, as_shape
from making.draw_objects.solids import Space, View, around


@pictures("TY.1985.4")
def pan_and_scratch_brush() -> Drawing:
    v = View(20, 42)
    v.drawing.hatch(v.flat(around((14, -6, 0), "z", 68)), 1, 2)
    v.turned((0, 0, 0), "z", [(0, 58), (4, 64), (22, 74)])
    rim, inner = (as_shape(v.flat(around((0, 0, 22), "z", r))) for r in (74, 70))
    v.drawing.area(rim, weight=2.8)
    v.drawing.area(inner, weight=1.8)
    floor = as_shape(v.flat(around((0, 0, 5), "z", 58)))
    v.drawing.hatch(inner.difference(floor), 2)
    v.drawing.outline(floor.intersection(inner), 1.5)
    for n in range(19):
        a, r = n * 137.5, 10 + 9.6 * n**0.5
        x, y, _ = around((0, 0, 0), "z", r, a, a + 1)[0]
        v.rod((x, y, 5), (x, y, 8), 7, tone="brass", weight=1.8)
    v.rope([(70, 10, 20), (104, 22, 26), (160, 44, 28)], 4.4, twisted=False)
    v.rod((150, 40, 28), (262, 84, 30), 7)
    v.line(around((172, 49, 28.4), (0.93, 0.37, 0.01), 7, 150, 330), 1.6)
    _brush(v)
    return v.drawing


def _brush(v: View) -> None:
    start: Space = (60, -120, 7)
    way = (0.97, 0.26, 0.0)

    def along(t: float, side: float = 0.0, z: float = 7) -> Space:
        return start[0] + way[0] * t - way[1] * side, start[1] + way[1] * t + way[0] * side, z

    v.rod(along(60), along(190), 8, 6)
    v.rod(along(46), along(66), 10)
    for t in (50, 54, 58, 62):
        v.line(around(along(t), way, 10.2, 120, 330), 1.3)
    outline = [along(48, -9), along(48, 9), along(-12, 17), along(-18, 6), along(-14, -4), along(-17, -14)]
    v.drawing.area(v.flat(outline), "brass", 0, weight=2.4)
    for n in range(17):
        side = -8 + n
        v.drawing.line(v.flat([along(47, side), along(10, side * 1.35), along(-14 - n * 7 % 5, side * 1.75)]), 1.3)
