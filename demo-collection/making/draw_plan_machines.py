"""Machines, benches and vats of the demo building seen from above, each on its own small piece of paper."""

from __future__ import annotations

from making.draw_plan_pen import Pen


def rolls(p: Pen) -> None:
    p.rect(0, 50, 44, 120)
    p.rect(126, 50, 44, 120)
    p.rect(44, 72, 82, 76)
    p.line(44, 92, 126, 92, width=1.5)
    p.line(44, 128, 126, 128, width=1.5)
    for x in (22, 148):
        p.circle(x, 110, 15)
        p.circle(x, 110, 5, width=2)
        p.line(x - 15, 110, x + 15, 110, width=1.5)
    p.rect(170, 98, 30, 24)
    p.rect(200, 60, 22, 100)
    p.ticks(200, 60, 22, 100, 14)
    p.rect(226, 84, 22, 52)
    p.ticks(226, 84, 22, 52, 8)
    p.rect(252, 20, 18, 180)
    p.line(222, 110, 290, 110, width=1.5, dash="16 5 4 5")
    p.rect(56, 0, 58, 50, width=2)
    p.rect(56, 170, 58, 50, width=2)
    p.line(70, -18, 70, 238, width=1.5)
    p.line(100, -18, 100, 238, width=1.5)


def slitter(p: Pen) -> None:
    p.rect(0, 10, 26, 90)
    p.rect(144, 10, 26, 90)
    p.rect(26, 40, 118, 12, width=2)
    p.rect(26, 62, 118, 12, width=2)
    for n in range(5):
        p.rect(40 + n * 20, 28, 7, 58, width=2)
    p.rect(170, 20, 14, 70)
    p.ticks(170, 20, 14, 70, 10)
    p.circle(205, 55, 4, width=2)
    p.path("M184 55 H205 V5", width=4)
    p.rect(34, 100, 102, 46, width=2)
    p.ticks(34, 100, 102, 46, 5)


def muffle(p: Pen) -> None:
    p.rect(0, 0, 280, 230, width=4)
    p.rect(14, 14, 252, 202, width=1.5)
    p.path("M266 62 H110 A53 53 0 0 0 110 168 H266", dash="10 6")
    p.rect(266, 50, 20, 130)
    p.circle(276, 115, 6, width=2)
    p.rect(30, 90, 50, 50)
    p.line(30, 90, 80, 140)
    p.line(80, 90, 30, 140)
    p.rect(130, 82, 96, 66, r=6, width=2)
    for y in (38, 192):
        p.ticks(100, y - 8, 150, 16, 6, width=1.2)


def trough(p: Pen) -> None:
    p.rect(0, 0, 190, 62, width=4)
    p.rect(9, 9, 172, 44, width=2)
    p.path("M24 24 q8 -8 16 0 t16 0 M92 36 q8 -8 16 0 t16 0 M134 24 q8 -8 16 0 t16 0", width=1.5)
    p.circle(176, -8, 6, width=2)


def vats(p: Pen) -> None:
    for n in range(3):
        x = n * 130
        p.rect(x, 0, 114, 96, width=4)
        p.rect(x + 10, 10, 94, 76, width=2)
        p.line(x, 30, x + 10, 30)
        p.line(x, 66, x + 10, 66)
    p.path("M24 34 q8 -8 16 0 t16 0 M160 60 q8 -8 16 0 t16 0 M296 36 q8 -8 16 0 t16 0", width=1.5)
    p.line(140, 48, 234, 48, width=5)


def dip_pots(p: Pen) -> None:
    p.rect(0, 0, 92, 380)
    for n in range(4):
        y = 50 + n * 93
        p.circle(46, y, 38)
        p.circle(46, y, 29, width=2)
    p.line(0, 96, 92, 96, width=1.5)
    p.line(0, 190, 92, 190, width=1.5)
    p.line(0, 283, 92, 283, width=1.5)


def fly_press(p: Pen) -> None:
    p.rect(12, 26, 76, 88, width=2)
    p.path("M36 114 V70 Q36 40 50 40 Q64 40 64 70 V114")
    p.circle(50, 66, 13)
    p.circle(50, 66, 5, width=2)
    p.line(6, 46, 94, 86, width=7)
    p.circle(4, 45, 15)
    p.circle(96, 87, 15)
    p.rect(32, 2, 36, 24, width=2)


def power_press(p: Pen) -> None:
    p.rect(20, 20, 130, 170, width=2)
    p.rect(34, 60, 26, 120)
    p.rect(110, 60, 26, 120)
    p.rect(0, 92, 170, 26)
    p.rect(170, 30, 26, 150, width=4)
    p.line(183, 30, 183, 180, width=1.5)
    p.circle(85, 105, 22)
    p.circle(85, 105, 8, width=2)
    p.rect(60, 18, 50, 44)
    p.circle(85, 40, 12, width=2)
    p.path("M20 20 A92 92 0 0 1 150 20", width=2.5, dash="10 6")


def scrap_truck(p: Pen) -> None:
    p.rect(0, 0, 150, 90, r=8, width=4)
    p.rect(10, 10, 130, 70, r=4, width=1.5)
    p.path("M150 25 H190 V65 H150", width=3)
    for x in (24, 104):
        p.rect(x, -12, 26, 10, r=3, width=2)
        p.rect(x, 92, 26, 10, r=3, width=2)
    p.path("M18 62 L120 20 M24 70 L128 32 M20 34 L126 66", width=2)
    for x, y in ((44, 51), (68, 41), (92, 32), (52, 44), (84, 54), (106, 60)):
        p.circle(x, y, 6, width=1.5)


def drop_stamp(p: Pen) -> None:
    p.rect(10, 30, 130, 150, width=4)
    p.rect(30, 60, 90, 90, width=2)
    p.rect(52, 82, 46, 46)
    p.circle(75, 105, 14, width=2)
    for x in (14, 120):
        p.rect(x, 90, 16, 30, width=4)
    p.rect(0, 8, 150, 14)
    p.circle(75, 4, 5, width=2)
    p.rect(60, -6, 30, 42, width=2, dash="8 5")
    p.line(75, 36, 75, 82, width=1.5, dash="8 5")
    p.path("M75 180 V214 q0 14 -14 14 h-8", width=2)


def stamp_pair(p: Pen) -> None:
    for x in (0, 170):
        p.rect(x + 10, 30, 130, 150, width=4)
        p.rect(x + 30, 60, 90, 90, width=2)
        p.rect(x + 52, 82, 46, 46)
        for side in (14, 120):
            p.rect(x + side, 90, 16, 30, width=4)
    p.rect(0, 8, 320, 14)
    p.line(75, 4, 245, 4, width=2, dash="16 5 4 5")
    for x in (75, 245):
        p.rect(x - 9, -16, 18, 40, width=2)
        p.line(x, 24, x, 82, width=1.5, dash="8 5")


def clipping_press(p: Pen) -> None:
    p.rect(20, 10, 100, 130, width=2)
    p.path("M36 140 V70 Q36 40 70 40 Q104 40 104 70 V140")
    p.rect(0, 78, 140, 20)
    p.rect(140, 28, 22, 120, width=4)
    p.line(151, 28, 151, 148, width=1.5)
    p.circle(70, 62, 14)
    p.rect(46, 0, 48, 30, width=2)
    p.circle(70, 14, 9, width=2)


def dynamo(p: Pen) -> None:
    p.rect(0, 10, 90, 90, r=10, width=4)
    p.rect(20, 0, 50, 110, width=2)
    p.ticks(20, 0, 50, 110, 8, width=1.2)
    p.rect(90, 38, 30, 34, width=2)
    p.ticks(90, 38, 30, 34, 6, width=1.2)
    p.rect(128, 30, 18, 50)
    p.line(-8, 55, 156, 55, width=1.5, dash="16 5 4 5")


def plating_vats(p: Pen) -> None:
    for n in range(3):
        x = n * 150
        p.rect(x, 0, 134, 100, width=4)
        p.rect(x + 9, 9, 116, 82, width=1.5)
        for y in (28, 50, 72):
            p.line(x - 6, y, x + 140, y, width=3)
        p.ticks(x + 12, 20, 110, 16, 7, width=1.2)
        p.ticks(x + 12, 64, 110, 16, 7, width=1.2)
    p.line(-12, 112, 446, 112, width=2)
    p.line(-12, 120, 446, 120, width=2)


def gilding_hearth(p: Pen) -> None:
    p.rect(0, 30, 150, 190, width=4)
    p.rect(20, 60, 90, 130, width=2)
    for x, y in ((40, 90), (62, 78), (84, 96), (50, 124), (78, 132), (96, 150), (44, 160), (70, 168)):
        p.circle(x, y, 9, width=1.5)
    p.path("M-20 0 H150 V250 H-20 Z", width=2, dash="12 7")
    p.path("M-20 0 L100 105 M-20 250 L100 145", width=1.5, dash="12 7")
    p.circle(118, 125, 24)


def barrel(p: Pen) -> None:
    p.rect(30, 20, 120, 100, width=4)
    for y in (38, 60, 82, 104):
        p.line(30, y, 150, y, width=1.5)
    p.rect(66, 58, 48, 26, width=3)
    p.rect(0, 56, 30, 28, width=2)
    p.rect(150, 56, 30, 28, width=2)
    p.rect(180, 26, 18, 88, width=3)
    p.rect(-8, 8, 24, 124, width=2)
    p.rect(160, 8, 16, 124, width=2)
    p.rect(26, 132, 128, 40, width=2)


def spindles(p: Pen) -> None:
    p.rect(0, 62, 460, 70)
    for n in range(3):
        x = 20 + n * 150
        p.rect(x + 30, 78, 60, 38, r=6, width=3)
        p.path(f"M{x + 30} 97 H{x - 2} M{x + 90} 97 H{x + 122}", width=4)
        for side in (x + 4, x + 102):
            p.rect(side, 70, 14, 54, r=5, width=3)
    p.line(-16, 97, 476, 97, width=1.2, dash="16 5 4 5")


def hoods(p: Pen) -> None:
    for n in range(3):
        for x in (31 + n * 150, 129 + n * 150):
            p.path(f"M{x - 22} 0 L{x - 12} 34 H{x + 12} L{x + 22} 0 Z", width=2.5)
            p.line(x, 34, x, 66, width=2)
    p.rect(0, 66, 470, 22, width=2.5)


def settling_chamber(p: Pen) -> None:
    p.rect(0, 0, 520, 330, width=5)
    p.rect(14, 14, 492, 302, width=1.5)
    p.line(140, 14, 140, 230, width=4)
    p.line(265, 100, 265, 316, width=4)
    p.line(390, 14, 390, 230, width=4)
    p.path("M70 60 V250 Q70 280 100 280 H170 Q200 280 200 250 V80 Q200 50 230 50 H300 Q330 50 330 80 V250"
           " Q330 280 360 280 H420 Q450 280 450 250 V120 M440 138 L450 116 L460 138", width=1.5, dash="12 7")
    p.circle(70, 44, 26)
    p.rect(506, 90, 22, 120)


def dust_bags(p: Pen) -> None:
    for x, y in ((36, 36), (104, 30), (172, 38), (70, 96), (140, 98)):
        p.circle(x, y, 30)
        p.path(f"M{x - 8} {y - 6} q8 10 16 0 M{x - 10} {y + 4} q10 8 20 0", width=1.5)


def rack(p: Pen, length: float = 420) -> None:
    p.rect(0, 0, length, 70)
    p.line(0, 35, length, 35, width=1.5)
    count = int(length // 42)
    for n in range(count):
        x = 24 + n * 42
        for y in (18, 53):
            p.rect(x - 11, y - 11, 22, 22, width=1.5)
            p.circle(x, y, 6, width=1.2)


def scales_table(p: Pen) -> None:
    p.rect(0, 20, 220, 80)
    p.rect(94, 40, 32, 40, width=2)
    p.line(40, 60, 180, 60, width=4)
    p.circle(40, 60, 28)
    p.circle(180, 60, 28)


def safe(p: Pen) -> None:
    p.rect(0, 0, 130, 110, width=5)
    p.rect(14, 14, 102, 82, width=2)
    p.path("M130 8 L176 40", width=4)
    p.circle(65, 55, 14, width=2)


def check_board(p: Pen) -> None:
    p.rect(0, 0, 240, 20, width=3)
    for n in range(12):
        p.circle(16 + n * 19, 10, 5, width=1.5)


def recorder(p: Pen) -> None:
    p.rect(0, 0, 70, 44, width=3)
    p.circle(35, 22, 16, width=2)
    p.path("M35 22 V11 M35 22 H43", width=2)
    p.rect(18, 44, 34, 14, width=2)


def counter(p: Pen) -> None:
    p.rect(0, 0, 240, 50)
    p.line(0, 14, 240, 14, width=1.5)
    p.rect(96, 14, 50, 26, width=1.5)


def bench_with_vices(p: Pen) -> None:
    p.rect(0, 0, 560, 62)
    p.line(0, 50, 560, 50, width=1.5)
    for x in (90, 260, 430):
        p.rect(x - 16, 50, 32, 24, width=3)
        p.line(x, 74, x, 96, width=4)
        p.line(x - 18, 92, x + 18, 92, width=3)
        p.circle(x + 60, 26, 13, width=2)
    for x in (30, 40, 50, 190, 200, 210, 360, 370):
        p.line(x, 14, x, 42, width=2)


def forge(p: Pen) -> None:
    p.rect(0, 0, 190, 170, width=4)
    p.path("M46 56 H150 V126 H46 Z", width=2)
    for x, y in ((66, 76), (90, 70), (118, 80), (78, 102), (104, 106), (132, 106)):
        p.circle(x, y, 9, width=1.5)
    p.path("M0 0 L60 60 M0 170 L60 112", width=1.5, dash="12 7")
    p.path("M40 190 L70 190 L78 236 L32 236 Z", width=3)
    p.line(55, 170, 55, 190, width=4)


def anvil(p: Pen) -> None:
    p.path("M0 14 Q26 0 46 4 H100 V40 H46 Q26 44 0 28 Z")
    p.rect(82, 12, 10, 10, width=1.5)


def brine_tub(p: Pen) -> None:
    p.circle(40, 40, 40)
    p.circle(40, 40, 32, width=1.5)
    p.path("M20 40 q8 -8 16 0 t16 0", width=1.5)


def solder_bench(p: Pen) -> None:
    p.rect(0, 0, 76, 520)
    for n in range(4):
        y = 65 + n * 130
        p.rect(20, y - 20, 30, 40, width=2)
        p.path(f"M60 {y + 34} Q64 {y + 6} 50 {y}", width=2)
        p.circle(108, y, 20, width=2)
    p.line(10, 0, 10, 520, width=1.5)


def desk(p: Pen) -> None:
    p.rect(0, 0, 200, 100)
    p.rect(30, 24, 60, 46, width=1.5)
    p.line(60, 24, 60, 70, width=1.5)
    p.circle(150, 40, 12, width=2)
    p.rect(78, 108, 46, 40, r=10, width=2)


def book_shelves(p: Pen) -> None:
    p.rect(0, 0, 46, 360)
    p.ticks(0, 0, 46, 360, 18)


def wages_hatch(p: Pen) -> None:
    p.rect(0, 0, 60, 150)
    p.rect(48, 40, 36, 70, width=3)
    p.rect(12, 20, 30, 40, width=1.5)
    p.rect(12, 84, 30, 30, width=1.5)


def carding_bench(p: Pen) -> None:
    p.rect(0, 0, 640, 110)
    for n in range(5):
        x = 30 + n * 124
        p.rect(x, 16, 60, 42, width=1.5)
        for row in range(3):
            for column in range(4):
                p.circle(x + 9 + column * 14, 24 + row * 13, 3.5, width=1.2)
        p.circle(x + 84, 38, 14, width=2)
        p.circle(x + 30, 134, 20, width=2)


def shelves(p: Pen) -> None:
    p.rect(0, 0, 760, 56)
    p.ticks(0, 0, 760, 56, 12)
    p.line(0, 28, 760, 28, width=1.2)


def coils(p: Pen) -> None:
    p.rect(0, 0, 80, 330, width=2)
    for n in range(4):
        y = 44 + n * 80
        for r in (33, 27, 21, 12):
            p.circle(40, y, r, width=2)


def bench(p: Pen) -> None:
    p.rect(0, 0, 1060, 70)
    p.line(0, 12, 1060, 12, width=1.5)


def crates(p: Pen) -> None:
    for x, y in ((0, 0), (96, 8), (20, 84)):
        p.rect(x, y, 80, 64)
        p.line(x, y, x + 80, y + 64, width=1.2)
