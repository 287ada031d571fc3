"""The plan out of plan/plan.toml and its drawings."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from archive.exchange.draft import (
    AmenityDraft,
    DoorDraft,
    EndDraft,
    FloorDraft,
    ObstacleDraft,
    PassageDraft,
    PlanDraft,
    Point,
    RoomDraft,
    StationDraft,
)
from archive.exchange.faults import shown
from archive.exchange.fields import Fields
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.plan_checks import check_plan, label_point
from archive.exchange.plan_svg import Drawing, parse_drawing
from archive.exchange.toml_files import TomlTable, parse_toml
from archive.plan.model import AMENITY_KINDS, OBSTACLE_KINDS, PASSAGE_KINDS

FILE = "plan/plan.toml"
KINDS = ("floor", "room", "door", "station", "passage", "amenity", "obstacle")
OUTSIDE = "outside"
NAME, LINE = 300, 120
_FAR = 1e6
# A rope or chain is drawn as a line; it is taken to be so thick.
_ROPE_M = 0.05

T = TypeVar("T")


def kept(drafts: Iterable[T | None]) -> tuple[T, ...]:
    """The drafts that could be read."""
    return tuple(draft for draft in drafts if draft is not None)


def read_plan(files: FolderFiles, known: Known) -> PlanDraft:
    """The plan, checked against its own drawings."""
    text = files.text(FILE)
    table = None if text is None else parse_toml(text, FILE, files.faults)
    if table is None:
        known.unsure.update(KINDS)
        return PlanDraft()
    reader = _PlanReader(files, known)
    draft = PlanDraft(
        floors=kept(reader.floor(row) for row in table.tables("floors")),
        rooms=kept(reader.room(row) for row in table.tables("rooms")),
        doors=kept(reader.door(row) for row in table.tables("doors")),
        stations=kept(reader.station(row) for row in table.tables("stations")),
        passages=kept(reader.passage(row) for row in table.tables("passages")),
        amenities=kept(reader.amenity(row) for row in table.tables("amenities")),
        obstacles=kept(reader.obstacle(row) for row in table.tables("obstacles")),
    )
    table.finish()
    for kind, entries in (("floors", draft.floors), ("rooms", draft.rooms)):
        if not entries and not table.tables(kind):
            table.missing(kind)
    check_plan(draft, files.faults)
    return draft


class _PlanReader:
    def __init__(self, files: FolderFiles, known: Known) -> None:
        self.files, self.known = files, known
        self.drawings: dict[str, Drawing | None] = {}
        self.floor_of: dict[str, str] = {}
        self.scales: dict[str, float] = {}
        self.levels: dict[int, str] = {}
        self.numbers: dict[int, str] = {}

    def floor(self, row: TomlTable) -> FloorDraft | None:
        """A floor; its drawing is read and cleaned."""
        ref = self._ref("floor", row)
        svg_name = row.file_name("svg", (".svg",))
        name = f"plan/{svg_name}"
        text = self.files.text(name, row.place("svg")) if svg_name else None
        drawing = None if text is None else parse_drawing(text, name, self.files.faults)
        self.drawings[ref] = drawing
        level = row.whole("level", -20, 200)
        self._once(self.levels, level, ref, row, "level")
        self.scales[ref] = row.number("metres_per_unit", 1e-6, 1000)
        draft = FloorDraft(
            origin=row.place(),
            ref=ref,
            name=row.text("name", required=True, limit=NAME),
            level=level,
            svg_name=svg_name,
            svg=drawing.svg if drawing else "",
            metres_per_unit=self.scales[ref],
        )
        row.finish()
        return draft

    def room(self, row: TomlTable) -> RoomDraft | None:
        """A room with its outline."""
        ref = self._ref("room", row)
        floor = self.known.tie("floor", row, "floor")
        element = row.text("element", required=True, limit=LINE)
        self.floor_of[ref] = floor
        outline = tuple(self._outline(row, floor, element))
        middle = label_point(outline)
        draft = RoomDraft(
            origin=row.place("element"),
            ref=ref,
            name=row.text("name", required=True, limit=NAME),
            floor=floor,
            element=element,
            outline=outline,
            label=(
                row.number("label_x", -_FAR, _FAR, default=middle[0]),
                row.number("label_y", -_FAR, _FAR, default=middle[1]),
            ),
            capacity=row.whole("capacity", 0, 10_000),
            note=row.text("note"),
            height_m=row.number("height_m", 1, 50) if row.has("height_m") else None,
            absorption=row.number("absorption", 0.005, 1) if row.has("absorption") else None,
        )
        row.finish("height_m", "absorption")
        return draft

    def door(self, row: TomlTable) -> DoorDraft | None:
        """A doorway between two rooms, or out."""
        ref = self._ref("door", row)
        floor = self.known.tie("floor", row, "floor")
        one_way = row.flag("one_way", default=False)
        room_a, room_b = self._door_rooms(row, floor, one_way)
        element, spot = self._spot(row, floor)
        draft = DoorDraft(
            origin=row.place("element"),
            ref=ref,
            floor=floor,
            element=element,
            spot=spot,
            room_a=room_a,
            room_b=room_b,
            width_m=row.number("width_m", 0.1, 50),
            headroom_m=row.number("headroom_m", 0.3, 50, default=2.0),
            step_mm=row.number("step_mm", 0, 2000, default=0),
            gradient_percent=row.number("gradient_percent", 0, 100, default=0),
            one_way=one_way,
            note=row.text("note"),
        )
        row.finish()
        return draft if room_a else None

    def station(self, row: TomlTable) -> StationDraft | None:
        """A station in its room."""
        ref = self._ref("station", row)
        number = row.whole("number", 0, 100_000)
        self._once(self.numbers, number, ref, row, "number")
        room = self.known.tie("room", row, "room")
        element, spot = self._spot(row, self.floor_of.get(room, ""))
        draft = StationDraft(
            origin=row.place("element"),
            ref=ref,
            number=number,
            name=row.text("name", required=True, limit=NAME),
            room=room,
            element=element,
            spot=spot,
            summary=row.text("summary"),
            seats=row.flag("seats", default=False),
            quiet=row.flag("quiet", default=False),
        )
        row.finish()
        return draft

    def passage(self, row: TomlTable) -> PassageDraft | None:
        """Stairs, a lift or a ramp with its ends."""
        kind = row.choice("kind", PASSAGE_KINDS)
        ends = tuple(self._end(end) for end in row.tables("ends"))
        if len(ends) < 2:
            row.fault("ends", f"'ends' has {len(ends)} entries", "A passage has at least two ends")
        draft = PassageDraft(
            origin=row.place("ends"),
            ref=self._ref("passage", row),
            kind=kind,
            name=row.text("name", required=True, limit=NAME),
            width_m=row.number("width_m", 0.1, 50),
            headroom_m=row.number("headroom_m", 0.3, 50, default=2.0),
            steps=row.whole("steps", 0, 1000, default=0),
            rise_mm=row.number("rise_mm", 0, 20_000, default=0),
            length_m=row.number("length_m", 0, 1000, default=0),
            capacity=row.whole("capacity", 0, 1000, default=0),
            cycle_s=row.number("cycle_s", 0, 3600, default=0),
            note=row.text("note"),
            ends=ends,
        )
        row.finish()
        return draft

    def amenity(self, row: TomlTable) -> AmenityDraft | None:
        """Something that a group may need on the way."""
        room = self.known.tie("room", row, "room")
        element, spot = self._spot(row, self.floor_of.get(room, ""))
        draft = AmenityDraft(
            origin=row.place("element"),
            ref=self._ref("amenity", row),
            kind=row.choice("kind", AMENITY_KINDS),
            room=room,
            element=element,
            spot=spot,
        )
        row.finish()
        return draft

    def obstacle(self, row: TomlTable) -> ObstacleDraft | None:
        """Something that stands on the floor and is walked round."""
        room = self.known.tie("room", row, "room")
        element = row.text("element", required=True, limit=LINE)
        floor = self.floor_of.get(room, "")
        thickness = _ROPE_M / self.scales.get(floor, 1.0)
        draft = ObstacleDraft(
            origin=row.place("element"),
            ref=self._ref("obstacle", row),
            kind=row.choice("kind", OBSTACLE_KINDS),
            room=room,
            element=element,
            outline=tuple(self._drawn(row, floor, element, lambda drawing: drawing.footprint(element, thickness), [])),
        )
        row.finish()
        return draft

    def _end(self, row: TomlTable) -> EndDraft:
        room = self.known.tie("room", row, "room")
        element, spot = self._spot(row, self.floor_of.get(room, ""))
        row.finish()
        return EndDraft(origin=row.place("element"), room=room, element=element, spot=spot)

    def _door_rooms(self, row: TomlTable, floor: str, one_way: bool) -> tuple[str, str]:
        rooms = row.texts("rooms")
        if len(rooms) != 2 or rooms == (OUTSIDE, OUTSIDE):
            row.fault("rooms", f"'rooms' names {len(rooms)} rooms", 'Name two rooms, or one and "outside"')
            return "", ""
        if rooms[0] == OUTSIDE:
            if one_way:
                row.fault("rooms", "a one-way door from outside", 'Such a door leads out: name "outside" second')
            rooms = rooms[::-1]
        inner = self.known.only("room", [room for room in rooms if room != OUTSIDE], row.place("rooms"))
        for room in inner:
            if self.floor_of.get(room, floor) != floor:
                row.fault("rooms", f"the room {shown(room)} is on another floor", "A door joins rooms of its own floor")
        return (inner[0], inner[1] if len(inner) > 1 else "") if inner else ("", "")

    def _ref(self, kind: str, row: Fields) -> str:
        ref = row.ref("ref")
        if ref == OUTSIDE and kind == "room":
            row.fault("ref", "a room called 'outside'", "The word means out of doors; name the room otherwise")
        self.known.add(kind, ref, row.place("ref"))
        return ref

    def _once(self, seen: dict[int, str], value: int, ref: str, row: TomlTable, key: str) -> None:
        if row.has(key) and seen.setdefault(value, ref) != ref:
            row.fault(key, f"the {key} {value} is that of {shown(seen[value])} too", f"Each has a {key} of its own")

    def _spot(self, row: TomlTable, floor: str) -> tuple[str, Point]:
        element = row.text("element", required=True, limit=LINE)
        return element, self._drawn(row, floor, element, lambda drawing: drawing.centre(element), (0.0, 0.0))

    def _outline(self, row: TomlTable, floor: str, element: str) -> list[Point]:
        return self._drawn(row, floor, element, lambda drawing: drawing.outline(element), [])

    def _drawn(self, row: TomlTable, floor: str, element: str, asked: Callable[[Drawing], T], without: T) -> T:
        """What a floor's drawing tells of an element; a fault, and what stands for nothing, where it does not."""
        drawing = self.drawings.get(floor)
        if drawing is None or not element:
            return without
        try:
            return asked(drawing)
        except (KeyError, ValueError) as problem:
            self._no_shape(row, floor, element, problem)
            return without

    def _no_shape(self, row: TomlTable, floor: str, element: str, problem: Exception) -> None:
        if isinstance(problem, KeyError):
            found = f"the drawing of floor {shown(floor)} has no element {shown(element)}"
            row.fault("element", found, "Name the id of a shape in the floor's SVG file")
        else:
            found = f"the element {shown(element)}: {problem}"
            row.fault("element", found, "A room is one closed shape; other things are any shape")
