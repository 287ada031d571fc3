"""Wet work: trough, pickle, dip, plating, and what the dipper wore."""

from __future__ import annotations

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, as_shape, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import Space, View, around, lay_rope


def open_box(v: View, w: float, d: float, h: float, wall: float, level: float) -> None:
    """An open vat from the corner at 0,0,0, with liquid standing up to a level."""
    v.block(0, 0, 0, w, d, h)
    rim: list[Space] = [(wall, wall, h), (w - wall, wall, h), (w - wall, d - wall, h), (wall, d - wall, h)]
    pool = [(x, y, level) for x, y, _ in rim]
    mouth = as_shape(v.flat(rim))
    v.drawing.fill(mouth)
    inside = ((v.flat([rim[3], rim[2], pool[2], pool[3]]), 1), (v.flat([rim[0], rim[3], pool[3], pool[0]]), 2))
    for flat, shade in inside:
        shown = as_shape(flat).intersection(mouth)
        v.drawing.hatch(shown, shade)
        v.drawing.outline(shown, 1.6)
    v.drawing.outline(mouth, 2.2)


def ripples(v: View, spots: list[tuple[float, float]], level: float, reach: float) -> None:
    for x, y in spots:
        v.curve([(x - reach, y, level), (x - reach / 2, y + 2.5, level), (x, y, level), (x + reach / 2, y - 2.5, level),
                 (x + reach, y, level)], 1.3)


def boards(v: View, w: float, h: float, rows: int, y: float = -0.1) -> None:
    for n in range(1, rows):
        v.line([(0, y, h * n / rows), (w, y, h * n / rows)], 1.5)


@pictures("TY.1984.32")
def quench_trough() -> Drawing:
    v = View(24, 24)
    v.shadow(0, 240, 0, 76)
    for x in (20, 196):
        v.block(x, -4, -16, 26, 84, 16)
    open_box(v, 240, 76, 56, 8, 44)
    boards(v, 240, 56, 3)
    ripples(v, [(60, 30), (44, 48), (190, 28), (206, 46), (104, 22)], 44, 12)
    for x in (30, 112, 196):
        v.block(x, -3, 0, 12, 3, 59)
        v.block(x, -3, 56, 12, 14, 3)
        bolts(v, [(x + 6, -3.1, z) for z in (12, 44)], 2)
    for n in range(6):
        v.block(122 + n * 11, 0, 57, 6, 76, 4)
    v.block(118, -2, 61, 68, 7, 4)
    v.block(118, 66, 61, 68, 7, 4)
    v.rod((150, 30, 62), (150, 30, 66), 16, tone="brass")
    v.rod((166, 44, 62), (166, 44, 66), 16, tone="brass")
    v.rod((156, 36, 67), (156, 36, 71), 16, tone="brass")
    return v.drawing


@pictures("TY.1984.41")
def pickle_vat() -> Drawing:
    v = View(32, 24)
    v.shadow(0, 98, 0, 98)
    for x in (6, 74):
        v.block(x, -2, -10, 18, 102, 10)
    open_box(v, 98, 98, 84, 9, 66)
    for n in range(1, 6):
        v.line([(98 * n / 6, -0.1, 0), (98 * n / 6, -0.1, 84)], 1.4)
        v.line([(98.1, 98 * n / 6, 0), (98.1, 98 * n / 6, 84)], 1.4)
    for z in (16, 62):
        v.block(-3, -4, z, 104, 4, 9)
        v.block(98, -4, z, 4, 104, 9)
        bolts(v, [(x, -4.1, z + 4.5) for x in (8, 90)], 2.2)
    lead = [(-3.0, -3.0), (101.0, -3.0), (101.0, 101.0), (-3.0, 101.0)]
    rim = as_shape(v.flat([(x, y, 85) for x, y in lead]))
    hole = as_shape(v.flat([(9, 9, 85), (89, 9, 85), (89, 89, 85), (9, 89, 85)]))
    v.drawing.area(rim.difference(hole), weight=2.4)
    flap = [-3.0, 12, 30, 48, 70, 88, 101]
    hem = spline(v.flat([(x, -3.2, 76 + (n % 2) * 3) for n, x in enumerate(flap)]))
    v.drawing.area([*hem, *v.flat([(101, -3.2, 85), (-3, -3.2, 85)])], "paper", 1, weight=1.8)
    ripples(v, [(40, 60), (62, 74), (58, 46)], 70, 8)
    v.rod((2, 30, 96), (96, 30, 96), 3)
    for x in (2, 96):
        v.rod((x, 30, 85), (x, 30, 97), 2.4)
    v.rope([(46, 30, 96), (46, 30, 76)], 1.2, smooth=False)
    v.turned((46, 30, 60), "z", [(0, 9), (16, 13)], "brass")
    v.rope([(112, 60, 84), (104, 60, 104), (88, 60, 108), (76, 60, 96), (76, 60, 74)], 3, twisted=False)
    v.rope([(112, 60, 84), (113, 60, 40), (118, 58, 2)], 3, twisted=False)
    v.rod((49, -10, 8), (49, 0, 8), 6)
    v.rod((49, -18, 8), (49, -10, 8), 3.4)
    return v.drawing


@pictures("TY.1984.42")
def dipping_basket() -> Drawing:
    v = View(0, 22, portrait=True)
    v.shadow(-60, 60, -50, 40, 0.2)
    v.turned((0, 0, 0), "z", [(0, 56), (6, 62), (30, 69), (80, 74), (130, 72), (146, 70), (154, 76), (162, 76)], weight=0.01)
    left = [(-56.0, 0.0), (-62, 6), (-69, 30), (-74, 80), (-72, 130), (-70, 146), (-76, 154), (-76, 162)]
    for side in (1, -1):
        v.drawing.line(spline([v.at((x * side, 0, z)) for x, z in left]), 3)
    v.drawing.line(v.flat(around((0, 0, 0), "z", 56, 180, 360)), 3)
    for z, r in ((146, 70), (154, 76)):
        v.drawing.line(v.flat(around((0, 0, z), "z", r, 180, 360)), 1.8)
    v.drawing.loop(v.flat(around((0, 0, 162), "z", 76)), 3)
    mouth = as_shape(v.flat(around((0, 0, 162), "z", 67)))
    v.drawing.fill(mouth)
    v.drawing.hatch(mouth.difference(as_shape(v.flat(around((6, 0, 140), "z", 64)))), 2)
    v.drawing.outline(mouth, 2.2)
    for row in range(6):
        z = 18 + row * 21
        r = 66 + min(row, 3) * 2.6
        for n in range(8 - row % 2):
            a = 200 + n * 20 + (row % 2) * 10
            spot = around((0, 0, z), "z", r, a, a + 1)[0]
            wide = abs(v.near((spot[0] / r, spot[1] / r, 0)))
            x, y = v.at(spot)
            hole = [(x + 4.6 * max(0.25, wide) * dx, y + 5.2 * dy) for dx, dy in _ring()]
            v.drawing.area(hole, "ink", 0, weight=1.4)
    v.rope([(-70, 0, 160), (-66, 0, 220), (-34, 0, 262), (0, 0, 270), (34, 0, 262), (66, 0, 220), (70, 0, 160)], 7.5,
           twisted=False)
    for x in (-71, 71):
        v.drawing.area([(x * 1.0 + 11 * dx, v.at((0, 0, 158))[1] + 8 * dy) for dx, dy in _ring()], "paper", 1)
    v.rod((96, -50, 0), (96, -50, 3), 13, tone="brass")
    v.rod((112, -34, 0), (112, -34, 3), 13, tone="brass")
    return v.drawing


def _ring() -> list[tuple[float, float]]:
    return [(x, z) for x, _, z in around((0, 0, 0), "y", 1.0, count=24)]


@pictures("TY.1984.43")
def clogs_and_apron() -> Drawing:
    v = View(20, 30)
    v.shadow(-70, 40, -50, 50, 0.12)
    for n, (x, y) in enumerate(((-78, -52), (-76, -49), (-79, -50))):
        v.block(x, y, n * 7, 112, 96, 7)
        v.drawing.line(spline(v.flat([(x, y, n * 7), (x - 5, y + 2, n * 7 + 3.5), (x, y, n * 7 + 7)])), 2)
    v.line([(-40, -50, 21.2), (-40, 46, 21.2)], 1.3)
    bib = [(-58, -38, 22), (26, -38, 22), (8, 34, 22), (-42, 34, 22)]
    v.face(bib, "paper", 1, 2.6)
    v.face([(-36, -30, 22.4), (4, -30, 22.4), (2, -2, 22.4), (-34, -2, 22.4)], "paper", 0)
    v.line([(-36, -6, 22.6), (2, -6, 22.6)], 1.2)
    v.rope([(-40, 32, 22), (-50, 50, 24), (-36, 66, 27), (-14, 70, 27), (6, 60, 26), (6, 32, 22)], 2.6, twisted=False)
    v.rope([(26, -36, 22), (44, -42, 20), (46, -54, 4), (40, -76, 1), (58, -86, 1)], 2.4, twisted=False)
    v.rope([(-58, -36, 22), (-78, -44, 20), (-82, -60, 3), (-70, -78, 1), (-84, -92, 1)], 2.4, twisted=False)
    for x, y in ((-40, 30), (6, 30)):
        v.drawing.area(v.flat(around((x, y, 22.5), "z", 2.6, count=20)), "brass", 0, weight=1.6)
    x, y = v.at((84, 10, 0))
    _clog(v.drawing, x + 12, y + 14)
    x, y = v.at((74, -44, 0))
    _clog(v.drawing, x + 12, y)
    return v.drawing


def _clog(d: Drawing, x: float, y: float) -> None:
    d.hatch([(x - 10, y - 10), (x + 176, y - 10), (x + 168, y + 6), (x, y + 6)], 1, 2)
    sole = [(-14, 0), (34, 0), (38, 10), (58, 12), (72, 2), (120, 0), (150, 12), (146, 26), (-20, 26)]
    d.area([(x + a, y + b) for a, b in sole], "paper", 0, weight=3)
    for n in range(4):
        d.line(spline([(x - 12 + n * 3, y + 6 + n * 5), (x + 60, y + 17 + n * 2), (x + 140, y + 12 + n * 4)]), 1.2)
    upper = spline([(x - 20, y + 26), (x - 24, y + 60), (x - 14, y + 78)]) + spline(
        [(x - 14, y + 78), (x + 20, y + 72), (x + 48, y + 84), (x + 62, y + 82)]) + spline(
        [(x + 62, y + 82), (x + 96, y + 66), (x + 136, y + 54), (x + 150, y + 36), (x + 146, y + 26)])
    d.area(upper, "paper", 0, weight=3)
    d.hatch(spline([(x - 18, y + 28), (x - 8, y + 44), (x + 50, y + 36), (x + 140, y + 32), (x + 144, y + 27)], closed=True),
            2)
    mouth = spline([(x - 14, y + 78), (x + 20, y + 84), (x + 60, y + 84), (x + 48, y + 76), (x + 18, y + 68)], closed=True)
    d.area(mouth, "paper", 2, weight=2.4)
    d.area([(x + 62, y + 52), (x + 84, y + 48), (x + 88, y + 62), (x + 66, y + 68)], "brass", 0, weight=2.4)
    d.line([(x + 64, y + 62), (x + 88, y + 55)], 2)
    lay_rope(d, spline([(x + 46, y + 78), (x + 62, y + 62), (x + 66, y + 40)]), 3.4, twisted=False)
    for n in range(13):
        d.area([(x - 16 + n * 13 + 1.6 * a, y + 29 + 1.6 * b) for a, b in _ring()], "ink", weight=1)
    d.line([(x - 14, y - 3), (x + 34, y - 3)], 3.6)
    d.line([(x + 74, y - 2), (x + 120, y - 3), (x + 149, y + 9)], 3.6)


@pictures("TY.1985.9")
def plating_vat() -> Drawing:
    v = View(24, 24)
    v.shadow(0, 180, 0, 74)
    for x in (10, 150):
        v.block(x, -3, -12, 20, 80, 12)
    open_box(v, 180, 74, 62, 8, 52)
    boards(v, 180, 62, 4)
    for x in (16, 156):
        v.block(x, -3, 0, 9, 3, 62)
        bolts(v, [(x + 4.5, -3.1, z) for z in (10, 32, 54)], 1.8)
    for y in (58, 37, 16):
        top = 96 if y == 37 else 72
        for x in (-8, 178):
            v.block(x, y - 4, 62, 9, 8, top - 65)
        if y == 37:
            for n in range(9):
                _hung(v, 24 + n * 16.5, y)
        else:
            for n in range(4):
                x = 22 + n * 38
                v.face([(x, y, 57), (x + 22, y, 57), (x + 22, y, 67), (x, y, 67)], "paper", 1, 1.8)
                v.line([(x + 11, y, 67), (x + 11, y, 72)], 2)
        v.rod((-14, y, top), (194, y, top), 2.6, tone="brass", weight=2.2)
    v.rope([(-14, 58, 72), (-26, 56, 60), (-24, 40, 40), (-34, 10, 10), (-40, -10, -10)], 2.2, twisted=False)
    v.rope([(194, 37, 96), (210, 35, 88), (210, 20, 40), (216, 0, 4), (236, -10, -8)], 2.2, twisted=False)
    return v.drawing


def _hung(v: View, x: float, y: float) -> None:
    v.line([(x, y, 96), (x, y, 86)], 1.6)
    badge = v.flat(around((x, y, 80), "y", 6.2, count=30))
    v.drawing.area(badge, "brass", 0, weight=1.9)
