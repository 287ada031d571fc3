"""The pages of a tour on the floor, as frozen records: the sheet, and the page it is given with."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from archive.objects.running.line import Line
from archive.objects.running.queries import before_start
from archive.plan.model import Amenity
from archive.processes.model import Hazard
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.tours.given.planned import as_data, planned_of
from archive.tours.given.queries import may_be_used_until
from archive.tours.sheet import TimedStop, ToldItem, TourSheet
from archive.values.dayclock import minute_told
from archive.web.desk.giving.floor import FloorStop, floor_stops
from archive.web.desk.giving.words import words_as_json
from archive.web.desk.pages import tour_page
from archive.web.desk.running.data import checks_data
from archive.web.desk.walk import WalkedFloor


@dataclass(frozen=True)
class FloorPage:
    """A tour with everything that is needed of it on the floor.

    `starts` is a minute of the day, or None. `sounds` gives the address of each clip's sound; `checks` what must be
    confirmed before each demonstration that may run. `carried` says that the page lies in a pack on a disk.
    """

    collection: Collection
    sheet: TourSheet
    floors: Sequence[WalkedFloor]
    names: Mapping[int, str]
    hazards: Sequence[Hazard]
    amenities: Sequence[Amenity]
    lines: Mapping[str, Line]
    stops: Sequence[FloorStop]
    starts: int | None
    sounds: Mapping[str, str]
    checks: Mapping[str, Any]
    guide: str
    until: dt.date
    carried: bool = False

    @property
    def words(self) -> str:
        """What the page's script says, as JSON."""
        return words_as_json()

    @property
    def plan(self) -> str:
        """What the page's script must know of the tour, as JSON."""
        tour = self.sheet.tour
        told = {
            "tour": tour.ref,
            "minutes": tour.minutes,
            "guide": self.guide,
            "planned": as_data(planned_of(self.sheet)),
            "stops": [_stop(timed) for timed in self.sheet.stops],
        }
        return json.dumps(told, ensure_ascii=False, sort_keys=True)

    def time_of(self, minutes: float) -> str:
        """The clock time so many minutes after the start, or the minutes themselves where no start is given."""
        if self.starts is not None:
            return minute_told(self.starts + minutes)
        seconds = round(minutes * 60)
        return f"{seconds // 60}:{seconds % 60:02d}"


def floor_page(
    session: Session,
    viewer: Viewer,
    ref: str,
    *,
    starts: int | None,
    guide: str = "",
    carried: bool = False,
) -> FloorPage:
    """The page of a tour on the viewer's day."""
    page = tour_page(session, viewer, ref, starts_at=starts)
    return FloorPage(
        collection=page.collection,
        sheet=page.sheet,
        floors=page.floors,
        names=page.names,
        hazards=page.hazards,
        amenities=page.amenities,
        lines=page.lines,
        stops=floor_stops(session, viewer, page.sheet),
        starts=starts,
        sounds={},
        checks=_checks(session, viewer, page.sheet, page.names),
        guide=guide,
        until=may_be_used_until(session, viewer, page.sheet),
        carried=carried,
    )


def heard_items(sheet: TourSheet) -> list[ToldItem]:
    """The tellings of a sheet that are voices, in their order."""
    return [item for timed in sheet.stops for item in timed.told if item.telling.clip]


def _checks(session: Session, viewer: Viewer, sheet: TourSheet, names: Mapping[int, str]) -> dict[str, Any]:
    """The checks of each demonstration on the sheet that may run, as data for the script, by reference."""
    run = [item.telling.demonstration for timed in sheet.stops for item in timed.told if item.telling.demonstration]
    checks = [before_start(session, demonstration, viewer, names) for demonstration in run]
    return {each.subject.ref: checks_data(each) for each in checks if each.may_run}


def _stop(timed: TimedStop) -> dict[str, Any]:
    pinned = {chosen.telling_id for chosen in timed.stop.chosen if chosen.pinned}
    return {
        "station": timed.stop.station.ref,
        "name": timed.stop.station.name,
        "walk": round(timed.walk, 2),
        "pinned": timed.stop.pinned,
        "tellings": [
            {
                "ref": item.telling.ref,
                "title": item.title,
                "minutes": item.telling.minutes,
                "not_before": item.not_before,
                "kind": item.telling.kind,
                "pinned": item.telling.id in pinned,
            }
            for item in timed.told
        ],
    }
