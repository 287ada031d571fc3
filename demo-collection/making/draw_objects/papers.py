"""Books and cards of the office and the warehouse; their writing is shown as lines that say nothing."""

from __future__ import annotations

import math

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, as_shape, spline
from making.draw_objects.solids import Space, View, around


def scrawl(v: View, x: float, y: float, z: float, length: float, tall: float = 2.2, weight: float = 1.2) -> None:
    """A line of handwriting too far off to read."""
    count = max(4, int(length / 2.2))
    points = [v.at((x + length * n / count, y + tall * 0.5 * math.sin(n * 2.4 + x) * (0.5 + 0.5 * math.sin(n * 0.7 + y)), z))
              for n in range(count + 1)]
    v.drawing.line(spline(points, step=4), weight)


def leaf_height(x: float, half: float, thick: float) -> float:
    """How high the page of an open book lies: it dips to the fold and falls a little to the fore-edge."""
    share = abs(x) / half
    return thick * min(1.0, (share * 5) ** 0.6) * (1 - 0.18 * share**3)


def open_book(v: View, half: float, deep: float, thick: float) -> None:
    v.slab([(-half - 5, -5), (half + 5, -5), (half + 5, deep + 5), (-half - 5, deep + 5)], 0, 4)
    for side in (-1, 1):
        xs = [half * n / 24 * side for n in range(25)]
        near: list[Space] = [(x, 0, 4 + leaf_height(x, half, thick)) for x in xs]
        far: list[Space] = [(x, deep, z) for x, _, z in near]
        edge = [(side * half, 0, 4), *reversed(near)] if side > 0 else [*near, (side * half, 0, 4)]
        v.drawing.area(v.flat([(0, 0, 4), *(p for p in edge if p[0] or p[2] != 4)]), "paper", 0, weight=2.4)
        for n in range(1, 6):
            v.drawing.line(v.flat([(x, 0, 4 + (z - 4) * n / 6) for x, _, z in near]), 1.0)
        if side > 0:
            v.face([(half, 0, 4), (half, deep, 4), (half, deep, near[-1][2]), (half, 0, near[-1][2])], "paper", 2)
        v.drawing.area(v.flat([*near, *reversed(far)]), "paper", 0, weight=2.6)
    fold = v.flat([(0, 0, 4), (half * 0.09, 0, 4 + thick * 0.6), (half * 0.09, deep, 4 + thick * 0.6), (0, deep, 4)])
    v.drawing.hatch(as_shape(fold), 2, 20)


@pictures("TY.1988.4")
def wages_book() -> Drawing:
    v = View(14, 46)
    v.shadow_of_flat(-116, 116, -5, 150, 9)
    half, deep, thick = 112.0, 146.0, 13.0
    open_book(v, half, deep, thick)
    for side in (-1, 1):
        for share in (0.12, 0.50, 0.60, 0.70, 0.80, 0.94):
            x = side * half * share if side > 0 else -half * (1.06 - share)
            z = 4.3 + leaf_height(x, half, thick)
            v.line([(x, 4, z), (x, deep - 4, z)], 1.2)
            if share in (0.80, 0.50):
                v.line([(x + 1.6, 4, z), (x + 1.6, deep - 4, z)], 1.0)
        for row in range(17):
            y = deep - 22 - row * 7.2
            for share, length in ((0.15, 0.24 + 0.08 * math.sin(row * 3)), (0.52, 0.05), (0.62, 0.05), (0.72, 0.05),
                                  (0.83, 0.08)):
                x = half * share if side > 0 else -half * (1.04 - share)
                if (row * 7 + int(share * 100)) % 6:
                    scrawl(v, x, y, 4.4 + leaf_height(x + 4, half, thick), half * length)
        x0, x1 = (half * 0.1, half * 0.96) if side > 0 else (-half * 0.95, -half * 0.1)
        for y in (deep - 14, deep - 16, 16):
            v.line([(x, y, 4.4 + leaf_height(x, half, thick)) for x in _between(x0, x1)], 1.3)
    ribbon = [(10, deep, 12), (14, 90, 17), (20, 40, 17.4), (16, -2, 17), (20, -14, 3), (14, -34, 1)]
    v.rope([(x, y, z) for x, y, z in ribbon], 2.2, "brass", twisted=False)
    return v.drawing


def _between(a: float, b: float) -> list[float]:
    return [a + (b - a) * n / 16 for n in range(17)]


@pictures("TY.1988.5")
def pattern_book() -> Drawing:
    v = View(-12, 46)
    v.shadow_of_flat(-117, 117, -5, 155, 10)
    half, deep, thick = 112.0, 150.0, 26.0
    open_book(v, half, deep, thick)
    for side in (-1, 1):
        for row in range(5):
            for column in range(3):
                x = side * (24 + column * 33)
                y = deep - 22 - row * 27
                z = 4.4 + leaf_height(x, half, thick)
                if (row + column * 2 + side) % 7 == 3:
                    v.drawing.loop(v.flat(around((x, y, z), "z", 7)), 1.1)
                    continue
                _button(v, (x, y, z), 6.4 + (row * 3 + column) % 3 * 1.3, (row + column) % 3)
                scrawl(v, x - 10, y - 11.5, z, 20, 1.6)
                if column != 1:
                    scrawl(v, x - 9, y - 15.5, z, 13, 1.4)
    tag = [(58, -4, 30), (84, -2, 30), (82, 20, 31), (56, 18, 31)]
    v.face(tag, "paper", 0, 2.0)
    scrawl(v, 62, 10, 31, 16)
    scrawl(v, 62, 5, 31, 12)
    return v.drawing


def _button(v: View, at: Space, r: float, kind: int) -> None:
    x, y, z = at
    v.drawing.hatch(v.flat(around((x + 1.6, y - 1.4, z), "z", r, count=40)), 2, 10)
    v.rod((x, y, z), (x, y, z + 2.2), r, r * 0.9, tone="brass", weight=1.9, hatched=False)
    top = (x, y, z + 2.2)
    v.drawing.loop(v.flat(around(top, "z", r * 0.68, count=40)), 1.2)
    if kind == 0:
        v.drawing.area(v.flat(around(top, "z", r * 0.26, count=24)), "brass", 0, weight=1.3)
    elif kind == 1:
        for a in range(0, 360, 45):
            v.line([around(top, "z", q, a, a + 5)[0] for q in (r * 0.15, r * 0.6)], 1.1)
    else:
        v.line([(x - r * 0.45, y - r * 0.2, z + 2.2), (x, y + r * 0.3, z + 2.2), (x + r * 0.45, y - r * 0.2, z + 2.2)], 1.5)


@pictures("TY.1988.6")
def sample_card() -> Drawing:
    v = View(-10, 58)
    v.shadow_of_flat(-124, 124, -92, 92, 8)
    v.slab([(-124, -92), (124, -92), (124, 92), (-124, 92)], 0, 2.4)
    frame = [(-116.0, -84.0), (116, -84), (116, 84), (-116, 84)]
    for inset in (0, 4):
        v.line([(x - inset * (1 if x > 0 else -1), y - inset * (1 if y > 0 else -1), 2.5)
                for x, y in [*frame, frame[0]]], 1.6 - inset * 0.1)
    for x in (-108, 108):
        for y in (-76, 76):
            v.drawing.loop(v.flat(around((x, y, 2.5), "z", 3, count=24)), 1.2)
    for row in range(4):
        for column in range(6):
            x, y = -90 + column * 36, 56 - row * 37
            v.line([(x - 15, y - 1.4, 2.6), (x - 9, y, 2.6)], 1.3)
            v.line([(x + 9, y, 2.6), (x + 15, y + 1.4, 2.6)], 1.3)
            _button(v, (x, y, 2.5), 12.4, row % 3 if row < 3 else 0)
    v.rope([(-14, 90, 2), (-10, 104, 8), (0, 110, 10), (10, 104, 8), (14, 90, 2)], 1.5, twisted=False)
    return v.drawing
