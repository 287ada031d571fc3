"""Checks the demo building before it is drawn: rooms, doors, stations, machines and the ways between."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely import LineString, Point, Polygon, box

from making.draw_plan_house import AMENITIES, DOORS, PASSAGES, ROOMS, STATIONS, Room
from making.draw_plan_items import ITEMS, Placed

BETWEEN_STATIONS, FROM_WALL = 210.0, 60.0
NAME_WIDTH, NAME_HEIGHT = 300.0, 90.0
SHAPES = {room.ref: Polygon(room.corners) for room in ROOMS}
FLOOR = {room.ref: room.floor for room in ROOMS}


def outline(item: Placed) -> Polygon:
    x, y, w, h = item.size
    return box(item.at[0] + x, item.at[1] + y, item.at[0] + x + w, item.at[1] + y + h)


def name_box(room: Room) -> Polygon:
    x, y = room.label
    return box(x - NAME_WIDTH / 2, y - NAME_HEIGHT / 2, x + NAME_WIDTH / 2, y + NAME_HEIGHT / 2)


def room_faults() -> Iterator[str]:
    for a, b in combinations(ROOMS, 2):
        if a.floor == b.floor and SHAPES[a.ref].intersection(SHAPES[b.ref]).area > 0:
            yield f"rooms {a.ref} and {b.ref} overlap"
    for room in ROOMS:
        if not SHAPES[room.ref].contains(name_box(room)):
            yield f"the name of {room.ref} does not fit in the room"
        for item in ITEMS:
            if item.floor == room.floor and name_box(room).intersects(outline(item)):
                yield f"{item.ident} stands under the name of {room.ref}"
        for station in STATIONS:
            if station.room == room.ref and name_box(room).distance(Point(station.at)) < 45:
                yield f"{station.ref} stands under the name of {room.ref}"


def door_faults() -> Iterator[str]:
    for door in DOORS:
        x1, y1, x2, y2 = door.line
        line = LineString([(x1, y1), (x2, y2)])
        if abs(line.length / 100 - door.width_m) > 0.011:
            yield f"{door.ref} is drawn {line.length} cm wide but said to be {door.width_m} m"
        for ref in door.rooms:
            if ref != "outside" and (FLOOR[ref] != door.floor or not SHAPES[ref].boundary.covers(line)):
                yield f"{door.ref} is not on the wall of {ref}"
        for item in ITEMS:
            if item.floor == door.floor and outline(item).distance(line) < 30:
                yield f"{item.ident} stands in the way of {door.ref}"


def station_faults() -> Iterator[str]:
    for station in STATIONS:
        spot, room = Point(station.at), SHAPES[station.room]
        if not room.contains(spot) or room.boundary.distance(spot) < FROM_WALL:
            yield f"{station.ref} is not inside {station.room}, or too near its wall"
        for item in ITEMS:
            if item.floor == FLOOR[station.room] and outline(item).distance(spot) < 40:
                yield f"{station.ref} stands on {item.ident}"
    for a, b in combinations(STATIONS, 2):
        apart = Point(a.at).distance(Point(b.at))
        if FLOOR[a.room] == FLOOR[b.room] and apart < BETWEEN_STATIONS:
            yield f"{a.ref} and {b.ref} are only {apart:.0f} apart"


def item_faults() -> Iterator[str]:
    for a, b in combinations(ITEMS, 2):
        touching = {a.ident, b.ident}
        bench = any("press-bench" in ident for ident in touching)  # the fly presses stand on it
        if a.floor == b.floor and not bench and outline(a).intersection(outline(b)).area > 0:
            yield f"{a.ident} and {b.ident} overlap"
    for item in ITEMS:
        homes = [ref for ref, shape in SHAPES.items() if FLOOR[ref] == item.floor and shape.contains(outline(item))]
        if not homes and item.ident != "object-wages-hatch":  # the hatch goes through the wall
            yield f"{item.ident} goes through a wall"


def passage_faults() -> Iterator[str]:
    for passage in PASSAGES:
        for ref, (x, y, w, h) in passage.ends:
            end = box(x, y, x + w, y + h)
            if not SHAPES[ref].covers(end):
                yield f"the end of {passage.ref} is not inside {ref}"
            for item in ITEMS:
                if item.floor == FLOOR[ref] and outline(item).intersects(end):
                    yield f"{item.ident} blocks the end of {passage.ref} in {ref}"
    for amenity in AMENITIES:
        x, y, w, h = amenity.box
        place = box(x, y, x + w, y + h)
        if not SHAPES[amenity.room].covers(place):
            yield f"{amenity.ref} is not inside {amenity.room}"
        for item in ITEMS:
            if item.floor == FLOOR[amenity.room] and outline(item).intersection(place).area > 0:
                yield f"{item.ident} stands on {amenity.ref}"


def way_faults() -> Iterator[str]:
    links = [door.rooms for door in DOORS] + [(p.ends[0][0], p.ends[1][0]) for p in PASSAGES]
    reached, growing = {"time-office", "outside"}, True
    while growing:
        more = {ref for link in links if reached & set(link) - {"outside"} for ref in link}
        growing = not more <= reached
        reached |= more
    for ref in SHAPES.keys() - reached:
        yield f"there is no way from the time office to {ref}"


def faults_of_plan() -> list[str]:
    """Every fault found, in words; an empty list means the plan may be drawn."""
    checks = (room_faults, door_faults, station_faults, item_faults, passage_faults, way_faults)
    return [fault for check in checks for fault in check()]
