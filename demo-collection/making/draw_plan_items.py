"""What stands where in the demo building: machines, benches, racks and vats."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from making.draw_plan_machines import (
    anvil,
    barrel,
    bench,
    bench_with_vices,
    book_shelves,
    brine_tub,
    carding_bench,
    check_board,
    clipping_press,
    coils,
    counter,
    crates,
    desk,
    dip_pots,
    drop_stamp,
    dust_bags,
    dynamo,
    fly_press,
    forge,
    gilding_hearth,
    hoods,
    muffle,
    plating_vats,
    power_press,
    rack,
    recorder,
    rolls,
    safe,
    scales_table,
    scrap_truck,
    settling_chamber,
    shelves,
    slitter,
    solder_bench,
    spindles,
    stamp_pair,
    trough,
    vats,
    wages_hatch,
)
from making.draw_plan_pen import Pen


@dataclass(frozen=True)
class Placed:
    """A drawing put on a floor: where its corner stands, how far it is turned, the box it fills."""

    ident: str
    title: str
    floor: str
    draw: Callable[[Pen], None]
    at: tuple[float, float]
    size: tuple[float, float, float, float]
    turn: int = 0


def long_rack(pen: Pen) -> None:
    rack(pen, 850)


def short_rack(pen: Pen) -> None:
    rack(pen, 640)


ITEMS = (
    Placed("machine-TY.1984.5", "Breaking-down rolls", "ground", rolls, (70, 590), (0, -18, 290, 256)),
    Placed("machine-TY.1984.6", "Slitting shears", "ground", slitter, (150, 1020), (0, 0, 210, 150)),
    Placed("object-coils", "Strip in coils", "ground", coils, (712, 570), (0, 0, 80, 330)),
    Placed("object-TY.1984.30", "Annealing muffle", "ground", muffle, (10, 60), (0, 0, 286, 230)),
    Placed("object-TY.1984.32", "Quench trough", "ground", trough, (560, 24), (0, -14, 190, 78)),
    Placed("object-TY.1984.41", "Pickle vats", "ground", vats, (840, 14), (0, 0, 374, 96)),
    Placed("object-dip-pots", "Bright dip pots", "ground", dip_pots, (1500, 66), (0, 0, 92, 380)),
    Placed("object-TY.1984.3", "Check board", "ground", check_board, (180, 1260), (0, 0, 240, 20)),
    Placed("object-TY.1984.2", "Time recorder", "ground", recorder, (585, 1258), (0, 0, 70, 58)),
    Placed("object-counter", "Gatekeeper's counter", "ground", counter, (290, 1620), (0, 0, 240, 50)),
    Placed("object-press-bench", "Press hands' bench", "ground", bench, (1690, 1700), (0, 0, 1060, 70)),
    Placed("object-fly-press-4", "Fly press", "ground", fly_press, (1720, 1622), (-12, 0, 124, 116)),
    Placed("object-fly-press-5", "Fly press", "ground", fly_press, (1890, 1622), (-12, 0, 124, 116)),
    Placed("object-fly-press-6", "Fly press", "ground", fly_press, (2060, 1622), (-12, 0, 124, 116)),
    Placed("machine-TY.1984.20", "Fly press No. 7", "ground", fly_press, (2230, 1622), (-12, 0, 124, 116)),
    Placed("object-fly-press-8", "Fly press", "ground", fly_press, (2400, 1622), (-12, 0, 124, 116)),
    Placed("object-fly-press-9", "Fly press", "ground", fly_press, (2570, 1622), (-12, 0, 124, 116)),
    Placed("machine-TY.1984.21", "Power press", "ground", power_press, (2870, 1560), (0, 0, 196, 190)),
    Placed("object-power-press-2", "Power press", "ground", power_press, (3140, 1560), (0, 0, 196, 190)),
    Placed("object-scrap-truck", "Scrap truck", "ground", scrap_truck, (3110, 1130), (0, -12, 190, 114)),
    Placed("object-crates", "Blank boxes", "ground", crates, (1330, 1030), (0, 0, 176, 148)),
    Placed("machine-TY.1984.12", "Drop stamp No. 3", "ground", drop_stamp, (1780, 80), (0, -6, 150, 234)),
    Placed("object-stamp-4", "Drop stamp", "ground", drop_stamp, (2060, 80), (0, -6, 150, 234)),
    Placed("machine-TY.1984.13", "Counterbalanced pair of stamps", "ground", stamp_pair, (2310, 80),
           (0, -16, 320, 196)),
    Placed("object-stamp-7", "Drop stamp", "ground", drop_stamp, (2790, 80), (0, -6, 150, 234)),
    Placed("object-stamp-8", "Drop stamp", "ground", drop_stamp, (3060, 80), (0, -6, 150, 234)),
    Placed("machine-TY.1984.14", "Clipping press", "ground", clipping_press, (3120, 540), (0, 0, 162, 148)),
    Placed("object-clip-bench", "Badge bench", "ground", counter, (2780, 930), (0, 0, 240, 50)),
    Placed("object-TY.1985.9", "Plating vats with rods", "upper", plating_vats, (2400, 40), (-12, 0, 458, 120)),
    Placed("machine-TY.1985.8", "Plating dynamo", "upper", dynamo, (2900, 44), (-8, 0, 164, 110)),
    Placed("object-TY.1985.3", "Fire-gilding hearth and hood", "upper", gilding_hearth, (3238, 130),
           (-20, 0, 170, 250)),
    Placed("object-rinse", "Rinsing troughs", "upper", trough, (3060, 820), (0, -14, 190, 78)),
    Placed("machine-TY.1986.9", "Burnishing barrel", "upper", barrel, (3180, 1060), (-8, 8, 206, 164)),
    Placed("machine-TY.1986.2", "Polishing spindles", "upper", spindles, (2520, 1560), (-16, 62, 492, 70)),
    Placed("object-TY.1986.4", "Dust hoods", "upper", hoods, (2520, 1696), (0, 0, 470, 88)),
    Placed("object-solder-bench", "Soldering bench", "upper", solder_bench, (1612, 50), (0, 0, 128, 520)),
    Placed("object-carding-bench", "Carding bench", "upper", carding_bench, (1480, 1480), (0, 0, 640, 154)),
    Placed("object-shelves", "Shelves of boxes", "upper", shelves, (1420, 1736), (0, 0, 760, 56)),
    Placed("object-sinking-bench", "Die sinker's bench", "upper", bench_with_vices, (40, 508), (0, 0, 560, 96)),
    Placed("object-forge", "Hardening hearth", "upper", forge, (14, 960), (0, 0, 190, 236)),
    Placed("object-anvil", "Anvil", "upper", anvil, (240, 1030), (0, 0, 100, 44)),
    Placed("object-brine", "Brine tub", "upper", brine_tub, (250, 1130), (0, 0, 80, 80)),
    Placed("object-pattern-shelves", "Shelves of pattern books", "upper", book_shelves, (8, 1330), (0, 0, 46, 360)),
    Placed("object-desk", "Clerk's desk", "upper", desk, (320, 1560), (0, 0, 200, 148)),
    Placed("object-wages-hatch", "Wages hatch", "upper", wages_hatch, (734, 1590), (0, 0, 84, 150)),
    Placed("object-die-rack-north", "Die rack", "cellar", long_rack, (1380, 1010), (0, 0, 850, 70)),
    Placed("object-die-rack-south", "Die rack", "cellar", long_rack, (1380, 1720), (0, 0, 850, 70)),
    Placed("object-die-rack-middle", "Die rack", "cellar", short_rack, (1480, 1330), (0, 0, 640, 70)),
    Placed("object-settling-chamber", "Settling chamber", "cellar", settling_chamber, (2840, 1030), (0, 0, 528, 330)),
    Placed("object-TY.1986.5", "Dust bags", "cellar", dust_bags, (3060, 1590), (0, 0, 204, 128)),
    Placed("object-TY.1988.7", "Metal scales", "cellar", scales_table, (220, 1660), (0, 20, 220, 80)),
    Placed("object-safe", "Safe", "cellar", safe, (20, 1400), (0, 0, 176, 110)),
)
