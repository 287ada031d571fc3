"""The page on which a tour is changed by hand: its stops, what is wrong, what was left out and what that would cost."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.plan.model import Station
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.holding import NO_LONGER_OPEN
from archive.tours.judging import Addition, Trouble, additions, troubles
from archive.tours.model import Telling, Tour, TourVersion
from archive.tours.queries import steps_of, tellings, version_of
from archive.tours.sheet import TimedStop, ToldItem, TourSheet
from archive.web.desk.pages import tour_page
from archive.web.desk.planning.standing import problem_as_it_stands, standings
from archive.web.desk.planning.words import how_sure
from archive.web.desk.strip import Strip
from archive.web.desk.titles import titles
from archive.web.desk.walk import WalkedFloor


@dataclass(frozen=True)
class HeldItem:
    """One telling of a stop, and whether it is pinned."""

    item: ToldItem
    pinned: bool


@dataclass(frozen=True)
class HeldStop:
    """A stop with its tellings, whether it is pinned, and what is wrong with it."""

    timed: TimedStop
    pinned: bool
    items: tuple[HeldItem, ...]
    troubles: tuple[Trouble, ...]
    first: bool
    last: bool

    @property
    def at(self) -> int:
        """Its place as the deeds name it."""
        return self.timed.stop.position

    @property
    def station(self) -> Station:
        """Where it is."""
        return self.timed.stop.station


@dataclass(frozen=True)
class Spare:
    """A telling that is not in the tour, and what adding it takes."""

    telling: Telling
    title: str
    adding: Addition

    @property
    def over(self) -> float:
        """The minutes over in quarters, up, so that what is over is never told as nothing."""
        return math.ceil(round(self.adding.over, 2) * 4) / 4


@dataclass(frozen=True)
class SparePlace:
    """A station with what could be told there."""

    station: Station
    stopped_at: bool
    spares: tuple[Spare, ...]


@dataclass(frozen=True)
class EditPage:
    """One tour under the hand.

    `closed` says that something on it may no longer be told, without saying what. `undoes` and `redoes` are the deeds
    that a step back or on concerns, empty at an end.
    """

    collection: Collection
    sheet: TourSheet
    strip: Strip
    floors: Sequence[WalkedFloor]
    stops: Sequence[HeldStop]
    troubles: Sequence[Trouble]
    closed: str
    could_add: Sequence[SparePlace]
    cannot_add: Sequence[SparePlace]
    undoes: str
    redoes: str
    said: str
    sure: str

    @property
    def tour(self) -> Tour:
        """The tour."""
        return self.sheet.tour

    @property
    def nearest(self) -> Spare | None:
        """Of what could be told in more time, that which needs least; None where the tour runs over already."""
        over = [spare for place in self.could_add for spare in place.spares if spare.over]
        return min(over, key=lambda spare: spare.adding.over, default=None) if self.sheet.spare > -0.05 else None

    @property
    def clear(self) -> bool:
        """Whether nothing is wrong with it."""
        return not (self.troubles or self.closed or any(stop.troubles for stop in self.stops))


def edit_page(session: Session, viewer: Viewer, ref: str, *, did: str = "") -> EditPage:
    """The tour as it stands. `did` names the step that led here, if it was one back or on."""
    shown = tour_page(session, viewer, ref)
    tour = shown.sheet.tour
    places = {one.ref: one for one in stations(session)}
    problem = problem_as_it_stands(session, viewer, tour)
    standing = standings(problem, shown.sheet)
    wrong = troubles(problem, standing, {one.ref: one.name for one in places.values()})
    spare_places = _spare_places(
        session, viewer, additions(problem, standing), places, {one.station for one in standing}
    )
    back, on = steps_of(session, tour)
    return EditPage(
        collection=collection(session),
        sheet=shown.sheet,
        strip=shown.strip,
        floors=shown.floors,
        stops=[_held(timed, wrong, len(shown.sheet.stops)) for timed in shown.sheet.stops],
        troubles=[one for one in wrong if one.position is None],
        closed=NO_LONGER_OPEN if _hides(shown.sheet) else "",
        could_add=[one for one in spare_places if not one.spares[0].adding.barred],
        cannot_add=[one for one in spare_places if one.spares[0].adding.barred],
        undoes=back,
        redoes=on,
        said=_said(did, back, on),
        sure=how_sure(tour, as_planned=_as_planned(session, tour)),
    )


def _hides(sheet: TourSheet) -> bool:
    """Whether the tour holds more than the viewer may know of."""
    kept = sum(len(stop.chosen) for stop in sheet.tour.stops)
    return kept > sum(len(timed.told) for timed in sheet.stops)


def _held(timed: TimedStop, wrong: Sequence[Trouble], count: int) -> HeldStop:
    pins = {chosen.telling_id: chosen.pinned for chosen in timed.stop.chosen}
    return HeldStop(
        timed=timed,
        pinned=timed.stop.pinned,
        items=tuple(HeldItem(item, pins[item.telling.id]) for item in timed.told),
        troubles=tuple(one for one in wrong if one.position == timed.stop.position),
        first=timed.number == 1,
        last=timed.number == count,
    )


def _spare_places(
    session: Session,
    viewer: Viewer,
    adds: Sequence[Addition],
    places: Mapping[str, Station],
    stopped_at: set[str],
) -> list[SparePlace]:
    """What is not told, by station: at each first what can be told, then (as a place of its own) what cannot."""
    rows = {one.ref: one for one in tellings(session, viewer)}
    named = titles(session, viewer, rows.values())
    groups: dict[tuple[bool, str], list[Spare]] = {}
    for one in adds:
        if one.telling in rows and not rows[one.telling].withdrawn:
            spare = Spare(rows[one.telling], named[one.telling], one)
            groups.setdefault((bool(one.barred), one.station), []).append(spare)
    made = [
        SparePlace(places[station], station in stopped_at, tuple(sorted(mine, key=lambda one: one.adding.minutes)))
        for (_barred, station), mine in groups.items()
    ]
    return sorted(made, key=lambda one: one.station.number)


def _as_planned(session: Session, tour: Tour) -> bool:
    """Whether it still stops where, and tells what, the planner found."""
    row = now = version_of(session, tour, tour.version)
    while row is not None and row.state["outcome"] == tour.outcome:
        planned, row = row, version_of(session, tour, row.number - 1)
    return now is None or _outline(planned) == _outline(now)


def _outline(version: TourVersion) -> list[tuple[str, list[str]]]:
    return [(stop["station"], [one["ref"] for one in stop["tellings"]]) for stop in version.state["stops"]]


def _said(did: str, back: str, on: str) -> str:
    """The last deed, in words to be read out."""
    if did == "undo" and on:
        return str(_("Undone: %(deed)s", deed=on))
    if did == "redo" and back:
        return str(_("Done again: %(deed)s", deed=back))
    return back if did else ""
