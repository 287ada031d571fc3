"""Draws the demo plan: one SVG a floor and plan.toml. Run from demo-collection: python -m making.draw_plan"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from xml.sax.saxutils import escape

from shapely import LineString, Polygon, line_merge, unary_union
from shapely.geometry.base import BaseGeometry

from making.draw_plan_check import faults_of_plan
from making.draw_plan_house import (
    AMENITIES, DEPTH, DOORS, FLOORS, LENGTH, MARGIN, PASSAGES, ROOMS, STATIONS, WINDOWS,
    Amenity, Door, Floor, Passage, Room, Segment, Station,
)
from making.draw_plan_items import ITEMS, Placed
from making.draw_plan_pen import Pen, number

PLAN = Path(__file__).parent.parent / "plan"
FLOOR_OF_ROOM = {room.ref: room.floor for room in ROOMS}


def on_sheet(value: float) -> str:
    """A measure of the building as a coordinate of the sheet, which has a margin all round."""
    return number(value + MARGIN)


def points(corners: Iterable[tuple[float, ...]]) -> str:
    return " ".join(f"{on_sheet(x)},{on_sheet(y)}" for x, y in corners)


def walls(rooms: list[Room], openings: list[Segment]) -> tuple[BaseGeometry, BaseGeometry]:
    """The outer and the inner wall lines, broken where doors and windows are."""
    shapes = [Polygon(room.corners) for room in rooms]
    outer: BaseGeometry = unary_union(shapes).boundary
    inner: BaseGeometry = unary_union([shape.boundary for shape in shapes]).difference(outer)
    gaps = unary_union([LineString([(s[0], s[1]), (s[2], s[3])]).buffer(0.01) for s in openings])
    return outer.difference(gaps), inner.difference(gaps)


def lines_of(shape: BaseGeometry) -> Iterator[str]:
    merged = line_merge(shape) if shape.geom_type == "MultiLineString" else shape
    for part in getattr(merged, "geoms", [merged]):
        if part.length > 1:
            shape_name = "polygon" if part.is_ring else "polyline"
            yield f'<{shape_name} points="{points(part.coords)}"/>'


def group(ident: str, content: Iterable[str], attributes: str = "") -> Iterator[str]:
    yield f'  <g id="{ident}"{" " + attributes if attributes else ""}>'
    for mark in content:
        yield f"    {mark}"
    yield "  </g>"


def room_shape(room: Room) -> str:
    return f'<polygon id="room-{room.ref}" points="{points(room.corners)}"/>'


def segment(line: Segment) -> str:
    x1, y1, x2, y2 = (on_sheet(value) for value in line)
    return f'x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"'


def door_leaf(door: Door) -> str:
    """The open leaf and its quarter turn, into the first room; two leaves for a wide gate."""
    x1, y1, x2, y2 = door.line
    width = abs(x2 - x1) + abs(y2 - y1)
    upright = x1 == x2
    room = next(room for room in ROOMS if room.ref == door.rooms[0])
    xs, ys = zip(*room.corners, strict=True)
    inward = (1 if x1 == min(xs) else -1) if upright else (1 if y1 == min(ys) else -1)
    leaf = min(width, 130.0)
    tip = (x1 + inward * leaf, y1) if upright else (x1, y1 + inward * leaf)
    end = (x1, y1 + leaf) if upright else (x1 + leaf, y1)
    sweep = int((inward > 0) == upright)
    marks = _leaf((x1, y1), tip, end, leaf, sweep)
    if width > 200:
        tip = (x2 + inward * leaf, y2) if upright else (x2, y2 + inward * leaf)
        marks += " " + _leaf((x2, y2), tip, end, leaf, 1 - sweep)
    return f'<path d="{marks}"/>'


def _leaf(hinge: tuple[float, float], tip: tuple[float, float], end: tuple[float, float], r: float, sweep: int) -> str:
    h, t, e = (f"{on_sheet(x)} {on_sheet(y)}" for x, y in (hinge, tip, end))
    return f"M{h} L{t} A{number(r)} {number(r)} 0 0 {sweep} {e}"


def window_marks(window: Segment) -> Iterator[str]:
    x1, y1, x2, y2 = window
    across, along = ((6.0, 0.0) if x1 == x2 else (0.0, 6.0)), ((0.0, 1.0) if x1 == x2 else (1.0, 0.0))
    for side in (-1, 1):
        dx, dy = side * across[0], side * across[1]
        yield f"<line {segment((x1 + dx, y1 + dy, x2 + dx, y2 + dy))}/>"
    length = abs(x2 - x1) + abs(y2 - y1)
    for share in (0.0, 0.5, 1.0):
        x, y = x1 + along[0] * length * share, y1 + along[1] * length * share
        yield f"<line {segment((x - across[0], y - across[1], x + across[0], y + across[1]))}/>"


def step_marks(door: Door) -> Iterator[str]:
    """Two short lines beside a doorway that has a step."""
    x1, y1, x2, y2 = door.line
    for away in (16, 28):
        yield f"<line {segment((x1 + away, y1, x2 + away, y2))}/>"


def stair_marks(passage: Passage) -> Iterator[str]:
    """Treads, strings and an arrow that points up the flight."""
    boxes = [rect for _, rect in passage.ends]
    left, width = boxes[0][0], boxes[0][2]
    low, high = sorted((boxes[0][1], boxes[1][1]))
    top, bottom = low + 55, high - 5
    yield (f'<rect id="flight-{passage.ref}" x="{on_sheet(left)}" y="{on_sheet(top)}" '
           f'width="{number(width)}" height="{number(bottom - top)}"/>')
    for n in range(1, passage.steps):
        y = top + (bottom - top) * n / passage.steps
        yield f"<line {segment((left, y, left + width, y))}/>"
    level = {floor.ref: floor.level for floor in FLOORS}
    upper_end = max(passage.ends, key=lambda end: level[FLOOR_OF_ROOM[end[0]]])[1]
    head, tail = (top + 16, bottom - 16) if upper_end[1] == low else (bottom - 16, top + 16)
    way = 26 if head < tail else -26
    x = left + width / 2
    yield f'<circle cx="{on_sheet(x)}" cy="{on_sheet(tail)}" r="8"/>'
    yield f"<line {segment((x, tail, x, head))} stroke-width=\"4\"/>"
    yield f'<polyline points="{points([(x - 20, head + way), (x, head), (x + 20, head + way)])}" stroke-width="4"/>'


def lift_marks(passage: Passage) -> Iterator[str]:
    x, y, w, h = passage.ends[0][1]
    yield f"<line {segment((x, y, x + w, y + h))}/>"
    yield f"<line {segment((x + w, y, x, y + h))}/>"
    yield f'<rect x="{on_sheet(x + 14)}" y="{on_sheet(y + 14)}" width="{number(w - 28)}" height="{number(h - 28)}"/>'


def ramp_marks(passage: Passage) -> Iterator[str]:
    (_, a), (_, b) = passage.ends
    left, right, top, h = a[0] + a[2] + 16, b[0] - 4, a[1], a[3]
    yield f'<rect x="{on_sheet(left)}" y="{on_sheet(top)}" width="{number(right - left)}" height="{number(h)}"/>'
    yield f'<polyline points="{points([(left, top), (right, top + h / 2), (left, top + h)])}"/>'


def passage_marks(floor: str) -> Iterator[str]:
    for passage in PASSAGES:
        if floor not in {FLOOR_OF_ROOM[room] for room, _ in passage.ends}:
            continue
        if passage.kind == "stairs":
            yield from stair_marks(passage)
        elif passage.kind == "lift":
            yield from lift_marks(passage)
        else:
            yield from ramp_marks(passage)


def end_ident(passage: Passage, room: str) -> str:
    return f"{passage.ref}-{room}"


def end_shapes(floor: str) -> Iterator[str]:
    for passage in PASSAGES:
        for room, (x, y, w, h) in passage.ends:
            if FLOOR_OF_ROOM[room] == floor:
                yield (f'<rect id="{end_ident(passage, room)}" x="{on_sheet(x)}" y="{on_sheet(y)}" '
                       f'width="{number(w)}" height="{number(h)}" stroke-dasharray="6 6"/>')


def amenity_shape(amenity: Amenity) -> Iterator[str]:
    x, y, w, h = amenity.box
    frame = f'x="{on_sheet(x)}" y="{on_sheet(y)}" width="{number(w)}" height="{number(h)}"'
    if amenity.kind == "toilet":
        yield f'<rect id="amenity-{amenity.ref}" {frame} stroke-width="7"/>'
        yield f'<ellipse cx="{on_sheet(x + 46)}" cy="{on_sheet(y + h - 66)}" rx="32" ry="24"/>'
        yield f'<rect x="{on_sheet(x + 4)}" y="{on_sheet(y + h - 96)}" width="16" height="60"/>'
        yield f'<rect x="{on_sheet(x + 24)}" y="{on_sheet(y + 6)}" width="56" height="34" rx="10"/>'
        yield f"<line {segment((x + w, y + 50, x + w + 80, y + 20))}/>"
    elif amenity.kind == "seat":
        yield f'<rect id="amenity-{amenity.ref}" {frame} rx="8"/>'
    elif amenity.kind == "first aid":
        yield f'<rect id="amenity-{amenity.ref}" {frame}/>'
        yield f"<line {segment((x + w / 2, y + 5, x + w / 2, y + h - 5))}/>"
        yield f"<line {segment((x + w / 2 - 10, y + h / 2, x + w / 2 + 10, y + h / 2))}/>"
    else:
        yield f'<rect id="amenity-{amenity.ref}" {frame} stroke-dasharray="6 4"/>'


def iron_stair() -> Iterator[str]:
    """The outside escape stair by the polishing shop: drawn, but not a way for tours."""
    yield f'<rect x="{on_sheet(3408)}" y="{on_sheet(1300)}" width="72" height="300"/>'
    for n in range(1, 12):
        y = 1300 + n * 17
        yield f"<line {segment((3408, y, 3480, y))}/>"


def below_marks(floor: str) -> Iterator[str]:
    """What lies under or over this floor, in broken lines."""
    if floor == "upper":
        yield f'<polyline points="{points([(0, 500), (0, 0), (800, 0), (800, 600)])}"/>'
        yield f'<polyline points="{points([(800, 0), (1600, 0)])}"/>'
    if floor == "cellar":
        yield f'<polygon points="{points([(0, 0), (LENGTH, 0), (LENGTH, DEPTH), (0, DEPTH)])}"/>'


def centre_lines(floor: str) -> Iterator[str]:
    """Line shafts, drains and ducts, as a drawing office would show them."""
    if floor == "ground":
        yield f"<line {segment((1700, 62, 3300, 62))}/>"
        yield f"<line {segment((2820, 1780, 3370, 1780))}/>"
        yield f'<polyline points="{points([(1000, 320), (1000, 520), (1240, 520)])}"/>'
    if floor == "upper":
        yield f'<polyline points="{points([(2990, 1740), (3060, 1740), (3060, 1660)])}"/>'


def machine_marks(item: Placed) -> Iterator[str]:
    pen = Pen()
    item.draw(pen)
    turn = f" rotate({item.turn})" if item.turn else ""
    yield f'<g id="{item.ident}" transform="translate({on_sheet(item.at[0])} {on_sheet(item.at[1])}){turn}">'
    yield f"  <title>{escape(item.title)}</title>"
    for mark in pen.marks:
        yield f"  {mark}"
    yield "</g>"


def station_shape(station: Station) -> str:
    x, y = station.at
    return f'<circle id="station-{station.ref}" cx="{on_sheet(x)}" cy="{on_sheet(y)}" r="14"/>'


def sheet(floor: Floor) -> str:
    rooms = [room for room in ROOMS if room.floor == floor.ref]
    doors = [door for door in DOORS if door.floor == floor.ref]
    windows = WINDOWS[floor.ref]
    outer, inner = walls(rooms, [door.line for door in doors] + list(windows))
    here = {room.ref for room in rooms}
    parts = [
        '<svg xmlns="http://www.w3.org/2000/svg" '
        f'viewBox="0 0 {number(LENGTH + 2 * MARGIN)} {number(DEPTH + 2 * MARGIN)}" fill="none" stroke="currentColor" '
        'stroke-width="3" stroke-linecap="round" stroke-linejoin="round">',
        f"  <title>{escape(floor.name)}</title>",
        "  <desc>One unit is one centimetre. Written by making/draw_plan.py; you may also edit it by hand.</desc>",
        *group("rooms", map(room_shape, rooms), 'stroke="none"'),
        *group("below", below_marks(floor.ref), 'stroke-width="2" stroke-dasharray="18 12" opacity="0.55"'),
        *group("centre-lines", centre_lines(floor.ref), 'stroke-width="1.5" stroke-dasharray="26 7 5 7" opacity="0.7"'),
        *group("machines", [mark for item in ITEMS if item.floor == floor.ref for mark in machine_marks(item)]),
        *group("ways", passage_marks(floor.ref), 'stroke-width="2"'),
        *group("ends", end_shapes(floor.ref), 'stroke-width="1.5" opacity="0.6"'),
        *group("amenities", [m for a in AMENITIES if a.room in here for m in amenity_shape(a)], 'stroke-width="2.5"'),
        *group("windows", [m for w in windows for m in window_marks(w)], 'stroke-width="2.5"'),
        *group("inner-walls", lines_of(inner), 'stroke-width="10" stroke-linecap="butt"'),
        *group("outer-walls", lines_of(outer), 'stroke-width="16" stroke-linecap="butt" stroke-linejoin="miter"'),
        *group("leaves", map(door_leaf, doors), 'stroke-width="2" opacity="0.75"'),
        *group("steps", [m for door in doors if door.step_mm for m in step_marks(door)], 'stroke-width="3"'),
        *group("doors", (f'<line id="door-{d.ref}" {segment(d.line)}/>' for d in doors), 'stroke-width="4"'),
        *(group("iron-stair", iron_stair(), 'stroke-width="2"') if floor.ref == "upper" else ()),
        *group("stations", (station_shape(s) for s in STATIONS if s.room in here)),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def value(thing: object) -> str:
    if isinstance(thing, bool):
        return "true" if thing else "false"
    if isinstance(thing, int | float):
        return number(thing) if float(thing).is_integer() else repr(thing)
    return json.dumps(thing, ensure_ascii=False)


def table(heading: str, /, **pairs: object) -> str:
    """One [[heading]] table; keys that hold nothing are left out."""
    kept = [f"{key} = {value(thing)}" for key, thing in pairs.items() if thing not in ("", None)]
    return f"[[{heading}]]\n" + "\n".join(kept) + "\n"


def passage_table(passage: Passage) -> str:
    ends = ", ".join(
        f'{{room = "{room}", element = "{end_ident(passage, room)}"}}' for room, _ in passage.ends
    )
    figures = {key: getattr(passage, key) for key in ("steps", "rise_mm", "length_m", "capacity", "cycle_s")}
    told = {key: figure for key, figure in figures.items() if figure}
    body = table("passages", ref=passage.ref, kind=passage.kind, name=passage.name, width_m=passage.width_m,
                 **told, note=passage.note)
    return body + f"ends = [{ends}]\n"


def plan_text() -> str:
    tables = [table("floors", ref=f.ref, name=f.name, level=f.level, svg=f"{f.ref}.svg", metres_per_unit=0.01)
              for f in FLOORS]
    tables += [table("rooms", ref=r.ref, name=r.name, floor=r.floor, element=f"room-{r.ref}", capacity=r.capacity,
                     note=r.note, label_x=r.label[0] + MARGIN, label_y=r.label[1] + MARGIN) for r in ROOMS]
    tables += [table("doors", ref=d.ref, floor=d.floor, element=f"door-{d.ref}", rooms=list(d.rooms),
                     width_m=d.width_m, headroom_m=d.headroom_m, step_mm=d.step_mm, one_way=d.one_way,
                     note=d.note) for d in DOORS]
    tables += [table("stations", ref=s.ref, number=s.number, name=s.name, room=s.room, element=f"station-{s.ref}",
                     summary=s.summary, seats=s.seats, quiet=s.quiet) for s in STATIONS]
    tables += [passage_table(p) for p in PASSAGES]
    tables += [table("amenities", ref=a.ref, kind=a.kind, room=a.room, element=f"amenity-{a.ref}") for a in AMENITIES]
    head = ("# The plan of the works. One SVG unit is one centimetre (metres_per_unit = 0.01).\n"
            "# Each element names the id of a shape in the floor's SVG file.\n")
    return head + "\n" + "\n".join(tables)


def main() -> None:
    faults = faults_of_plan()
    if faults:
        raise SystemExit("The plan has faults; nothing was written.\n" + "\n".join(faults))
    PLAN.mkdir(exist_ok=True)
    for floor in FLOORS:
        (PLAN / f"{floor.ref}.svg").write_text(sheet(floor), encoding="utf-8", newline="\n")
    (PLAN / "plan.toml").write_text(plan_text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
