"""The ways of a tour: who walks, what the group needs of them, and the leg from each stop to the next."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Collection

from sqlalchemy.orm import Session

from archive.plan.ways import Leg, Needs, Party, Ways, ways_of
from archive.store.queries import collection
from archive.tours.heard import heard_levels
from archive.tours.sheet import TourSheet

# The room of a machine that may run that day, as loud as this, is a noisy room for those who wish it quiet.
NOISY_DB = 80


def walking_needs(words: Collection[str]) -> Needs:
    """A tour's needs, in its own words, as far as they bear on its ways."""
    return Needs("step-free" in words, "narrow" in words, "no-lift" in words, "quiet" in words)


def walking_party(session: Session, group_size: int) -> Party:
    """A group at the collection's walking pace."""
    return Party(group_size, collection(session).walking_pace_m_per_s)


def ways_on(session: Session, on: dt.date, needs: Needs) -> Ways:
    """The ways of a day; for those who need it quiet, none leads through the room of a machine that may run."""
    return ways_of(session, on, noisy_rooms=noisy_rooms(session, on) if needs.quiet else frozenset())


def noisy_rooms(session: Session, on: dt.date) -> frozenset[str]:
    """The rooms in which a machine may run on a day that is loud there."""
    heard = heard_levels(session, on)
    rooms = {ref: room for ref, room in heard.stands_in.items() if ref in heard.cleared}
    return frozenset(room for ref, room in rooms.items() if heard.in_room.get(ref, {}).get(room, 0) >= NOISY_DB)


def tour_legs(session: Session, sheet: TourSheet, on: dt.date) -> list[Leg | None]:
    """The way from each stop to the next, by the tour's needs; None where there is none on that day."""
    needs = walking_needs(sheet.tour.needs)
    ways = ways_on(session, on, needs)
    party = walking_party(session, sheet.tour.group_size)
    refs = [timed.stop.station.ref for timed in sheet.stops]
    return [ways.leg(one, other, needs, party) for one, other in itertools.pairwise(refs)]
