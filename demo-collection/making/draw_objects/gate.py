"""At the gate and in the strong room: checks, the time recorder, the scales, the ear defenders."""

from __future__ import annotations


from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, Point, arc, as_shape, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import View, around, lay_rope


@pictures("TY.1984.1")
def brass_check() -> Drawing:
    v = View(-14, 56)
    v.drawing.hatch(v.flat(around((11, -8, 0), "z", 101)), 1, 2)
    v.rod((0, 0, 0), (0, 0, 9), 100, tone="brass", weight=3.4)
    top = as_shape(v.flat(around((0, 0, 9), "z", 100)))
    v.drawing.outline(top, 2.2)
    for r in (91, 88):
        v.drawing.loop(v.flat(around((0, 0, 9), "z", r)), 1.7)
    for n in range(60):
        spot = around((0, 0, 9), "z", 82, n * 6, n * 6 + 1)[0]
        v.drawing.area(v.flat(around(spot, "z", 1.7, count=16)), "brass", 0, weight=1.3)
    hole = (0.0, 60.0, 9.0)
    v.drawing.area(v.flat(around(hole, "z", 17)), "paper", 0, weight=2.6)
    edge = as_shape(v.flat(around(hole, "z", 17))).difference(as_shape(v.flat(around((0, 60, -1), "z", 17))))
    v.drawing.hatch(edge, 2, 70)
    field = as_shape(v.flat(around((0, -14, 9), "z", 48)))
    v.drawing.outline(field, 1.6)
    v.drawing.hatch(as_shape(v.flat([(-86, -74, 9), (40, -92, 9), (86, -60, 9), (60, -52, 9), (0, -72, 9)])).intersection(
        as_shape(v.flat(around((0, 0, 9), "z", 78)))).difference(field), 1, 20)
    for a, b in (((-40, 20), (-18, 34)), ((30, -58), (52, -50)), ((-26, -40), (-6, -46)), ((12, 4), (30, -6)),
                 ((-64, -8), (-56, -26))):
        v.line([(*a, 9.1), (*b, 9.1)], 1.2)
    v.rope([(0, 68, 2), (10, 96, 30), (-20, 130, 40), (-70, 140, 20), (-110, 116, 4), (-96, 90, 2)], 4)
    v.rope([(-4, 56, 10), (8, 74, 22), (10, 96, 30)], 4)
    return v.drawing


@pictures("TY.1984.2")
def time_recorder() -> Drawing:
    v = View(24, 10, portrait=True)
    v.shadow(-42, 42, 0, 66)
    v.block(-46, -4, 0, 92, 74, 12)
    v.block(-40, 2, 12, 80, 62, 74)
    v.block(-44, -3, 86, 88, 70, 8)
    v.block(-38, 4, 94, 76, 58, 110)
    v.block(-46, -3, 204, 92, 70, 8)
    v.plate([(-40, 212), (40, 212), *arc(0, 212, 40, 30, 0, 180)[1:-1]], 4, 56)
    v.face([(-30, 1.9, 22), (30, 1.9, 22), (30, 1.9, 76), (-30, 1.9, 76)], "paper", 0)
    v.face([(-24, 1.8, 28), (24, 1.8, 28), (24, 1.8, 70), (-24, 1.8, 70)], "paper", 2)
    v.line([(0, 1.7, 70), (3, 1.7, 44)], 2)
    v.drawing.area(v.flat(around((3, 1.7, 40), "y", 7)), "brass", 0)
    v.drawing.area(v.flat(around((0, 3.8, 170), "y", 32)), "paper", 0, weight=3.2)
    v.drawing.area(v.flat(around((0, 3.7, 170), "y", 27)), "paper", 0, weight=1.8)
    for n in range(12):
        a, b = (around((0, 3.6, 170), "y", r, n * 30, n * 30 + 5)[0] for r in (20.5, 25))
        v.line([a, b], 3 if n % 3 == 0 else 1.8)
    v.line([(0, 3.5, 170), (-12, 3.5, 180)], 3.4)
    v.line([(0, 3.5, 170), (2, 3.5, 192)], 2.6)
    v.drawing.area(v.flat(around((0, 3.4, 170), "y", 2.4, count=20)), "ink")
    v.block(-22, -8, 104, 44, 12, 20, "brass")
    v.face([(-14, -8.2, 112), (14, -8.2, 112), (14, -8.2, 115.5), (-14, -8.2, 115.5)], "ink", 0)
    v.block(-10, -7, 114, 20, 1.5, 20)
    for z in (120, 124, 128):
        v.line([(-7, -7.2, z), (7, -7.2, z)], 1.2)
    v.rod((38, 26, 122), (46, 26, 122), 5)
    v.rope([(46, 26, 122), (54, 20, 140), (58, 14, 152)], 2.6, twisted=False)
    v.ball((58, 13, 156), 5.4)
    return v.drawing


@pictures("TY.1984.3")
def check_board() -> Drawing:
    v = View(16, 8)
    v.block(-100, 0, 0, 200, 6, 104)
    v.face([(-92, -0.1, 8), (92, -0.1, 8), (92, -0.1, 96), (-92, -0.1, 96)], "paper", 0)
    for n in range(1, 5):
        v.line([(-92, -0.2, 8 + n * 17.6), (92, -0.2, 8 + n * 17.6)], 1.2)
    away = {3, 7, 8, 14, 19, 20, 27, 31, 38, 40, 41, 46, 52, 55, 57}
    for n in range(60):
        x, z = -84 + n % 12 * 15.3, 89 - n // 12 * 17.6
        if n not in away:
            disc = as_shape(v.flat(around((x, -2, z - 6), "y", 5.4, count=36)))
            v.drawing.hatch(as_shape(v.flat(around((x + 1.4, -0.3, z - 7), "y", 5.4, count=36))), 2)
            v.drawing.area(disc, "brass", 0, weight=1.9)
            v.drawing.area(v.flat(around((x, -2.2, z - 2.6), "y", 1.0, count=16)), "ink", weight=0.8)
            v.drawing.loop(v.flat(around((x, -2.2, z - 6.6), "y", 2.6, count=20)), 1.0)
        v.rod((x, 0, z - 2), (x, -3, z - 1.2), 0.7, weight=1.4, hatched=False)
    for x in (-96, 96):
        bolts(v, [(x, -0.2, 100), (x, -0.2, 4)], 1.6)
    v.rope([(-70, 3, 104), (-40, 3, 124), (0, 3, 130), (40, 3, 124), (70, 3, 104)], 1.3)
    return v.drawing


@pictures("TY.1988.7")
def metal_scales() -> Drawing:
    v = View(10, 16)
    v.shadow(-60, 70, -20, 30)
    v.block(-74, -24, 0, 148, 52, 12)
    v.block(-66, -20, 12, 132, 44, 4)
    v.turned((0, 0, 16), "z", [(0, 14), (6, 12), (10, 6), (70, 5), (74, 8), (80, 5), (104, 4)], "brass")
    tilt = 3.0
    beam = spline([(-88, 108 - tilt), (-40, 112), (0, 120), (40, 116), (88, 108 + tilt)]) + spline(
        [(88, 103 + tilt), (40, 106), (0, 105), (-40, 103), (-88, 103 - tilt)])
    v.plate(beam, -3, 6, "brass")
    v.plate([(-2.4, 112), (2.4, 112), (0, 148)], -4, 2)
    v.drawing.area(v.flat(around((0, -4, 111), "y", 5)), "paper", 0)
    for x, drop in ((-86, -tilt), (86, tilt)):
        hook, pan = (x, 0.0, 104 + drop), 42 + drop
        for a in (20, 140, 260):
            v.line([hook, around((x, 0, pan), "z", 31, a, a + 1)[0]], 1.7)
        v.turned((x, 0, pan - 8), "z", [(0, 16), (4, 27), (8, 32)], "brass")
        v.drawing.area(v.flat(around((x, 0, pan), "z", 32)), "brass", 0, weight=2.2)
        v.drawing.loop(v.flat(around((x, 0, pan - 1), "z", 28)), 1.3)
        v.drawing.area(v.flat(around(hook, "y", 3, count=24)), "paper", 0)
    for n in range(5):
        v.rod((-96 + n * 6, -4 + n * 7 % 11, 40), (-96 + n * 6, -4 + n * 7 % 11, 43), 7, weight=1.6)
    v.rod((86, 0, 46), (86, 0, 62), 9)
    v.turned((86, 0, 62), "z", [(0, 4), (4, 3), (6, 6), (10, 4)])
    v.block(-52, -54, 0, 104, 24, 9)
    for n, r in enumerate((9.5, 8, 6.6, 5.4, 4.2, 3.2)):
        x = -39 + n * 16.5
        v.turned((x, -42, 9), "z", [(0, r), (r * 1.5, r), (r * 1.6, r * 0.4), (r * 2, r * 0.35), (r * 2.4, r * 0.6)], "brass",
                 1.9)
    return v.drawing


@pictures("TY.1988.9")
def ear_defenders() -> Drawing:
    v = View(0, 8)
    d = v.drawing
    outer, inner = arc(0, 40, 108, 118, -8, 188), arc(0, 40, 98, 108, 188, -8)
    d.area(outer + inner, "brass", 0, weight=3)
    d.line(arc(0, 40, 103, 113, 10, 100), 1.3)
    pad = arc(0, 40, 112, 124, 55, 125) + arc(0, 40, 93, 102, 125, 55)
    d.area(pad, "paper", 1, weight=2.6)
    for a in range(60, 125, 8):
        d.line([arc(0, 40, 112, 124, a, a + 1)[0], arc(0, 40, 93, 102, a, a + 1)[0]], 1.3)
    for side in (-1, 1):
        _cup(d, side)
    return d


def _cup(d: Drawing, side: int) -> None:
    def m(points: list[Point]) -> list[Point]:
        return [(x * side, y) for x, y in points]

    cushion = spline(m([(84, 42), (70, 36), (62, 0), (64, -50), (74, -84), (88, -88), (92, -40), (92, 10)]), closed=True)
    d.area(cushion, "paper", 2, weight=3)
    shell = spline(m([(88, 44), (110, 44), (136, 30), (148, -8), (146, -56), (130, -86), (104, -94), (88, -90)])) + m([(88, 44)])
    d.area(shell, "paper", 0, weight=3.2)
    dark = as_shape(shell).difference(as_shape(arc(108 * side - 16, -8, 44, 62)))
    d.hatch(dark, 1 if side < 0 else 2)
    d.line(spline(m([(100, 40), (104, 10), (104, -50), (99, -90)])), 1.7)
    d.line(spline(m([(126, 28), (137, -8), (135, -52), (124, -78)])), 1.3)
    lay_rope(d, m([(103, 62), (116, 40), (118, -18)]), 5, twisted=False)
    d.area(arc(118 * side, -22, 12), "paper", 0, weight=2.6)
    d.area(arc(118 * side, -22, 4), "ink", 0)


