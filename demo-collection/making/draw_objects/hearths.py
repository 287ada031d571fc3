"""What was done with fire: the muffle and its pans, the gilding hearth, the hardening tongs, the soldering jet."""

from __future__ import annotations

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, arc, as_shape, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import Space, View, around, lay_rope

Outline = list[tuple[float, float]]


def arch(x: float, z: float, half: float, rise: float) -> Outline:
    """A doorway with a round head, as x and z."""
    return [(x - half, z), (x + half, z), *arc(x, z + rise, half, half * 0.62, 0, 180)]


def bricks(v: View, x: float, z: float, w: float, h: float, y: float, skip: Outline) -> None:
    """Courses of brick on a wall that faces you, leaving out where a mouth is."""
    left, right = min(p[0] for p in skip), max(p[0] for p in skip)
    low, high = min(p[1] for p in skip), max(p[1] for p in skip)
    rows = int(h // 12)
    for row in range(rows + 1):
        level = z + row * 12
        for a, b in ((x, left - 6), (right + 6, x + w)) if low - 8 < level < high + 8 else ((x, x + w),):
            if row and row < rows + 1:
                v.line([(a, y, level), (b, y, level)], 1.2)
        for n in range(int(w // 26) + 1):
            joint = x + n * 26 + (13 if row % 2 else 0)
            clear = not (left - 8 < joint < right + 8 and low - 18 < level < high + 6)
            if clear and x < joint < x + w and level + 12 <= z + h:
                v.line([(joint, y, level), (joint, y, level + 12)], 1.2)


@pictures("TY.1984.30")
def annealing_muffle() -> Drawing:
    v = View(28, 16)
    v.shadow(-110, 110, 0, 150)
    v.block(-112, 0, 0, 224, 150, 168)
    v.block(-120, -6, 168, 240, 162, 12)
    v.block(40, 70, 180, 46, 46, 60)
    v.block(35, 65, 240, 56, 56, 8)
    mouth = arch(-10, 62, 46, 34)
    bricks(v, -112, 0, 224, 168, -0.1, [(-64, 58), (44, 126)])
    v.plate(arch(-10, 56, 56, 36), -5, 5)
    v.face([(x, -5.2, z) for x, z in mouth], "ink", 0)
    inner = arch(-4, 66, 36, 26)
    v.face([(x, -5.3, z) for x, z in inner], "brass", 2, angle=20)
    v.face([(-34, -5.4, 66), (28, -5.4, 66), (22, -5.4, 80), (-28, -5.4, 80)], "paper", 1)
    v.block(-76, -26, 50, 132, 26, 7)
    for x in (-96, 90):
        v.block(x, -5, 0, 9, 5, 168)
        bolts(v, [(x + 4.5, -5.1, z) for z in (20, 84, 150)], 2.2)
    for z in (28, 146):
        v.block(-112, -3, z, 224, 3, 7)
    door = arch(-10, 132, 50, 36)
    v.plate(door, -12, 6)
    bolts(v, [(-10, -12.2, 158)], 6)
    v.rope([(-10, -12, 190), (-10, -10, 214)], 1.6, smooth=False)
    v.block(-70, -12, 214, 156, 8, 7)
    v.rope([(80, -12, 214), (80, -12, 120)], 1.6, smooth=False)
    v.rod((80, -12, 84), (80, -12, 120), 9)
    v.wheel((-10, -14, 218), "y", 9, 5, 3, 4, 3)
    v.wheel((80, -14, 218), "y", 9, 5, 3, 4, 3)
    return v.drawing


@pictures("TY.1984.31")
def annealing_pan() -> Drawing:
    v = View(24, 30)
    v.shadow(-96, 90, -40, 56, 0.12)
    lid = [(-84, 62, 0), (58, 62, 0), (58, 88, 92), (-84, 88, 92)]
    v.prism(lid, (0, 5, 2))
    v.face([(-70, 63, 12), (44, 63, 12), (44, 84, 80), (-70, 84, 80)], "paper", 1)
    v.drawing.line(v.flat([(-28, 66, 46), (-28, 58, 52), (2, 58, 52), (2, 66, 46)]), 4.2)
    rim, floor, deep = (-92, -46, 92, 50), (-76, -34, 76, 38), 26.0
    outer = [(rim[0], rim[1], deep), (rim[2], rim[1], deep), (rim[2], rim[3], deep), (rim[0], rim[3], deep)]
    bottom = [(floor[0], floor[1], 0.0), (floor[2], floor[1], 0.0), (floor[2], floor[3], 0.0), (floor[0], floor[3], 0.0)]
    hem = [(rim[0] + 10, rim[1] + 10, deep), (rim[2] - 10, rim[1] + 10, deep), (rim[2] - 10, rim[3] - 10, deep),
           (rim[0] + 10, rim[3] - 10, deep)]
    inner: list[Space] = [(x * 0.96, y * 0.92, 5) for x, y, _ in bottom]
    v.face([hem[0], hem[3], inner[3], inner[0]], level=2)
    v.face([hem[3], hem[2], inner[2], inner[3]], level=1)
    v.face(inner, level=0)
    for n in range(18):
        x, y = -58 + n % 6 * 23 + (n // 6 % 2) * 8, 22 - n // 6 * 17
        v.rod((x, y, 5), (x, y, 8), 9, tone="brass", weight=2)
    v.face([bottom[1], bottom[2], hem[2], hem[1]], level=2, weight=2.8)
    v.face([bottom[0], bottom[1], hem[1], hem[0]], level=1, weight=2.8)
    flange = as_shape(v.flat(outer)).difference(as_shape(v.flat(hem)))
    v.drawing.area(flange, weight=2.8)
    for n in range(9):
        spot = (-72 + n * 18, rim[1] + 5, deep)
        v.drawing.area(v.flat(around(spot, "z", 2.4, count=24)), "ink", weight=1.2)
    return v.drawing


@pictures("TY.1985.3")
def gilding_hearth() -> Drawing:
    v = View(26, 14, portrait=True)
    v.shadow(-70, 74, 0, 84)
    for x, y in ((-70, 74), (60, 74), (-70, 0), (60, 0)):
        v.block(x, y, 0, 12, 12, 60)
    v.block(-78, -6, 60, 156, 98, 26)
    v.face([(-58, 8, 86.2), (58, 8, 86.2), (58, 78, 86.2), (-58, 78, 86.2)], "ink", 0)
    for n in range(26):
        x, y = -50 + n * 37 % 101, 14 + n * 23 % 58
        v.rod((x, y, 86), (x + 3, y + 2, 92), 7, 5, weight=1.7)
    v.line([(-44, 2, 89), (-44, 84, 89)], 2.4)
    v.line([(44, 2, 89), (44, 84, 89)], 2.4)
    v.rod((-6, 24, 95), (-6, 24, 100), 24, 27, tone="brass")
    v.drawing.area(v.flat(around((-6, 24, 100), "z", 23)), "brass", 1)
    for n in range(7):
        v.drawing.area(v.flat(around((-18 + n * 17 % 30, 14 + n * 13 % 24, 100.5), "z", 4, count=24)), "brass", 0, weight=1.6)
    v.rope([(-10, 0, 100), (-16, -34, 101), (-22, -74, 102)], 2.6, twisted=False)
    v.block(-80, 84, 86, 6, 6, 80)
    v.block(74, 84, 86, 6, 6, 80)
    v.block(-86, -14, 158, 172, 110, 10)
    skirt = [(-84, -12, 168), (84, -12, 168), (84, 94, 168), (-84, 94, 168)]
    neck = [(-22, 40, 256), (22, 40, 256), (22, 80, 256), (-22, 80, 256)]
    v.face([skirt[0], skirt[1], neck[1], neck[0]], level=0, weight=3)
    v.face([skirt[1], skirt[2], neck[2], neck[1]], level=2, weight=3)
    v.line([(-30, -0.4, 178), (-17, 32, 238)], 1.3)
    v.line([(30, -0.4, 178), (17, 32, 238)], 1.3)
    v.rod((0, 60, 256), (0, 60, 330), 21)
    v.line(around((0, 60, 290), "z", 21, 180, 360), 1.8)
    return v.drawing


@pictures("TY.1988.2")
def hardening_tongs() -> Drawing:
    d = Drawing()
    v = View(0, 34)
    v.drawing = d
    for a, b in (((-220, 36), (-30, 8)), ((-216, -32), (-30, -6))):
        lay_rope(d, spline([a, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2 + (6 if a[1] > 0 else -5)), b]), 5.5, twisted=False)
    upper = spline([(-40, 10), (0, -8), (36, -40), (86, -56), (140, -34), (158, -8)])
    lower = spline([(-40, -8), (0, 8), (36, 42), (86, 62), (140, 46), (158, 20)])
    lay_rope(d, lower, 7, twisted=False)
    v.turned((108, 0, -40), "z", [(0, 30), (18, 38), (54, 38)], "brass")
    v.drawing.loop(v.flat(around((108, 0, 14), "z", 26)), 1.8)
    v.drawing.hatch(v.flat(around((108, 0, 14), "z", 22)), 1, 30)
    lay_rope(d, upper, 7, twisted=False)
    d.area(arc(-8, 1, 13), "paper", 0, weight=2.8)
    d.area(arc(-8, 1, 6), "paper", 2, weight=1.8)
    for x, y in ((-222, 37), (-218, -33)):
        d.area(arc(x, y, 8), "paper", 1)
    return d


@pictures("TY.1988.8")
def soldering_jet() -> Drawing:
    v = View(24, 34)
    v.shadow(-30, 110, -30, 60, 0.12)
    v.block(-30, -36, 0, 140, 92, 30)
    for n in range(34):
        x, y = -22 + n * 53 % 126, -28 + n * 37 % 78
        v.line([(x, y, 30), (x + 4, y + 2, 30)], 1.3)
    for x in (-12, 92):
        v.line([(x, 56, 30.4), (x, -36, 30.4), (x, -36, 0)], 3.2)
    v.rod((40, 12, 30), (40, 12, 33), 26, tone="brass")
    v.drawing.loop(v.flat(around((40, 12, 33), "z", 21)), 1.6)
    ring = v.at((40, 12, 42))
    lay_rope(v.drawing, arc(ring[0], ring[1], 9, 10), 2.6, "brass", twisted=False)
    for n in range(5):
        v.drawing.area(v.flat(around((30 + n * 5, 4 + n % 2 * 4, 33.3), "z", 1.4, count=16)), "paper", weight=1.2)
    jet: list[Space] = [(-146, -20, 4), (-122, -8, 40), (-92, 2, 58), (-40, 8, 60)]
    v.rope([(-128, -92, 2), (-164, -74, 1), (-172, -44, 2), (-162, -26, 3), (-146, -20, 4)], 7.5, twisted=False)
    v.rope(jet, 4.4, "brass", twisted=False)
    v.rod((-44, 8, 60.5), (-20, 10, 56), 5.4, 3, tone="brass")
    v.block(-166, -34, -2, 34, 30, 6)
    v.rod((-133, -8, 36), (-122, -30, 42), 2.6, tone="brass")
    v.rod((-124, -34, 42), (-120, -24, 42), 6, tone="brass")
    tip, target = v.at((-18, 10, 55.6)), v.at((34, 12, 40))
    flame = spline([tip, ((tip[0] + target[0]) / 2, (tip[1] + target[1]) / 2 + 9), target,
                    ((tip[0] + target[0]) / 2, (tip[1] + target[1]) / 2 - 7)], closed=True)
    v.drawing.loop(flame, 1.5)
    v.drawing.line([tip, ((tip[0] * 0.5 + target[0] * 0.5), (tip[1] * 0.5 + target[1] * 0.5) + 1)], 1.3)
    return v.drawing
