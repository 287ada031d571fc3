"""What the Desk's pages show, as frozen records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.evidence.model import Statement
from archive.evidence.queries import ShownStatement, statements, statements_by_id
from archive.interviews.names import shown_names
from archive.objects.running.line import Line
from archive.objects.running.queries import lines_for
from archive.plan.model import Amenity, Station
from archive.plan.queries import amenities, station
from archive.processes.model import Hazard
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.holding import faults_of
from archive.tours.model import TELLING_KINDS, Tour
from archive.tours.queries import telling_ids, tellings_at, tour, tours, withdrawn_tours
from archive.tours.sheet import ToldItem, TourSheet, statement_keys, told_items, tour_sheet
from archive.web.desk.strip import Strip, strip_of
from archive.web.desk.walk import WalkedFloor, walked_floors


@dataclass(frozen=True)
class TourLine:
    """A tour in the list, and why it no longer holds, if it does not."""

    sheet: TourSheet
    strip: Strip
    fallen: Sequence[str]


@dataclass(frozen=True)
class ToursPage:
    """All tours; those that were taken out of the list apart."""

    collection: Collection
    tours: Sequence[TourLine]
    away: Sequence[Tour]


@dataclass(frozen=True)
class TourPage:
    """One tour, with everything that its sheet needs; `lines` to stand behind are by reference of the demonstration."""

    collection: Collection
    sheet: TourSheet
    strip: Strip
    floors: Sequence[WalkedFloor]
    names: Mapping[int, str]
    hazards: Sequence[Hazard]
    amenities: Sequence[Amenity]
    lines: Mapping[str, Line]


@dataclass(frozen=True)
class StationPage:
    """One station: every telling open to the guide, and the statements about it."""

    collection: Collection
    station: Station
    told: Sequence[ToldItem]
    statements: Sequence[ShownStatement]
    names: Mapping[int, str]
    lines: Mapping[str, Line]


def tours_page(session: Session, viewer: Viewer) -> ToursPage:
    """All tours, timed for the viewer's day."""
    sheets = _sheets(session, viewer, tours(session), shown_names(session, viewer))
    lines = [TourLine(sheet, strip_of(sheet), faults_of(session, viewer, sheet.tour)) for sheet in sheets]
    return ToursPage(collection(session), lines, withdrawn_tours(session))


def tour_page(session: Session, viewer: Viewer, ref: str, *, starts_at: int | None = None) -> TourPage:
    """One tour; with the minute of the day at which it starts, where it is not the one that was wished."""
    names = shown_names(session, viewer)
    sheet = _sheets(session, viewer, [tour(session, ref)], names, starts_at)[0]
    met = {hazard.id: hazard for timed in sheet.stops for hazard in _hazards_at(timed.stop.station)}
    return TourPage(
        collection=collection(session),
        sheet=sheet,
        strip=strip_of(sheet),
        floors=walked_floors(session, sheet, viewer.on),
        names=names,
        hazards=sorted(met.values(), key=lambda hazard: hazard.name),
        amenities=amenities(session),
        lines=lines_for(session, (item.telling.demonstration for timed in sheet.stops for item in timed.told)),
    )


def tour_sheet_of(session: Session, viewer: Viewer, row: Tour) -> TourSheet:
    """A tour as its sheet has it."""
    return _sheets(session, viewer, [row], shown_names(session, viewer))[0]


def station_page(session: Session, viewer: Viewer, ref: str) -> StationPage:
    """One station."""
    here = station(session, ref)
    about = statements(session, viewer, Statement.stations.any(Station.id == here.id))
    mine = sorted(tellings_at(session, viewer, here), key=lambda telling: TELLING_KINDS.index(telling.kind))
    names = shown_names(session, viewer)
    keys = {row.id for telling in mine for row in telling.statements}
    return StationPage(
        collection=collection(session),
        station=here,
        told=told_items(mine, statements_by_id(session, viewer, keys), names, viewer.on),
        statements=about,
        names=names,
        lines=lines_for(session, (telling.demonstration for telling in mine)),
    )


def _sheets(
    session: Session, viewer: Viewer, rows: Sequence[Tour], names: dict[int, str], starts_at: int | None = None
) -> list[TourSheet]:
    kept = telling_ids(session, viewer)
    shown = statements_by_id(session, viewer, statement_keys(rows))
    return [
        tour_sheet(row, open_tellings=kept, statements=shown, names=names, on=viewer.on, starts_at=starts_at)
        for row in rows
    ]


def _hazards_at(station: Station) -> list[Hazard]:
    return [hazard for process in station.processes for hazard in process.hazards]  # type: ignore[attr-defined]
