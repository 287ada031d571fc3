"""The demo building in centimetres: rooms, doors, windows, ways between floors and stations.

0,0 is the north-west corner of the building; x runs east, y runs south.
"""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
Segment = tuple[float, float, float, float]

LENGTH, DEPTH, MARGIN = 3400.0, 1800.0, 100.0


@dataclass(frozen=True)
class Floor:
    ref: str
    name: str
    level: int


@dataclass(frozen=True)
class Room:
    ref: str
    name: str
    floor: str
    corners: tuple[Point, ...]
    label: Point
    capacity: int
    note: str = ""


@dataclass(frozen=True)
class Door:
    ref: str
    floor: str
    rooms: tuple[str, str]
    line: Segment
    width_m: float
    headroom_m: float = 2.0
    step_mm: int = 0
    one_way: bool = False
    note: str = ""


@dataclass(frozen=True)
class Station:
    number: int
    ref: str
    name: str
    room: str
    at: Point
    summary: str
    seats: bool = False
    quiet: bool = False


@dataclass(frozen=True)
class Passage:
    """A stair, lift or ramp; each end is a room and the rectangle (x, y, width, height) you arrive on."""

    ref: str
    kind: str
    name: str
    width_m: float
    ends: tuple[tuple[str, Segment], tuple[str, Segment]]
    steps: int = 0
    rise_mm: int = 0
    length_m: float = 0
    capacity: int = 0
    cycle_s: int = 0
    note: str = ""


@dataclass(frozen=True)
class Amenity:
    ref: str
    kind: str
    room: str
    box: Segment


def box(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


FLOORS = (
    Floor("cellar", "Cellar", -1),
    Floor("ground", "Ground floor", 0),
    Floor("upper", "Upper floor", 1),
)

L_SHAPE_BY_YARD = ((1600.0, 0.0), (3400.0, 0.0), (3400.0, 1000.0), (1300.0, 1000.0), (1300.0, 600.0), (1600.0, 600.0))
SHANKING = ((1600.0, 0.0), (2300.0, 0.0), (2300.0, 1000.0), (1300.0, 1000.0), (1300.0, 600.0), (1600.0, 600.0))

ROOMS = (
    Room("cellar-foot", "Cellar foot", "cellar", box(800, 700, 1300, 1800), (1095, 1010), 6,
         "The stair is steep. The floor can be damp."),
    Room("strong-room", "Strong room", "cellar", box(0, 1250, 800, 1800), (400, 1365), 8,
         "One way in and out."),
    Room("die-store", "Die store", "cellar", box(1300, 1000, 2300, 1800), (1800, 1230), 14,
         "Low beams: 1.9 m."),
    Room("dust-cellar", "Dust cellar", "cellar", box(2300, 1000, 3400, 1800), (2620, 1200), 10,
         "Low doorway. Ask before anyone with a chest complaint goes in."),
    Room("time-office", "Time office", "ground", box(0, 1250, 800, 1800), (400, 1500), 16,
         "You come in here. Seats, toilet and first aid."),
    Room("cart-passage", "Cart passage", "ground", box(800, 600, 1300, 1800), (1005, 1300), 30,
         "Paved with setts. Stairs up and down, and the lift."),
    Room("rolling-shop", "Rolling shop", "ground", box(0, 500, 800, 1250), (545, 780), 15),
    Room("muffle-room", "Muffle room", "ground", box(0, 0, 800, 500), (300, 400), 12,
         "The muffle is kept cold. A step down to the yard."),
    Room("dipping-yard", "Dipping yard", "ground", box(800, 0, 1600, 600), (1150, 420), 15,
         "Open to the sky. Wet setts are slippery."),
    Room("press-shop", "Press shop", "ground", box(1300, 1000, 3400, 1800), (1950, 1260), 25),
    Room("stamp-shop", "Stamp shop", "ground", L_SHAPE_BY_YARD, (2040, 720), 25,
         "Loud when a stamp is run."),
    Room("landing", "Landing", "upper", box(800, 600, 1300, 1800), (990, 1240), 12,
         "Seats by the window."),
    Room("tool-room", "Tool room", "upper", box(0, 500, 800, 1250), (510, 870), 12,
         "A step up from the landing."),
    Room("shanking-shop", "Shanking shop", "upper", SHANKING, (1960, 760), 14),
    Room("plating-shop", "Plating shop", "upper", box(2300, 0, 3400, 900), (2720, 560), 15),
    Room("polishing-shop", "Polishing shop", "upper", box(2300, 900, 3400, 1800), (2700, 1260), 16),
    Room("warehouse", "Warehouse", "upper", box(1300, 1000, 2300, 1800), (1770, 1180), 20),
    Room("office", "Office", "upper", box(0, 1250, 800, 1800), (440, 1390), 12),
)

DOORS = (
    Door("d-strong", "cellar", ("cellar-foot", "strong-room"), (800, 1460, 800, 1545), 0.85, 1.85,
         note="An iron door, pinned open."),
    Door("d-die", "cellar", ("cellar-foot", "die-store"), (1300, 1540, 1300, 1640), 1.0, 1.85),
    Door("d-dust", "cellar", ("die-store", "dust-cellar"), (2300, 1500, 2300, 1570), 0.7, 1.7,
         note="Narrow and low. Mind your head."),
    Door("d-entrance", "ground", ("time-office", "outside"), (520, 1800, 640, 1800), 1.2, 2.1,
         note="The visitors' entrance, from Cinder Row."),
    Door("d-gate", "ground", ("cart-passage", "outside"), (900, 1800, 1160, 1800), 2.6, 2.8,
         note="The cart gate. A fire exit; kept shut otherwise."),
    Door("d-time-passage", "ground", ("time-office", "cart-passage"), (800, 1470, 800, 1570), 1.0, 2.0,
         note="The ramp begins at this doorway."),
    Door("d-rolling", "ground", ("cart-passage", "rolling-shop"), (800, 1130, 800, 1230), 1.0),
    Door("d-rolling-muffle", "ground", ("rolling-shop", "muffle-room"), (540, 500, 640, 500), 1.0),
    Door("d-muffle-yard", "ground", ("muffle-room", "dipping-yard"), (800, 330, 800, 420), 0.9, 1.95, 150,
         note="One step down to the yard."),
    Door("d-yard-passage", "ground", ("dipping-yard", "cart-passage"), (960, 600, 1090, 600), 1.3, 2.2,
         note="The level way to the yard."),
    Door("d-stamp", "ground", ("cart-passage", "stamp-shop"), (1300, 820, 1300, 940), 1.2),
    Door("d-press", "ground", ("cart-passage", "press-shop"), (1300, 1610, 1300, 1730), 1.2),
    Door("d-press-stamp", "ground", ("press-shop", "stamp-shop"), (2420, 1000, 2540, 1000), 1.2),
    Door("d-exit-yard", "ground", ("dipping-yard", "outside"), (1390, 0, 1490, 0), 1.0, 2.0,
         one_way=True, note="Fire exit. Out only."),
    Door("d-exit-stamp", "ground", ("stamp-shop", "outside"), (3400, 780, 3400, 880), 1.0, 2.0,
         one_way=True, note="Fire exit. Out only."),
    Door("d-exit-press", "ground", ("press-shop", "outside"), (3400, 1370, 3400, 1470), 1.0, 2.0,
         one_way=True, note="Fire exit. Out only."),
    Door("d-tool", "upper", ("landing", "tool-room"), (800, 850, 800, 940), 0.9, 1.95, 120,
         note="One step up to the tool room."),
    Door("d-office", "upper", ("landing", "office"), (800, 1430, 800, 1520), 0.9),
    Door("d-shanking", "upper", ("landing", "shanking-shop"), (1300, 830, 1300, 930), 1.0),
    Door("d-warehouse", "upper", ("landing", "warehouse"), (1300, 1610, 1300, 1710), 1.0),
    Door("d-shank-warehouse", "upper", ("shanking-shop", "warehouse"), (2080, 1000, 2180, 1000), 1.0),
    Door("d-shank-plating", "upper", ("shanking-shop", "plating-shop"), (2300, 420, 2300, 520), 1.0),
    Door("d-plating-polishing", "upper", ("plating-shop", "polishing-shop"), (2420, 900, 2520, 900), 1.0),
    Door("d-polishing-warehouse", "upper", ("polishing-shop", "warehouse"), (2300, 1240, 2300, 1340), 1.0),
)

STATIONS = (
    Station(1, "st-gate", "Check board", "time-office", (300, 1375),
            "Each hand took a numbered brass check from this board on the way in, and an empty nail meant that you had come.",
            seats=True, quiet=True),
    Station(2, "st-clock", "Time recorder", "time-office", (620, 1375),
            "A clock that stamped the minute on your card; two minutes late cost a quarter of an hour's pay.",
            seats=True, quiet=True),
    Station(3, "st-rolls", "Breaking-down rolls", "rolling-shop", (260, 900),
            "Two hard rolls squeeze cast bar thinner, pass by pass, until it grows too stiff to go on."),
    Station(4, "st-slitter", "Slitting shears", "rolling-shop", (480, 1090),
            "Round cutters slice the wide strip into ribbons a little broader than the blank to come."),
    Station(5, "st-muffle", "Annealing muffle", "muffle-room", (400, 190),
            "A closed brick chamber heats worked metal to a dull red, out of the flame, and makes it soft again."),
    Station(6, "st-quench", "Quench trough", "muffle-room", (655, 190),
            "Water cools the pan at once and cracks off some of the black scale with a noise you could hear in the yard."),
    Station(7, "st-pickle", "Pickle vats", "dipping-yard", (1030, 225),
            "Warm weak acid takes off the scale the fire leaves, so that the rolls and dies do not press it in."),
    Station(8, "st-dip", "Bright dip pots", "dipping-yard", (1385, 255),
            "A few seconds in strong acid, then water: the brass comes out bright, and the air goes brown."),
    Station(9, "st-fly-row", "Row of fly presses", "press-shop", (2230, 1520),
            "Here women cut blanks all day, one swing of the weighted arm for each. Sixteen thousand small ones were expected in a day."),
    Station(10, "st-power-press", "Power press with guard", "press-shop", (2960, 1450),
            "The press that did not wait for a hand, and the bar that swept your hand away before it came down."),
    Station(11, "st-skeleton", "Scrap truck and skeletons", "press-shop", (2960, 1165),
            "Strip with the blanks cut out is called skeleton; nearly a third of the metal went back this way."),
    Station(12, "st-drop-stamp", "Drop stamp No. 3", "stamp-shop", (1855, 395),
            "A falling weight, a rope and a man's foot: a light blow to bed the sheet, and then the blow that drives in the pattern."),
    Station(13, "st-double-stamp", "Counterbalanced pair", "stamp-shop", (2470, 395),
            "Two stamps share one drive, which carries half the weight of the tup that is being lifted."),
    Station(14, "st-clip", "Clipping and piercing press", "stamp-shop", (3000, 620),
            "The thin fringe round a struck badge is trimmed off here, and the openings are cut out."),
    Station(15, "st-die-rack", "Die rack", "die-store", (1800, 1500),
            "Eleven hundred or so steel dies, each a button or a badge turned inside out, stand on these shelves.",
            quiet=True),
    Station(16, "st-dust-box", "Settling chamber", "dust-cellar", (2660, 1480),
            "Air from the polishing wheels slowed down in this box and dropped its dust, and the dust was money.",
            quiet=True),
    Station(17, "st-scales", "Metal scales", "strong-room", (330, 1570),
            "What went out as strip had to come back as work and scrap, to the ounce.", quiet=True),
    Station(18, "st-sinking", "Die sinker's bench", "tool-room", (300, 700),
            "With gravers and punches the sinker cut each design into soft steel, backwards and inside out.",
            quiet=True),
    Station(19, "st-forge", "Hardening hearth", "tool-room", (450, 1090),
            "Weeks of carving were heated to cherry red and plunged in brine, and came out hard or cracked."),
    Station(20, "st-shank", "Soldering bench", "shanking-shop", (1850, 330),
            "A wire loop, a crumb of solder and a blue flame put the shank on the back of the button.",
            seats=True),
    Station(21, "st-gild", "Fire-gilding hearth and hood", "plating-shop", (3090, 260),
            "Gold was brushed on as a paste with mercury, and the mercury was driven off into the air by heat."),
    Station(22, "st-vats", "Plating vats and dynamo", "plating-shop", (2680, 290),
            "A few volts, a great many amperes and a cyanide bath laid on a skin of gold or silver thinner than a hair."),
    Station(23, "st-burnish", "Burnishing barrel", "polishing-shop", (3060, 1190),
            "Gilt buttons turned for hours with steel balls and soapy water until the gold was pressed bright."),
    Station(24, "st-spindles", "Polishing spindles and hoods", "polishing-shop", (2750, 1530),
            "Felt bobs at two thousand turns a minute, a trail of rouge, and a hood meant to take the dust."),
    Station(25, "st-cards", "Carding bench", "warehouse", (1790, 1370),
            "Finished buttons were sorted by eye and sewn to cards, paid by the gross.", seats=True, quiet=True),
    Station(26, "st-wages", "Wages hatch", "office", (630, 1660),
            "On Friday the week's pieces were turned into money and pushed through this hatch in a tin.",
            quiet=True),
    Station(27, "st-patterns", "Pattern books", "office", (190, 1510),
            "Buttons from 1868 to 1931 are sewn to these pages, with the number, customer, metal and finish of each.",
            seats=True, quiet=True),
)

PASSAGES = (
    Passage("main-stair", "stairs", "Main stair", 1.1,
            (("cart-passage", (1195, 1450, 100, 50)), ("landing", (1195, 965, 100, 50))),
            steps=18, rise_mm=178, note="A handrail on both sides."),
    Passage("cellar-stair", "stairs", "Cellar stair", 0.9,
            (("cart-passage", (805, 665, 90, 50)), ("cellar-foot", (805, 1130, 90, 50))),
            steps=14, rise_mm=185, note="Steep, with a low beam at 1.85 m. The lift does not go to the cellar."),
    Passage("hoist-lift", "lift", "Hoist lift", 0.9,
            (("cart-passage", (1140, 605, 155, 155)), ("landing", (1140, 605, 155, 155))),
            capacity=4, cycle_s=70, note="Room for one wheelchair and one helper, or four people standing."),
    Passage("gate-ramp", "ramp", "Gate ramp", 1.0,
            (("time-office", (740, 1475, 50, 90)), ("cart-passage", (955, 1475, 50, 90))),
            rise_mm=125, length_m=1.5, note="1 in 12, with a rail."),
)

AMENITIES = (
    Amenity("toilet-time-office", "toilet", "time-office", (10, 1590, 220, 200)),
    Amenity("first-aid-time-office", "first aid", "time-office", (700, 1760, 60, 30)),
    Amenity("seat-time-office", "seat", "time-office", (14, 1300, 40, 220)),
    Amenity("seat-landing", "seat", "landing", (950, 1745, 220, 40)),
    Amenity("water-landing", "water", "landing", (812, 1080, 40, 50)),
    Amenity("seat-warehouse", "seat", "warehouse", (1320, 1300, 40, 200)),
    Amenity("seat-shanking-shop", "seat", "shanking-shop", (1340, 940, 240, 40)),
    Amenity("seat-office", "seat", "office", (560, 1264, 180, 40)),
    Amenity("exit-gate", "exit", "cart-passage", (1000, 1770, 60, 24)),
    Amenity("exit-yard", "exit", "dipping-yard", (1410, 8, 60, 24)),
    Amenity("exit-stamp", "exit", "stamp-shop", (3368, 800, 24, 60)),
    Amenity("exit-press", "exit", "press-shop", (3368, 1390, 24, 60)),
    Amenity("exit-iron-stair", "exit", "polishing-shop", (3368, 1480, 24, 60)),
)

WINDOWS: dict[str, tuple[Segment, ...]] = {
    "cellar": (),
    "ground": (
        (0, 90, 0, 210), (0, 580, 0, 720), (0, 800, 0, 940), (0, 1020, 0, 1160), (0, 1380, 0, 1520),
        (240, 1800, 400, 1800), (680, 1800, 760, 1800),
        (1700, 0, 1860, 0), (2010, 0, 2170, 0), (2390, 0, 2550, 0), (2770, 0, 2930, 0), (3080, 0, 3240, 0),
        (3400, 160, 3400, 300), (3400, 460, 3400, 600), (3400, 1140, 3400, 1280), (3400, 1560, 3400, 1700),
        (1440, 1800, 1620, 1800), (1760, 1800, 1940, 1800), (2080, 1800, 2260, 1800),
        (2400, 1800, 2580, 1800), (2720, 1800, 2900, 1800), (3040, 1800, 3220, 1800),
    ),
    "upper": (
        (60, 500, 260, 500), (340, 500, 540, 500), (0, 620, 0, 760), (0, 1380, 0, 1520), (0, 1600, 0, 1720),
        (160, 1800, 320, 1800), (460, 1800, 620, 1800), (960, 1800, 1160, 1800),
        (880, 600, 1040, 600), (1600, 90, 1600, 250), (1600, 350, 1600, 510), (1780, 0, 1980, 0),
        (2420, 0, 2600, 0), (2720, 0, 2900, 0), (3400, 520, 3400, 700), (3400, 980, 3400, 1120),
        (3400, 1600, 3400, 1740),
        (1420, 1800, 1600, 1800), (1720, 1800, 1900, 1800), (2020, 1800, 2200, 1800),
        (2440, 1800, 2620, 1800), (2720, 1800, 2900, 1800), (3000, 1800, 3180, 1800),
    ),
}
