"""The works' own tools for cutting and striking: punch, die, force, gauge, and the strip they leave."""

from __future__ import annotations

import math

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, Point, arc, as_shape
from making.draw_objects.relief import Mapping, badge
from making.draw_objects.solids import Space, View, around, lay_rope


def round_shadow(v: View, radius: float, away: float) -> None:
    """The shade a round body lying on the bench throws to the right."""
    v.drawing.hatch(v.flat(around((away, -away * 0.35, 0), "z", radius)), 1, 2)


@pictures("TY.1984.7")
def gauge_plate() -> Drawing:
    v = View(-12, 58)
    round_shadow(v, 100, 11)
    outline: list[Point] = []
    count = 20
    for n in range(count):
        a0, a1 = math.tau * n / count, math.tau * (n + 1) / count
        half = math.radians(0.9 + n * 0.24)
        middle = (a0 + a1) / 2
        for a in (a0, (a0 + middle - half) / 2, middle - half):
            outline.append((100 * math.cos(a), 100 * math.sin(a)))
        bulb = 79 - n * 0.2
        outline.append((bulb * math.cos(middle - half), bulb * math.sin(middle - half)))
        for k in range(9):
            turn = middle + math.pi / 2 + math.pi + math.pi * k / 8
            r = 3.4 + n * 0.13
            outline.append((bulb * math.cos(middle) - r * math.cos(turn - middle + middle) * 1.0,
                            bulb * math.sin(middle) - r * math.sin(turn)))
        outline.append((bulb * math.cos(middle + half), bulb * math.sin(middle + half)))
        for a in (middle + half, (a1 + middle + half) / 2):
            outline.append((100 * math.cos(a), 100 * math.sin(a)))
    shape = as_shape(outline)
    ring = [(x, y) for x, y in shape.exterior.coords][:-1]
    deep = as_shape(v.flat([(x, y, 0) for x, y in ring]))
    top = as_shape(v.flat([(x, y, 7) for x, y in ring]))
    v.drawing.area(deep, "brass", 2, weight=2.8)
    v.drawing.area(top, "brass", 0, weight=2.8)
    v.drawing.loop(v.flat(around((0, 0, 7), "z", 62)), 1.6)
    v.drawing.area(v.flat(around((0, 0, 7), "z", 16)), "paper", 0, weight=2.6)
    wall = as_shape(v.flat(around((0, 0, 7), "z", 16))).difference(as_shape(v.flat(around((0, 0, -1), "z", 16))))
    v.drawing.hatch(wall, 2, 70)
    for a in range(20, 380, 40):
        spots = around((0, 0, 7.1), "z", 30 + a % 70 * 0.4, a, a + 22)
        v.drawing.line(v.flat(spots), 1.1)
    return v.drawing


@pictures("TY.1984.23")
def blanking_punch_and_die() -> Drawing:
    v = View(30, 24, portrait=True)
    v.shadow(-50, 50, -50, 50, 0.2)
    v.block(-50, -50, 0, 100, 100, 40)
    hole = as_shape(v.flat(around((0, 0, 40), "z", 20)))
    v.drawing.loop(v.flat(around((0, 0, 40), "z", 26)), 1.6)
    v.drawing.area(hole, "ink", 0, weight=2.6)
    rim = hole.difference(as_shape(v.flat(around((0, 0, 36), "z", 20))))
    v.drawing.fill(rim)
    v.drawing.hatch(rim, 2, 70)
    v.drawing.outline(rim, 1.5)
    for x, y in ((-38, -38), (38, -38), (38, 38), (-38, 38)):
        v.drawing.area(v.flat(around((x, y, 40), "z", 5)), "ink", 0, weight=1.6)
    v.turned((0, 0, 92), "z", [(0, 19), (50, 19), (52, 27), (64, 27), (66, 17), (112, 17), (116, 14)], "brass")
    for a in (0.0, 180.0):
        spot = around((0, 0, 0), "z", 19, a, a + 1)[0]
        for z in range(46, 88, 9):
            v.line([(spot[0], spot[1], z), (spot[0], spot[1], z + 4)], 1.2)
    for x, y, z in ((72, -48, 0), (86, -26, 0), (80, -42, 3)):
        v.rod((x, y, z), (x, y, z + 3), 18, tone="brass", weight=2.2)
    return v.drawing


@pictures("TY.1984.24")
def skeleton_strip() -> Drawing:
    v = View(20, 36)
    length, half = 300.0, 44.0

    def spot(s: float, y: float, drop: float = 0.0) -> Space:
        curl = max(0.0, s - 210)
        lift = 4 + 5 * math.sin(s / 46) + (curl / 90) ** 2 * 54
        return (s - 150 - (curl / 90) ** 2 * 26, y, lift - drop)

    v.shadow_of_flat(-146, 96, -half, half, 10)
    steps = [length * n / 60 for n in range(61)]
    edge = [spot(s, -half) for s in steps] + [spot(s, half) for s in reversed(steps)]
    sheet = as_shape(v.flat(edge))
    holes = []
    for column in range(13):
        for row in range(3):
            s = 18 + column * 22 + (row % 2) * 11
            if s < length - 9:
                holes.append(as_shape([v.at(spot(s + 9.6 * math.cos(a), (row - 1) * 26 + 11.6 * math.sin(a)))
                                       for a in (math.tau * n / 40 for n in range(40))]))
    metal = sheet
    for hole in holes:
        metal = metal.difference(hole)
    v.drawing.area(metal, "brass", 0, weight=2.4)
    front = [spot(s, -half) for s in steps] + [spot(s, -half, 2.4) for s in reversed(steps)]
    v.drawing.area(v.flat(front), "brass", 2, weight=2)
    for hole in holes:
        lip = hole.difference(as_shape([(x + 1.2, y - 2.2) for x, y in hole.exterior.coords]))
        v.drawing.hatch(lip, 2, 70)
    for x, y, n in ((-60, -78, 0), (-36, -86, 1), (-48, -74, 2)):
        v.rod((x, y, n * 2), (x, y, n * 2 + 2), 9.6, tone="brass", weight=2)
    return v.drawing


def _on_top(v: View, z: float, scale: float, mirrored: bool) -> Mapping:
    side = -1 if mirrored else 1

    def at(p: Point) -> Point:
        return v.at((p[0] * scale * side, p[1] * scale, z))

    return at


@pictures("TY.1987.1")
def badge_die() -> Drawing:
    v = View(-8, 50)
    round_shadow(v, 92, 22)
    v.turned((0, 0, 0), "z", [(0, 92), (20, 92), (48, 82), (76, 80), (80, 77)])
    v.drawing.area(v.flat(around((0, 0, 80), "z", 77)), "paper", 0, weight=2.8)
    at = _on_top(v, 80, 0.98, mirrored=True)
    badge(v.drawing, at, tone="brass", sunk=True)
    for a in (0, 90, 180, 270):
        v.line([around((0, 0, 80.2), "z", r, a, a + 1)[0] for r in (68, 76)], 1.8)
    return v.drawing


@pictures("TY.1987.2")
def badge_force() -> Drawing:
    v = View(8, 50)
    round_shadow(v, 78, 20)
    v.turned((0, 0, 0), "z", [(0, 76), (6, 80), (66, 80), (70, 77)], "brass")
    v.drawing.area(v.flat(around((0, 0, 70), "z", 77)), "brass", 1, weight=2.8)
    v.drawing.area([v.at((x * 0.98, y * 0.98, 70)) for x, y in _wide_oval()], "brass", 2, weight=2.4)
    badge(v.drawing, _on_top(v, 76, 0.98, mirrored=False))
    return v.drawing


def _wide_oval() -> list[Point]:
    return arc(0, 0, 56, 68)


@pictures("TY.1988.1")
def sinkers_punches() -> Drawing:
    v = View(16, 50)
    v.shadow_of_flat(-150, 118, -62, 62, 7)
    cloth = [(-150, -62, 0), (112, -62, 0), (112, 62, 0), (-150, 62, 0)]
    v.face(cloth, "paper", 0, 2.8)
    flap = [(-150, -62, 0.5), (112, -62, 0.5), (112, -8, 0.5), (-150, -8, 0.5)]
    for n in range(11):
        _punch(v, -138 + n * 23.5, n)
    v.face(flap, "paper", 1, 2.4)
    for n in range(12):
        v.line([(-150 + n * 23.5, -62, 0.8), (-150 + n * 23.5, -8, 0.8)], 1.5)
    v.line([(-150, -12, 0.8), (112, -12, 0.8)], 1.2)
    v.rod((124, -64, 10), (124, 64, 10), 14)
    spiral = [v.at((124 + (2 + n * 0.33) * math.cos(n * 0.5), -64, 10 + (2 + n * 0.33) * math.sin(n * 0.5))) for n in range(34)]
    v.drawing.line(spiral, 1.5)
    v.rope([(138, -20, 10), (160, -34, 2), (150, -60, 1), (172, -84, 1), (160, -100, 1)], 2, twisted=False)
    return v.drawing


def _punch(v: View, x: float, n: int) -> None:
    length = 26 + (n * 17 % 5) * 6
    r = 4.6 - n % 3 * 0.8
    v.rod((x, -30, r), (x, length - 12, r), r, tone="brass", weight=2.1)
    v.rod((x, length - 12, r), (x, length, r), r, r * 0.45, tone="brass", weight=2.1)
    tip = (x, length, r)
    if n % 4 == 0:
        v.ball((x, length + 1, r), r * 0.6, "brass", 1.6)
    elif n % 4 == 1:
        v.drawing.area([v.at((tip[0] + dx, tip[1] + dy, r)) for dx, dy in ((-3.6, 0), (3.6, 0), (0, 6))], "brass", 0, weight=1.7)
    elif n % 4 == 2:
        v.drawing.area([v.at((tip[0] + dx, tip[1] + dy, r)) for dx, dy in ((-4, 0), (4, 0), (4, 3.4), (-4, 3.4))], "brass", 0,
                       weight=1.7)
    else:
        lay_rope(v.drawing, [v.at((x + dx, length + dy, r)) for dx, dy in ((-3.4, 4), (0, 0), (3.4, 4))], 1.0, "brass",
                 twisted=False)
