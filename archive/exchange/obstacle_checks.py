"""Whether what stands on the floor can stand there: in its room, out of doorways, and not on top of a station."""

from __future__ import annotations

import shapely
from shapely import Point as Spot
from shapely import Polygon

from archive.exchange.draft import PlanDraft
from archive.exchange.faults import FaultList, shown
from archive.exchange.outlines import polygon_of

# Machines are drawn up to the walls' strokes: so much of one may reach over its room's edge, in square metres.
OUTSIDE_M2 = 0.05
WALL_M = 0.3
# A check mark may lie on its machine; one stands at the nearest free spot, no further off than this.
STAND_M = 1.0


def check_obstacles(plan: PlanDraft, rooms: dict[str, Polygon], scales: dict[str, float], faults: FaultList) -> None:
    """Tell what cannot be so. `rooms` are the outlines by reference, `scales` the metres of a unit by room."""
    standing: dict[str, list[Polygon]] = {}
    for obstacle in plan.obstacles:
        room, scale = rooms.get(obstacle.room), scales.get(obstacle.room, 0.0)
        shape = polygon_of(obstacle, "obstacle", "Draw it as one simple outline, or as a group of shapes", faults)
        if room is None or shape is None or not scale:
            continue
        standing.setdefault(obstacle.room, []).append(shape)
        outside = shape.difference(room.buffer(WALL_M / scale, join_style="mitre")).area * scale**2
        if outside > OUTSIDE_M2:
            found = f"the obstacle {shown(obstacle.ref)} reaches out of its room {shown(obstacle.room)} "
            found += f"by {outside:.2f} square metres"
            faults.add(obstacle.origin, found, "Draw it inside the room's outline, or name the room that it is in")
    blocked = {room: shapely.union_all(shapes) for room, shapes in standing.items()}
    _check_stations(plan, rooms, blocked, scales, faults)
    _check_doors(plan, blocked, faults)


def _check_stations(
    plan: PlanDraft,
    rooms: dict[str, Polygon],
    blocked: dict[str, shapely.Geometry],
    scales: dict[str, float],
    faults: FaultList,
) -> None:
    for station in plan.stations:
        if station.room not in blocked or station.room not in rooms:
            continue
        free = rooms[station.room].difference(blocked[station.room])
        if free.is_empty:
            faults.add(station.origin, f"obstacles fill the whole room {shown(station.room)}", "Leave room to stand")
            continue
        away = free.distance(Spot(station.spot)) * scales.get(station.room, 0.0)
        if away > STAND_M:
            found = f"the station {shown(station.ref)} lies {away:.1f} m inside an obstacle"
            faults.add(station.origin, found, f"Move its mark to where one stands, or to within {STAND_M:g} m of it")


def _check_doors(plan: PlanDraft, blocked: dict[str, shapely.Geometry], faults: FaultList) -> None:
    for door in plan.doors:
        for room in filter(None, (door.room_a, door.room_b)):
            if room in blocked and blocked[room].contains(Spot(door.spot)):
                found = f"an obstacle of room {shown(room)} stands in the door {shown(door.ref)}"
                faults.add(door.origin, found, "Draw the obstacle clear of the doorway")
