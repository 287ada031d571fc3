"""Presses: the fly press, the power press, the clipping press and the guard that swept a hand away."""

from __future__ import annotations

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing, spline
from making.draw_objects.machines import bolts
from making.draw_objects.solids import View, around, lay_rope

Outline = list[tuple[float, float]]


def c_frame(reach: float, height: float) -> Outline:
    """The side of a press frame that opens to the left, as x and z."""
    throat = [(reach * 0.18, height * 0.40), (reach * 0.34, height * 0.46), (reach * 0.40, height * 0.56),
              (reach * 0.34, height * 0.67), (reach * 0.18, height * 0.72)]
    outer = [(-reach * 0.32, height * 0.98), *spline([(reach * 0.3, height), (reach * 0.62, height * 0.93),
             (reach * 0.82, height * 0.74), (reach * 0.86, height * 0.5), (reach * 0.82, height * 0.22)], step=8),
             (reach * 0.96, height * 0.1), (reach * 0.96, 0)]
    return [(-reach * 0.5, 0), (-reach * 0.5, height * 0.14), (-reach * 0.40, height * 0.38),
            *spline([(-reach * 0.2, height * 0.40), *throat, (-reach * 0.32, height * 0.74)]), *outer]


@pictures("TY.1984.20")
def fly_press() -> Drawing:
    v = View(18, 16, portrait=True)
    v.drawing.hatch(v.flat([(106, -10, -26), (128, -4, -26), (128, 72, -26), (106, 72, -26)]), 1, 2)
    v.block(-84, -24, -26, 190, 96, 26)
    v.line([(-84, -24, -8), (106, -24, -8)], 1.3)
    v.plate(c_frame(100, 140), 8, 32)
    v.curve([(8, 7.9, 124), (44, 7.9, 118), (66, 7.9, 92), (70, 7.9, 62), (66, 7.9, 20)], 1.6)
    v.curve([(-38, 7.9, 30), (-34, 7.9, 20), (40, 7.9, 14), (66, 7.9, 20)], 1.6)
    v.block(-46, 2, 53, 46, 44, 9)
    bolts(v, [(-38, 1.9, 57), (-8, 1.9, 57)], 2)
    v.rod((-23, 24, 62), (-23, 24, 70), 11, tone="brass")
    v.rod((-23, 24, 74), (-23, 24, 84), 5, tone="brass")
    v.block(-35, 10, 84, 24, 26, 22)
    v.rod((-23, 24, 104), (-23, 24, 142), 17)
    v.rod((-23, 24, 142), (-23, 24, 192), 10)
    for z in range(146, 190, 6):
        v.line(around((-23, 24, z), "z", 10, 180, 340), 1.4)
    v.rod((-23, 24, 186), (-23, 24, 200), 14)
    v.rope([(-128, 4, 190), (-110, 6, 206), (-70, 14, 212), (-23, 24, 210), (24, 34, 212), (66, 42, 206), (84, 46, 190)],
           6.5, twisted=False)
    v.rod((-23, 24, 212), (-23, 24, 222), 7)
    v.ball((84, 46, 186), 21)
    v.ball((-128, 4, 186), 21)
    v.rod((-128, 4, 120), (-128, 4, 166), 3.4)
    v.turned((-128, 4, 84), "z", [(0, 4), (4, 6.5), (26, 7.5), (36, 4)])
    return v.drawing


@pictures("TY.1984.21")
def power_press() -> Drawing:
    v = View(36, 15, portrait=True)
    v.shadow(-40, 60, 0, 100)
    for x in (-56, 36):
        v.cheek([(0, 0), (94, 0), (88, 30), (78, 60), (80, 170), (70, 196), (30, 196), (14, 176), (14, 122), (38, 112),
                 (40, 84), (10, 76), (4, 30)], x, 18)
        if x < 0:
            v.block(-38, 40, 4, 74, 44, 60)
            v.block(-38, 62, 112, 74, 10, 70)
    v.rod((-66, 44, 164), (-38, 44, 164), 7)
    v.rod((-38, 44, 164), (36, 44, 164), 9)
    v.rod((-16, 44, 164), (14, 44, 164), 17)
    v.block(-16, 30, 116, 30, 26, 40)
    v.block(-26, 24, 98, 50, 36, 26)
    v.rod((-1, 40, 86), (-1, 40, 98), 8, tone="brass")
    v.block(-40, 0, 66, 80, 66, 10)
    v.block(-22, 14, 76, 42, 40, 7, "brass")
    v.face([(-70, 30, 83.4), (-23, 30, 83.4), (-23, 44, 83.4), (-70, 44, 83.4)], "brass", 0)
    v.cheek([(0, 0), (94, 0), (88, 30), (78, 60), (80, 170), (70, 196), (30, 196), (14, 176), (14, 122), (38, 112),
             (40, 84), (10, 76), (4, 30)], 36, 18)
    v.rod((54, 44, 164), (64, 44, 164), 11)
    v.wheel((76, 44, 164), "x", 58, 20, 10, 6, 11, curved=True)
    v.block(-20, -26, 8, 36, 22, 4)
    v.rope([(-2, -6, 12), (-2, 20, 18), (30, 30, 20)], 2.6, twisted=False)
    return v.drawing


@pictures("TY.1984.14")
def clipping_press() -> Drawing:
    v = View(34, 15, portrait=True)
    v.shadow(-30, 44, 0, 80)
    side = [(0, 0), (80, 0), (72, 20), (66, 60), (70, 150), (60, 176), (20, 180), (6, 166), (6, 128), (34, 116),
            (38, 92), (30, 78), (0, 74), (4, 20)]
    v.block(-46, -8, -8, 92, 96, 8)
    v.cheek(side, -26, 52)
    v.rod((-44, 36, 156), (-26, 36, 156), 9)
    v.block(-20, 0, 112, 40, 12, 42)
    v.rod((0, 6, 152), (0, -2, 152), 8)
    v.block(-11, -4, 100, 22, 16, 44)
    v.rod((0, 4, 90), (0, 4, 100), 7, tone="brass")
    v.block(-30, -16, 74, 60, 46, 6)
    v.block(-16, -10, 80, 32, 30, 5, "brass")
    v.drawing.area(v.flat(around((0, 4, 85.2), "z", 8)), "ink", 0, weight=1.5)
    for x in (-26, 26):
        v.line([(x, -16, 80), (x, -16, 108)], 2)
    for z in (84, 90, 96, 102, 108):
        v.line([(-26, -16, z), (26, -16, z)], 1.6)
    v.rod((26, 36, 156), (36, 36, 156), 9)
    v.wheel((48, 36, 156), "x", 46, 14, 8, 5, 9, curved=True)
    v.rod((56, 36, 156), (66, 36, 156), 16)
    for y in (21, 51):
        v.face([(57, y, 158), (65, y, 158), (65, y, 218), (57, y, 218)], "paper", 2 if y > 36 else 0)
    return v.drawing


@pictures("TY.1984.22")
def sweep_guard() -> Drawing:
    v = View(24, 20)
    d = v.drawing
    for x in (-84, 64):
        v.line([(x, 40, 0), (x, 40, 118)], 1.2)
        v.line([(x + 22, 40, 0), (x + 22, 40, 118)], 1.2)
    v.line([(-84, 40, 118), (86, 40, 118)], 1.2)
    v.block(-66, 4, -10, 132, 56, 10)
    v.rod((0, 34, 0), (0, 34, 8), 16)
    v.rod((0, 34, 32), (0, 34, 118), 9)
    v.block(-88, 12, 92, 26, 22, 16)
    v.rod((-75, 6, 100), (-75, 14, 100), 9)
    arm = spline(v.flat([(-75, 2, 100), (-72, -10, 70), (-52, -22, 44), (-16, -26, 30)]))
    lay_rope(d, arm, 5.4, "brass", twisted=False)
    v.rod((-20, -26, 28), (44, -20, 28), 9, tone="brass")
    for x in range(-12, 44, 12):
        v.line(around((x, -25 + x * 0.09, 28), "x", 9, 60, 240), 1.3)
    v.rod((-75, 0, 100), (-75, -6, 100), 5)
    v.rod((-75, 2, 112), (-10, 20, 128), 2.4)
    v.rod((-10, 14, 128), (-10, 30, 128), 5)
    sweep = v.flat(around((-75, -6, 100), "y", 84, 60, 112, 60))
    for n in range(0, len(sweep) - 1, 2):
        d.line(sweep[n:n + 2], 1.3)
    return d
