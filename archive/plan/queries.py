"""Every select on the plan. The plan itself is open to all viewers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, selectinload

from archive.plan.model import Amenity, Door, Floor, Obstacle, OutOfUse, Passage, PassageEnd, Room, Station
from archive.store.queries import found


def floors(session: Session) -> Sequence[Floor]:
    """All floors from the lowest up, with their rooms and stations."""
    whole = selectinload(Floor.rooms).selectinload(Room.stations)
    return session.scalars(select(Floor).options(whole).order_by(Floor.level)).all()


def floor(session: Session, ref: str) -> Floor:
    """One floor by reference."""
    return found(session.scalar(select(Floor).where(Floor.ref == ref)), "floor", ref)


def stations(session: Session) -> Sequence[Station]:
    """All stations by number, with room and floor."""
    placed = selectinload(Station.room).selectinload(Room.floor)
    return session.scalars(select(Station).options(placed).order_by(Station.number)).all()


def station(session: Session, ref: str) -> Station:
    """One station by reference."""
    return found(session.scalar(select(Station).where(Station.ref == ref)), "station", ref)


def rooms(session: Session) -> Sequence[Room]:
    """All rooms in the order of the plan's file."""
    return session.scalars(select(Room).order_by(Room.position)).all()


def doors(session: Session) -> Sequence[Door]:
    """All doors in the order of the plan's file."""
    return session.scalars(select(Door).order_by(Door.position)).all()


def passages(session: Session) -> Sequence[Passage]:
    """All stairs, lifts and ramps with their ends."""
    ends = selectinload(Passage.ends).selectinload(PassageEnd.room)
    return session.scalars(select(Passage).options(ends).order_by(Passage.position)).all()


def obstacles(session: Session) -> Sequence[Obstacle]:
    """Machines, benches and barriers that are walked round."""
    return session.scalars(select(Obstacle).order_by(Obstacle.position)).all()


def out_of_use(session: Session) -> Sequence[OutOfUse]:
    """Everything that is out of use now, was, or will be; the newest first."""
    return session.scalars(select(OutOfUse).order_by(OutOfUse.from_day.desc(), OutOfUse.id.desc())).all()


def out_of_use_on(session: Session, on: dt.date) -> Sequence[OutOfUse]:
    """What is out of use on a day."""
    lasting = or_(OutOfUse.until_day.is_(None), OutOfUse.until_day >= on)
    return session.scalars(select(OutOfUse).where(OutOfUse.from_day <= on, lasting).order_by(OutOfUse.id)).all()


def out_of_use_at(session: Session, kind: str, place: str) -> Sequence[OutOfUse]:
    """When one place is out of use, the earliest first."""
    here = select(OutOfUse).where(OutOfUse.kind == kind, OutOfUse.place == place)
    return session.scalars(here.order_by(OutOfUse.from_day)).all()


def one_out_of_use(session: Session, key: int) -> OutOfUse:
    """One entry of what is out of use."""
    return found(session.get(OutOfUse, key), "entry of what is out of use", str(key))


def amenities(session: Session) -> Sequence[Amenity]:
    """Toilets, seats, exits and the like."""
    return session.scalars(select(Amenity).order_by(Amenity.position)).all()


def doors_with_a_step(session: Session, floor: Floor) -> Sequence[Door]:
    """The doors of a floor that have a step in them."""
    stepped = select(Door).where(Door.floor_id == floor.id, Door.step_mm > 0)
    return session.scalars(stepped.order_by(Door.position)).all()


def amenities_on(session: Session, floor: Floor) -> Sequence[Amenity]:
    """Toilets, seats, exits and the like on one floor."""
    mine = select(Amenity).join(Amenity.room).where(Room.floor_id == floor.id)
    return session.scalars(mine.order_by(Amenity.position)).all()
