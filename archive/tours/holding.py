"""Why a kept tour no longer holds on a day: papers that ran out, ways that are closed, what may no longer be told."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from sqlalchemy.orm import Session

from archive.objects.clearance import clearance_on
from archive.plan.queries import out_of_use_on
from archive.rights.decisions import Viewer
from archive.tours.model import Telling, Tour
from archive.tours.queries import telling_ids
from archive.tours.sheet import tour_sheet
from archive.tours.walking import walking_needs, walking_party, ways_on

# What is closed is not told of: not which telling, not which voice, and not that it was ever another.
NO_LONGER_OPEN = "Something on this tour may no longer be told. Plan the rest again."


def faults_of(session: Session, viewer: Viewer, tour: Tour) -> list[str]:
    """Everything that keeps a tour from being given as it stands, on the viewer's day; each once."""
    open_ids = telling_ids(session, viewer)
    told = [chosen.telling for stop in tour.stops for chosen in stop.chosen]
    shown = [telling for telling in told if telling.id in open_ids]
    faults = [*_papers(shown, viewer), *_withdrawn(shown), *_closed_places(session, viewer, tour)]
    if len(shown) < len(told):
        faults.append(NO_LONGER_OPEN)
    faults += _ways(session, viewer, tour)
    total = tour_sheet(tour, open_tellings=open_ids, statements={}, names={}, on=viewer.on).minutes
    if total > tour.minutes + 0.05:
        faults.append(f"It takes {total:.1f} minutes, and it has {tour.minutes:g}.")
    return list(dict.fromkeys(faults))


def _papers(told: list[Telling], viewer: Viewer) -> Iterator[str]:
    for telling in told:
        if telling.demonstration is not None:
            machine = telling.demonstration.machine
            for lacking in clearance_on(machine.clearances, viewer.on).lacking:
                yield f"{machine.name}: {lacking}"


def _withdrawn(told: list[Telling]) -> Iterator[str]:
    for telling in told:
        if telling.withdrawn:
            yield f"Something at {telling.station.name} was taken out of use."


def _closed_places(session: Session, viewer: Viewer, tour: Tour) -> Iterator[str]:
    closed = {(row.kind, row.place): row.why for row in out_of_use_on(session, viewer.on)}
    for stop in tour.stops:
        station = stop.station
        for kind, ref, name in (("station", station.ref, station.name), ("room", station.room.ref, station.room.name)):
            if (kind, ref) in closed:
                why = closed[kind, ref].rstrip(".")
                yield f"{name} is out of use{f': {why}' if why else ''}."
        if tour.group_size > station.room.capacity:
            yield f"{station.room.name} holds {station.room.capacity}, and the group has {tour.group_size}."


def _ways(session: Session, viewer: Viewer, tour: Tour) -> Iterator[str]:
    """Ways that are not there that day for this group."""
    party, needs = walking_party(session, tour.group_size), walking_needs(tour.needs)
    ways = ways_on(session, viewer.on, needs)
    for one, other in itertools.pairwise(stop.station for stop in tour.stops):
        if one.ref != other.ref and ways.leg(one.ref, other.ref, needs, party) is None:
            why = ways.why_not(one.ref, other.ref, needs, party)
            yield f"There is no way from {one.name} to {other.name}: {why}."
