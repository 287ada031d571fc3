"""The plan as records: floors, rooms, doors, stations, passages, amenities and obstacles."""

from __future__ import annotations

from archive.exchange.draft import PassageDraft, PlanDraft
from archive.exchange.stored import Records
from archive.plan.model import Amenity, Door, Floor, Obstacle, Passage, PassageEnd, Room, Station


def store_plan(plan: PlanDraft, records: Records) -> None:
    """Everything that is drawn on the plan, in the order of its file."""
    _store_floors(plan, records)
    _store_rooms(plan, records)
    _store_doors(plan, records)
    _store_stations(plan, records)
    for position, passage in enumerate(plan.passages):
        records.session.add(_passage(position, passage, records))
    _store_amenities(plan, records)
    _store_obstacles(plan, records)


def _store_floors(plan: PlanDraft, records: Records) -> None:
    for floor in plan.floors:
        record = Floor(
            ref=floor.ref,
            name=floor.name,
            level=floor.level,
            svg_name=floor.svg_name,
            svg=floor.svg,
            metres_per_unit=floor.metres_per_unit,
        )
        records.add(floor.ref, record)
    # Doors name their floor by key alone, so floors need theirs first.
    records.session.flush()


def _store_rooms(plan: PlanDraft, records: Records) -> None:
    for position, room in enumerate(plan.rooms):
        record = Room(
            ref=room.ref,
            position=position,
            name=room.name,
            floor=records.get(Floor, room.floor),
            element=room.element,
            outline=[list(point) for point in room.outline],
            label_x=room.label[0],
            label_y=room.label[1],
            capacity=room.capacity,
            note=room.note,
            height_m=room.height_m,
            absorption=room.absorption,
        )
        records.add(room.ref, record)


def _store_doors(plan: PlanDraft, records: Records) -> None:
    for position, door in enumerate(plan.doors):
        record = Door(
            ref=door.ref,
            position=position,
            floor_id=records.get(Floor, door.floor).id,
            element=door.element,
            x=door.spot[0],
            y=door.spot[1],
            room_a=records.get(Room, door.room_a),
            room_b=records.get(Room, door.room_b),
            width_m=door.width_m,
            headroom_m=door.headroom_m,
            step_mm=door.step_mm,
            gradient_percent=door.gradient_percent,
            one_way=door.one_way,
            note=door.note,
        )
        records.session.add(record)


def _store_stations(plan: PlanDraft, records: Records) -> None:
    for station in plan.stations:
        record = Station(
            ref=station.ref,
            number=station.number,
            name=station.name,
            room=records.get(Room, station.room),
            element=station.element,
            x=station.spot[0],
            y=station.spot[1],
            summary=station.summary,
            seats=station.seats,
            quiet=station.quiet,
        )
        records.add(station.ref, record)


def _store_amenities(plan: PlanDraft, records: Records) -> None:
    for position, amenity in enumerate(plan.amenities):
        record = Amenity(
            ref=amenity.ref,
            position=position,
            kind=amenity.kind,
            room=records.get(Room, amenity.room),
            element=amenity.element,
            x=amenity.spot[0],
            y=amenity.spot[1],
        )
        records.session.add(record)


def _store_obstacles(plan: PlanDraft, records: Records) -> None:
    for position, obstacle in enumerate(plan.obstacles):
        record = Obstacle(
            ref=obstacle.ref,
            position=position,
            kind=obstacle.kind,
            room=records.get(Room, obstacle.room),
            element=obstacle.element,
            outline=[list(point) for point in obstacle.outline],
        )
        records.session.add(record)


def _passage(position: int, passage: PassageDraft, records: Records) -> Passage:
    return Passage(
        ref=passage.ref,
        position=position,
        kind=passage.kind,
        name=passage.name,
        width_m=passage.width_m,
        headroom_m=passage.headroom_m,
        steps=passage.steps,
        rise_mm=passage.rise_mm,
        length_m=passage.length_m,
        capacity=passage.capacity,
        cycle_s=passage.cycle_s,
        note=passage.note,
        ends=[
            PassageEnd(
                position=number, room=records.get(Room, end.room), element=end.element, x=end.spot[0], y=end.spot[1]
            )
            for number, end in enumerate(passage.ends)
        ],
    )
