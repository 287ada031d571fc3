"""The polishing shop: spindle, bob, hood, bag and burnishing barrel."""

from __future__ import annotations

import math

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, as_shape, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import Space, View, around, lay_rope


@pictures("TY.1986.2")
def polishing_spindle() -> Drawing:
    v = View(34, 16)
    v.shadow(-46, 46, 0, 60)
    v.block(-46, -4, 0, 92, 70, 8)
    v.cheek([(4, 8), (58, 8), (46, 30), (42, 84), (20, 84), (16, 30)], -24, 48)
    v.block(-38, 12, 84, 76, 38, 9)
    mop(v, -72)
    v.rod((-62, 31, 112), (-36, 31, 112), 4)
    v.block(-38, 18, 93, 20, 26, 32)
    v.rod((-18, 31, 112), (18, 31, 112), 5)
    v.rod((-10, 31, 112), (10, 31, 112), 15)
    for y in (17, 45):
        v.line([(0, y, 108), (0, y + (y - 31) * 0.2, 40)], 2)
    v.block(18, 18, 93, 20, 26, 32)
    bolts(v, [(-28, 17.9, 98), (28, 17.9, 98)], 2.6)
    v.rod((38, 31, 112), (62, 31, 112), 4)
    mop(v, 60)
    v.rod((74, 31, 112), (90, 31, 112), 4.4, 0.6)
    return v.drawing


def mop(v: View, x: float) -> None:
    """A round mop of stitched cloth leaves."""
    v.rod((x, 31, 112), (x + 13, 31, 112), 33, tone="brass")
    for r in (26, 19, 11):
        v.drawing.loop(v.flat(around((x + 13, 31, 112), "x", r)), 1.3)
    for n in range(4):
        v.line(around((x + 2.6 * (n + 1), 31, 112), "x", 33.2, 180, 330), 1.2)
    v.rod((x + 13, 31, 112), (x + 16, 31, 112), 7)


@pictures("TY.1986.3")
def felt_bob_and_rouge() -> Drawing:
    v = View(28, 22)
    v.shadow(-60, 120, -30, 40, 0.1)
    top = [(-40.0, 44.0), (-20, 42), (10, 30), (40, 27), (70, 34), (92, 43), (104, 44)]
    v.plate([(-40, 0), (104, 0), *reversed(spline(top))], 0, 54, "brass")
    for n in range(7):
        v.curve([(-10 + n * 3, 6 + n * 7, 38 - n * 0.6), (40, 6 + n * 7, 27.5), (74 - n * 2, 6 + n * 7, 35.5)], 1.2)
    wheel_at = (-4.0, -34.0, 50.0)
    v.rod((wheel_at[0], -22, 50), (wheel_at[0], -48, 50), 50)
    for r in (46, 30):
        v.drawing.loop(v.flat(around((wheel_at[0], -48, 50), "y", r)), 1.3)
    chance = 0.0
    for n in range(60):
        chance = (chance + 0.618) % 1
        r, a = 14 + 30 * math.sqrt(chance), n * 137.5
        spots = around((wheel_at[0], -48, 50), "y", r, a, a + 5)
        v.line([spots[0], spots[-1]], 1.2)
    v.drawing.area(v.flat(around((wheel_at[0], -48, 50), "y", 8)), "ink", 0, weight=1.8)
    return v.drawing


@pictures("TY.1986.4")
def dust_hood() -> Drawing:
    v = View(34, 18)
    v.shadow(-36, 36, 0, 80)
    side = [(0.0, 0.0), (70, 0), *[(20 + 58 * math.cos(math.radians(a)), 14 + 62 * math.sin(math.radians(a)))
                                   for a in range(0, 118, 8)], (-8, 60), (2, 48), (8, 30), (8, 14)]
    v.cheek(side, -34, 68)
    mouth = [(-30, -4, 58), (30, -4, 58), (30, 3, 22), (-30, 3, 22)]
    v.face([(x, y - 5, z) for x, y, z in mouth], "ink", 0)
    v.line([(-34, -8, 60), (34, -8, 60), (34, 2, 14), (-34, 2, 14), (-34, -8, 60)], 3.4)
    for x in (-28, 28):
        for z in (4, 10):
            bolts(v, [(x, -0.2, z)], 1.5)
    for n in range(9):
        y, z = side[3 + n]
        v.drawing.area(v.flat(around((34.2, y * 0.93 + 1, z * 0.93 + 1), "x", 1.4, count=16)), "paper", weight=1.2)
    v.rod((0, 26, 74), (0, 26, 116), 22, tone="brass")
    for z in (84, 106):
        v.line(around((0, 26, z), "z", 22.3, 180, 360), 2)
    v.drawing.area(v.flat(around((0, 26, 116), "z", 18)), "paper", 3, weight=1.8)
    v.rod((18, 12, 95), (34, 2, 95), 2.2)
    v.rod((34, 2, 84), (34, 2, 106), 2.6)
    return v.drawing


@pictures("TY.1986.5")
def dust_bag() -> Drawing:
    v = View(0, 20, portrait=True)
    d = v.drawing
    lay_rope(d, spline([(-46, 300), (-20, 336), (0, 350), (20, 336), (46, 300)]), 2.4)
    left = [(-50.0, 292.0), (-46, 280), (-58, 250), (-60, 170), (-56, 90), (-48, 40), (-18, 8), (-8, -4)]
    right = [(8.0, -4.0), (20, 10), (50, 40), (58, 100), (62, 180), (57, 250), (46, 280), (50, 292)]
    body = spline(left) + spline(right)
    shape = as_shape(body)
    d.fill(shape, "paper")
    d.hatch(shape.difference(as_shape(spline([(-60, 300), (30, 296), (34, 200), (26, 90), (4, 0), (-80, 0)], closed=True))), 2)
    d.hatch(as_shape(spline([(-52, 60), (-40, 34), (0, 30), (46, 44), (18, 8), (-18, 8)], closed=True)).intersection(shape), 1)
    d.outline(shape, 3)
    for x in (-30, -8, 12):
        d.line(spline([(x, 276), (x * 1.2 - 2, 200), (x * 1.1 + 3, 110), (x * 0.7, 40)]), 1.3)
    for n in range(7):
        x = -42 + n * 14
        d.line(spline([(x, 281), (x * 1.04 + 1, 268), (x * 1.1, 254 - n % 3 * 6)]), 1.3)
    v.rod((0, 0, 306), (0, 0, 318), 51, tone="brass")
    d.area(v.flat(around((0, 0, 318), "z", 45)), "ink", 0, weight=1.8)
    d.area([(-15, 12), (15, 13), (14, 0), (-14, -1)], "paper", 0)
    for y in (9, 5, 2):
        d.line(spline([(-15, y), (0, y - 3), (15, y + 1)]), 1.6)
    d.area(spline([(-10, -2), (-22, -36), (-8, -30), (2, -42), (10, -30), (24, -34), (10, -2)]), "paper", 1)
    lay_rope(d, spline([(14, 6), (34, -6), (30, -40), (44, -60)]), 1.8, twisted=False)
    return d


@pictures("TY.1986.9")
def burnishing_barrel() -> Drawing:
    v = View(26, 18)
    v.shadow(-80, 90, 0, 76)
    for x in (-84, 66):
        v.cheek([(-6, 0), (8, 0), (30, 62), (46, 62), (68, 0), (82, 0), (52, 78), (24, 78)], x, 12)
        if x < 0:
            v.rod((-98, 38, 84), (-60, 38, 84), 6)
            v.block(-86, 28, 78, 16, 20, 13)
            v.block(-84, 2, 16, 162, 6, 8)
            _eight_sided(v)
    v.rod((58, 38, 84), (92, 38, 84), 6)
    v.block(64, 28, 78, 16, 20, 13)
    v.wheel((96, 38, 84), "x", 34, 12, 6, 5, 7)
    for n in range(10):
        v.ball((-30 + n * 9.5 + n % 3 * 3, -34 - n * 17 % 22, 3.4), 3.6, "brass", 1.8)
    return v.drawing


def _eight_sided(v: View) -> None:
    ring = around((-58, 38, 84), "x", 46, 22.5, 382.5, 8)[:8]
    v.prism(ring, (116, 0, 0))
    for x in (-44, 36):
        band: list[Space] = [(x + 8, p[1], p[2]) for p in around((x, 38, 84), "x", 46.8, 22.5, 382.5, 8)[:8]]
        v_ring = [(x, p[1], p[2]) for p in band]
        for a, b in zip(range(8), [*range(1, 8), 0], strict=True):
            quad = [v_ring[a], v_ring[b], band[b], band[a]]
            middle = ((quad[0][1] + quad[1][1]) / 2 - 38, (quad[0][2] + quad[1][2]) / 2 - 84)
            if v.near((0, *middle)) > 4:
                v.face(quad, "paper", 0, 1.8)
    top = 84 + 46 * math.cos(math.radians(22.5))
    v.block(-24, 24, top, 50, 28, 4)
    v.block(-6, 16, top + 4, 12, 44, 4, "brass")
    v.rod((0, 22, top + 8), (0, 22, top + 14), 3.4)
    v.rod((0, 54, top + 8), (0, 54, top + 14), 3.4)


