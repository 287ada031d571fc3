"""Whether a plan can be true: rooms that do not overlap, stations and doors where they are said to be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from shapely import Point as Spot
from shapely import Polygon, STRtree

from archive.exchange.draft import Draft, PlanDraft, Point, RoomDraft
from archive.exchange.faults import FaultList, shown
from archive.exchange.obstacle_checks import check_obstacles
from archive.exchange.outlines import polygon_of

# Drawn by hand, two rooms may share a strip along their wall: up to 100 square centimetres.
OVERLAP_M2 = 0.01
# How far a spot may lie outside its room.
ROOM_M = 0.05
# A doorway lies in a wall, so it is off the rooms' edges by up to this.
DOOR_M = 0.3
_DIGITS = 3


def label_point(outline: Sequence[Point]) -> Point:
    """A point inside an outline, for the room's name."""
    if len(outline) < 3:
        return 0.0, 0.0
    polygon = Polygon(outline)
    inside = polygon.representative_point() if polygon.is_valid else polygon.centroid
    return round(inside.x, _DIGITS), round(inside.y, _DIGITS)


def check_plan(plan: PlanDraft, faults: FaultList) -> None:
    """Tell what cannot be so."""
    scales = {floor.ref: floor.metres_per_unit for floor in plan.floors}
    shapes = {
        room.ref: shape
        for room in plan.rooms
        if (shape := polygon_of(room, "room", "Draw it as one simple outline", faults)) is not None
    }
    floors = {room.ref: room.floor for room in plan.rooms}
    _check_overlaps(plan, shapes, scales, faults)
    for what, room, spot, draft in _spots(plan):
        shape, scale = shapes.get(room), scales.get(floors.get(room, ""), 0.0)
        if shape is not None and shape.distance(Spot(spot)) * scale > ROOM_M:
            found = f"{what} lies outside its room {shown(room)}"
            faults.add(draft.origin, found, "Move it into the room's outline, or name the room that it is in")
    by_room = {room.ref: scales.get(room.floor, 0.0) for room in plan.rooms}
    check_obstacles(plan, shapes, by_room, faults)
    for door in plan.doors:
        for room in filter(None, (door.room_a, door.room_b)):
            shape = shapes.get(room)
            away = shape.exterior.distance(Spot(door.spot)) * scales.get(door.floor, 0.0) if shape is not None else 0
            if away > DOOR_M:
                found = f"the door {shown(door.ref)} is {away:.1f} m from the edge of room {shown(room)}"
                faults.add(door.origin, found, f"A door lies within {DOOR_M} m of the edge of both its rooms")


def _check_overlaps(plan: PlanDraft, shapes: dict[str, Polygon], scales: dict[str, float], faults: FaultList) -> None:
    for floor, scale in scales.items():
        rooms = [room for room in plan.rooms if room.floor == floor and room.ref in shapes]
        for one, other in _neighbours(rooms, shapes):
            area = shapes[one.ref].intersection(shapes[other.ref]).area * scale**2
            if area > OVERLAP_M2:
                found = f"the rooms {shown(one.ref)} and {shown(other.ref)} overlap by {area:.2f} square metres"
                faults.add(other.origin, found, "Rooms of a floor lie beside each other")


def _neighbours(rooms: list[RoomDraft], shapes: dict[str, Polygon]) -> Iterator[tuple[RoomDraft, RoomDraft]]:
    if len(rooms) < 20:
        yield from combinations(rooms, 2)
        return
    outlines = [shapes[room.ref] for room in rooms]
    first, second = STRtree(outlines).query(outlines, predicate="intersects")
    yield from ((rooms[a], rooms[b]) for a, b in zip(first, second, strict=True) if a < b)


def _spots(plan: PlanDraft) -> Iterator[tuple[str, str, Point, Draft]]:
    """Everything that must lie in a room: what it is, the room, where, and the draft to blame."""
    for station in plan.stations:
        yield f"the station {shown(station.ref)}", station.room, station.spot, station
    for amenity in plan.amenities:
        yield f"the amenity {shown(amenity.ref)}", amenity.room, amenity.spot, amenity
    for passage in plan.passages:
        for end in passage.ends:
            yield f"an end of {shown(passage.ref)}", end.room, end.spot, end
