"""A tour of the Desk as the planner sees it: its wishes and problem for a day, its stops as they stand, its pins."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from sqlalchemy.orm import Session

from archive.errors import Unacceptable
from archive.rights.decisions import Viewer
from archive.tours.judging import Standing
from archive.tours.model import Tour
from archive.tours.planning.building import problem_of
from archive.tours.planning.problem import Problem
from archive.tours.sheet import TimedStop, TourSheet
from archive.tours.waiting import tenths_up
from archive.tours.wishes import Wishes, read_wishes


def wishes_like(tour: Tour, on: dt.date) -> Wishes:
    """The wishes of a tour, for another day; of one that was written by hand, what is known of it."""
    needs = {need.replace("-", "_"): True for need in tour.needs if need != "seats"}
    known = {
        "minutes": tour.minutes,
        "group_size": tour.group_size,
        "audience": tour.audience,
        "start": tour.start.ref if tour.start else None,
        "finish": tour.finish.ref if tour.finish else None,
        **needs,
    }
    kept = {name: value for name, value in tour.inputs.items() if name not in ("pinned", "date")}
    try:
        return read_wishes({**known, **kept, "date": on})
    except Unacceptable:
        return read_wishes({**known, "date": on})


def problem_as_it_stands(session: Session, viewer: Viewer, tour: Tour) -> Problem:
    """What the tour is chosen from today, by its wishes."""
    return problem_of(session, wishes_like(tour, viewer.on), viewer)


def standings(problem: Problem, sheet: TourSheet) -> list[Standing]:
    """The stops that the viewer may know of, by reference."""
    return [_standing(problem, timed) for timed in sheet.stops]


def _standing(problem: Problem, timed: TimedStop) -> Standing:
    told = [item.telling for item in timed.told]
    besides = {one.ref: tenths_up(one.minutes) for one in told if one.ref not in problem.choice}
    return Standing(timed.stop.position, timed.stop.station.ref, _told(timed), besides)


def wishes_with_pins(sheet: TourSheet) -> Wishes:
    """The tour's wishes with what is pinned: a pinned stop stays with all that is told there, in its order."""
    pinned = []
    for timed in sheet.stops:
        pins = {chosen.telling.ref for chosen in timed.stop.chosen if chosen.pinned}
        kept = _told(timed) if timed.stop.pinned else tuple(ref for ref in _told(timed) if ref in pins)
        if timed.stop.pinned or kept:
            pinned.append((timed.stop.station.ref, kept))
    return replace(wishes_like(sheet.tour, sheet.on), pinned=tuple(pinned))


def _told(timed: TimedStop) -> tuple[str, ...]:
    return tuple(item.telling.ref for item in timed.told)
