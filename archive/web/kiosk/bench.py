"""The bench: one floor's plan as it is drawn on a page, with its checks, rooms and ways to other floors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan import queries as plan
from archive.plan.drawing import Drawing, Frame, drawing_of, frame_around
from archive.plan.model import Amenity, Door, Floor, Room, Station
from archive.store.model import Collection
from archive.store.queries import collection, found

_ROOM_MARGIN = 0.06


@dataclass(frozen=True)
class Way:
    """One end of stairs or a lift, and the floor that it leads to."""

    kind: str
    name: str
    x: float
    y: float
    floor: Floor
    upwards: bool


@dataclass(frozen=True)
class Bench:
    """One floor, drawn: which part of it is looked at, and which check is lit."""

    floor: Floor
    floors: tuple[Floor, ...]
    drawing: Drawing
    whole: Frame
    shown: Frame
    room: Room | None
    chosen: Station | None
    ways: tuple[Way, ...]
    doors: tuple[Door, ...]
    amenities: tuple[Amenity, ...]

    @property
    def unit(self) -> float:
        """A thirty-sixth of the whole plan's width: the measure of checks and letters, however it was drawn."""
        return self.whole.width / 36


@dataclass(frozen=True)
class PlanPage:
    """The first page: the plan, and the board of its stations."""

    collection: Collection
    bench: Bench


def plan_page(session: Session, floor_ref: str, room_ref: str) -> PlanPage:
    """The plan of the floor asked for, else of the floor at street level; with one room brought closer if asked."""
    floors = plan.floors(session)
    card = collection(session)
    floor = found(_floor(floors, floor_ref), "floor", floor_ref)
    room = None
    if room_ref:
        room = found(next((room for room in floor.rooms if room.ref == room_ref), None), "room", room_ref)
    return PlanPage(card, _bench(session, floors, floor, room=room))


def bench_at(session: Session, station_ref: str) -> tuple[Bench, Station]:
    """The plan of the floor on which a station is, with its check lit; and the station."""
    floors = plan.floors(session)
    every = (station for floor in floors for room in floor.rooms for station in room.stations)
    chosen = found(next((station for station in every if station.ref == station_ref), None), "station", station_ref)
    return _bench(session, floors, chosen.room.floor, chosen=chosen), chosen


def _floor(floors: Sequence[Floor], ref: str) -> Floor | None:
    if ref:
        return next((floor for floor in floors if floor.ref == ref), None)
    return min(floors, key=lambda floor: (abs(floor.level), -floor.level), default=None)


def _bench(
    session: Session, floors: Sequence[Floor], floor: Floor, *, room: Room | None = None, chosen: Station | None = None
) -> Bench:
    drawing = drawing_of(floor.svg)
    whole = drawing.frame if drawing.frame.width > 0 else frame_around(room.outline for room in floor.rooms)
    shown = frame_around([room.outline]).grown(whole.width * _ROOM_MARGIN) if room else whole
    return Bench(
        floor=floor,
        floors=tuple(reversed(floors)),
        drawing=drawing,
        whole=whole,
        shown=shown,
        room=room,
        chosen=chosen,
        ways=_ways(session, floor),
        doors=tuple(plan.doors_with_a_step(session, floor)),
        amenities=tuple(plan.amenities_on(session, floor)),
    )


def _ways(session: Session, floor: Floor) -> tuple[Way, ...]:
    ways = []
    for passage in plan.passages(session):
        here = [end for end in passage.ends if end.room.floor_id == floor.id]
        away = [end.room.floor for end in passage.ends if end.room.floor_id != floor.id]
        if here and away:
            upwards = away[0].level > floor.level
            ways.append(Way(passage.kind, passage.name, here[0].x, here[0].y, away[0], upwards))
    return tuple(ways)
