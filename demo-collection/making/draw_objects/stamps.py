"""Drop stamps: the fall of a tup between two uprights, and what the stamper's foot worked."""

from __future__ import annotations

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, arc, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import View, around, lay_rope


def stamp_base(v: View, x: float) -> None:
    """A stone block, the iron bed, the die in its bolts."""
    v.block(x - 52, 0, 0, 104, 84, 22)
    v.line([(x - 52, 0, 11), (x - 8, 0, 11), (x + 6, 0, 10), (x + 52, 0, 11)], 1.4)
    v.block(x - 44, 8, 22, 88, 68, 30)
    v.block(x - 36, 14, 52, 72, 56, 6)
    bolts(v, [(x - 36, 7.9, 30), (x + 36, 7.9, 30)], 3)


def die_in_bed(v: View, x: float) -> None:
    for dx, dy in ((-26, 62), (26, 62)):
        v.block(x + dx - 6, dy - 6, 58, 12, 10, 14)
    v.rod((x, 42, 58), (x, 42, 72), 15, tone="brass")
    v.drawing.loop(v.flat(around((x, 42, 72), "z", 9)), 1.8)
    for dx, dy in ((-28, 22), (28, 22)):
        v.block(x + dx - 6, dy - 6, 58, 12, 10, 14)
        v.rod((x + dx, dy, 67), (x + dx * 0.45, dy + 10, 67), 2.6)
        v.rod((x + dx * 1.25, dy - 4, 67), (x + dx, dy, 67), 4)


def upright(v: View, x: float, top: float) -> None:
    v.block(x - 5, 34, 52, 10, 16, top - 52)
    v.line([(x, 33.9, 56), (x, 33.9, top - 2)], 1.4)


def tup(v: View, x: float, z: float) -> None:
    v.block(x - 25, 24, z, 50, 36, 36, "brass")
    v.block(x - 13, 30, z - 8, 26, 24, 8, "brass")
    v.block(x - 31, 36, z + 4, 6, 12, 28)
    v.block(x + 25, 36, z + 4, 6, 12, 28)
    v.rod((x, 42, z + 36), (x, 42, z + 43), 6)
    v.drawing.loop(v.flat(around((x, 42, z + 49), "y", 6.5, count=36)), 3.4)


@pictures("TY.1984.12")
def drop_stamp() -> Drawing:
    v = View(24, 13, portrait=True)
    v.shadow(-52, 52, 0, 84)
    stamp_base(v, 0)
    for x in (-37, 37):
        upright(v, x, 250)
    die_in_bed(v, 0)
    v.rope([(0, 42, 184), (0, 42, 262)], 2.6, smooth=False)
    tup(v, 0, 140)
    v.block(-56, 26, 250, 112, 32, 14)
    bolts(v, [(-37, 25.9, 257), (37, 25.9, 257)], 3)
    for x in (2, 48):
        v.block(x - 4, 50, 264, 8, 8, 36)
    v.wheel((27, 42, 294), "y", 27, 10, 6, 5, 6)
    v.rope([(0, 40, 262), (0, 40, 296), (8, 38, 315), (27, 37, 323), (46, 37, 315), (55, 36, 296), (58, 20, 240),
            (64, -14, 160), (67, -28, 100), (68, -32, 62)], 2.8)
    x, z = v.at((68, -32, 46))
    lay_rope(v.drawing, spline([(x, z + 16), (x - 12, z - 4), (x - 13, z - 20)]), 2.4, twisted=False)
    lay_rope(v.drawing, spline([(x, z + 16), (x + 12, z - 4), (x + 13, z - 20)]), 2.4, twisted=False)
    v.drawing.area(arc(x, z - 22, 17, 5), "paper", 0)
    return v.drawing


@pictures("TY.1984.13")
def counterbalanced_pair() -> Drawing:
    v = View(20, 13)
    v.shadow(-130, 130, 0, 84)
    for x in (-76, 76):
        stamp_base(v, x)
        for side in (-37, 37):
            upright(v, x + side, 226)
        die_in_bed(v, x)
    for x, z in ((-76, 148), (76, 92)):
        v.rope([(x, 42, z + 52), (x, 42, 244)], 2.4, smooth=False)
        tup(v, x, z)
    v.block(-152, 24, 226, 304, 36, 14)
    bolts(v, [(x, 23.9, 233) for x in (-113, -39, 39, 113)], 3)
    for x in (-76, 76):
        outer = -1 if x < 0 else 1
        far = x + outer * 62
        v.wheel((x + outer * 6, 42, 262), "y", 17, 8, 4, 5, 4)
        v.wheel((far - outer * 2, 42, 262), "y", 13, 8, 4, 4, 4)
        level = 120 if x < 0 else 168
        v.rope([(x, 40, 240), (x - outer * 8, 38, 264), (x + outer * 4, 38, 279), (x + outer * 30, 37, 277),
                (far, 37, 275), (far + outer * 11, 36, 262), (far + outer * 12, 34, level)], 2.4)
        v.rod((far + outer * 12, 34, level - 42), (far + outer * 12, 34, level), 11)
    return v.drawing


@pictures("TY.1984.15")
def stirrup_and_rope() -> Drawing:
    d = Drawing(portrait=True)
    lay_rope(d, spline([(-66, 270), (-64, 235), (-40, 190), (0, 150), (14, 110), (10, 60)]), 11, cut=False)
    lay_rope(d, spline([(-66, 262), (-60, 318), (-20, 350), (30, 338), (40, 292), (0, 268), (-60, 278), (-96, 322),
                        (-90, 366), (-34, 396), (40, 388), (84, 352), (98, 300)]), 11, cut=False)
    d.area([(84, 304), (111, 309), (114, 290), (88, 286)], "paper", 0)
    for n in (0.25, 0.5, 0.75):
        d.line([(84 + 4 * n, 304 - 18 * n), (111 + 3 * n, 309 - 19 * n)], 1.5)
    for y in (62, 72, 82):
        d.area(arc(10, y, 14, 5), "paper", 0)
    strap = spline([(-4, 56), (-40, 10), (-66, -70), (-70, -130), (-62, -152)])
    lay_rope(d, strap, 10, twisted=False)
    lay_rope(d, spline([(22, 56), (60, 10), (86, -70), (90, -130), (82, -152)]), 10, twisted=False)
    d.area(spline([(-12, 66), (12, 74), (34, 66), (30, 40), (10, 28), (-10, 40)], closed=True), "paper", 1)
    sole = spline([(-78, -150), (-60, -134), (10, -128), (80, -134), (100, -150), (84, -170), (10, -178), (-62, -170)],
                  closed=True)
    d.area(sole, "paper", 0, weight=3)
    d.area(spline([(-30, -140), (10, -136), (44, -141), (50, -158), (10, -166), (-36, -159)], closed=True), "paper", 2)
    for n in range(8):
        d.line([(-30 + n * 10.5, -143 + (n - 4) ** 2 * -0.2 + 4), (-29 + n * 10.5, -149)], 1.5)
    d.area([(58, -14), (96, -26), (104, 6), (66, 18)], "brass", 0, weight=3)
    d.area([(66, -6), (88, -13), (94, 1), (72, 8)], "paper", 0)
    d.line([(62, 2), (97, -9)], 3.2)
    return d
