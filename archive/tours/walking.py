"""The ways of a tour: who walks, what the group needs of them, and the leg from each stop to the next."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Collection

from sqlalchemy.orm import Session

from archive.plan.ways import Leg, Needs, Party, ways_of
from archive.store.queries import collection
from archive.tours.sheet import TourSheet


def walking_needs(words: Collection[str]) -> Needs:
    """A tour's needs, in its own words, as far as they bear on its ways."""
    return Needs("step-free" in words, "narrow" in words, "no-lift" in words, "quiet" in words)


def walking_party(session: Session, group_size: int) -> Party:
    """A group at the collection's walking pace."""
    return Party(group_size, collection(session).walking_pace_m_per_s)


def tour_legs(session: Session, sheet: TourSheet, on: dt.date) -> list[Leg | None]:
    """The way from each stop to the next, by the tour's needs; None where there is none on that day."""
    ways, needs = ways_of(session, on), walking_needs(sheet.tour.needs)
    party = walking_party(session, sheet.tour.group_size)
    refs = [timed.stop.station.ref for timed in sheet.stops]
    return [ways.leg(one, other, needs, party) for one, other in itertools.pairwise(refs)]
