"""The rolling shop's machines and the plating dynamo."""

from __future__ import annotations

import math

from making.draw_objects.catalogue import pictures
from making.draw_objects.hand import Drawing
from making.draw_objects.solids import Space, View, around


def bolts(v: View, spots: list[Space], radius: float, axis: str = "y") -> None:
    for spot in spots:
        v.drawing.area(v.flat(around(spot, axis, radius, count=24)), "paper", 0, weight=1.6)


def hand_wheel(v: View, centre: Space, radius: float) -> None:
    """A rim on a screw, seen from the side and above."""
    v.wheel(centre, "z", radius, radius * 0.16, radius * 0.16, 5, radius * 0.16)


@pictures("TY.1984.5")
def breaking_down_rolls() -> Drawing:
    v = View(26, 17)
    v.shadow(-150, 100, 0, 80)
    v.block(-160, -4, 0, 262, 88, 14)
    v.cheek([(10, 14), (70, 14), (70, 92), (58, 112), (22, 112), (10, 92)], -150, 44)
    bolts(v, [(-143, 10, 22), (-113, 10, 22), (-143, 10, 90), (-113, 10, 90)], 3)
    for z in (54, 97):
        v.rod((-106, 40, z), (-60, 40, z), 7)
        v.rod((-92, 40, z), (-76, 40, z), 11)
    _housing(v, -62)
    v.rod((-30, 40, 54), (32, 40, 54), 21)
    sheet = [(-22, 40, 75.6), (24, 40, 75.6), (24, -44, 75.6), (-22, -44, 75.6)]
    v.face(sheet, "brass", 0)
    bend = [(y, 75.6 - (abs(y + 44) / 30) ** 2 * 9) for y in (-44, -54, -64, -74, -84, -90)]
    v.face([(-22, y, z) for y, z in bend] + [(24, y, z) for y, z in reversed(bend)], "brass", 1)
    v.rod((-30, 40, 97), (32, 40, 97), 21)
    _housing(v, 32)
    for x in (-47, 47):
        v.rod((x, 40, 134), (x, 40, 160), 6)
        hand_wheel(v, (x, 40, 162), 27)
    return v.drawing


def _housing(v: View, x: float) -> None:
    v.block(x - 5, 2, 14, 40, 76, 12)
    v.block(x, 10, 26, 30, 60, 96)
    v.block(x - 3, 6, 122, 36, 68, 12)
    v.face([(x + 7, 9.9, 42), (x + 23, 9.9, 42), (x + 23, 9.9, 112), (x + 7, 9.9, 112)], "paper", 1)
    bolts(v, [(x + 1, 1.9, 20), (x + 29, 1.9, 20)], 2.6)


@pictures("TY.1984.6")
def slitting_shears() -> Drawing:
    v = View(30, 22)
    v.shadow(-66, 66, 0, 70)
    for x in (-62, 50):
        v.cheek([(2, 0), (12, 0), (18, 30), (52, 30), (58, 0), (68, 0), (60, 62), (10, 62)], x, 12)
        if x < 0:
            v.block(-62, 6, 18, 124, 8, 6)
            v.face([(-40, 120, 82), (40, 120, 82), (40, 34, 82), (-40, 34, 82)], "brass", 0)
    v.block(-66, 4, 62, 132, 60, 8)
    v.block(-62, 22, 70, 14, 26, 36)
    for z in (76, 91):
        v.rod((-48, 35, z), (48, 35, z), 3.4)
    _cutters(v, 76)
    for n in range(5):
        x = -40 + n * 16.4
        drop = [(34, 82), (4, 82), (-20, 80 - n % 2 * 2), (-44, 72 - n % 2 * 5), (-62, 58 - n % 3 * 5)]
        v.face([(x, y, z) for y, z in drop] + [(x + 13, y, z) for y, z in reversed(drop)], "brass", 0)
    _cutters(v, 93)
    v.block(48, 22, 70, 14, 26, 36)
    v.gear((70, 35, 76), "x", 10, 7, 20)
    v.gear((70, 35, 93), "x", 10, 7, 20)
    v.rod((74, 35, 93), (84, 35, 93), 3)
    v.cheek([(32, 90), (38, 90), (38, 128), (32, 128)], 84, 5)
    v.rod((89, 35, 124), (106, 35, 124), 3.6)
    return v.drawing


def _cutters(v: View, z: float) -> None:
    for n in range(6):
        x = -44 + n * 16.4
        v.rod((x, 35, z), (x + 4.5, 35, z), 10.5)


@pictures("TY.1985.8")
def plating_dynamo() -> Drawing:
    v = View(32, 20)
    v.shadow(-62, 90, 0, 62)
    v.block(-64, -6, 0, 160, 78, 9)
    v.rod((-74, 33, 46), (-58, 33, 46), 5)
    v.wheel((-72, 33, 46), "x", 25, 16, 6, 5)
    for x in (-52, 30):
        v.cheek([(0, 9), (66, 9), (66, 30), (58, 36), (58, 66), (46, 78), (20, 78), (8, 66), (8, 36), (0, 30)], x, 12)
        if x < 0:
            v.rod((-40, 33, 46), (30, 33, 46), 29)
            for z in (14, 79):
                v.block(-40, 8, z - 3, 70, 50, 11)
                for n in range(11):
                    v.line([(-37 + n * 6.4, 7.9, z - 3), (-37 + n * 6.4, 7.9, z + 8)], 1.4)
    v.rod((42, 33, 46), (52, 33, 46), 8)
    v.rod((50, 33, 46), (76, 33, 46), 19, tone="brass")
    for n in range(9):
        a = math.radians(150 + n * 22)
        spot = (33 - 19 * math.sin(a) * 1.0, 46 + 19 * math.cos(a))
        if v.near((0, spot[0] - 33, spot[1] - 46)) > 2:
            v.line([(50, *spot), (76, *spot)], 1.3)
    for y, z in ((10, 52), (33, 68)):
        v.block(54, y - 5, z - 2, 18, 9, 12, "brass")
    v.rod((76, 33, 46), (80, 33, 46), 10)
    v.block(80, 27, 9, 10, 14, 44)
    v.rod((92, 33, 46), (101, 33, 46), 5)
    v.rope([(60, 8, 62), (66, -14, 68), (86, -26, 40), (96, -30, 4), (130, -34, 1)], 3.4, twisted=False)
    v.rope([(66, 30, 80), (84, 20, 92), (112, 4, 60), (118, -4, 8), (142, -10, 1)], 3.4, twisted=False)
    return v.drawing
