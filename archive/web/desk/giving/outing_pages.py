"""Outings as pages: the list, one outing planned against real, and what several tell together."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.model import Station
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.given.handed import TAKEN_BACK
from archive.tours.given.planned import from_data
from archive.tours.given.queries import incident_count, outing, outings
from archive.tours.given.timing import RealStop, RealTour, real_tour
from archive.tours.model import Outing, OutingEntry
from archive.tours.queries import tellings
from archive.values.dayclock import house_time
from archive.web.desk.giving.words import words_as_json
from archive.web.desk.titles import titles

WRITTEN = ("question", "note", "incident")


@dataclass(frozen=True)
class OutingLine:
    """An outing in the list: how long it took, and how much was written down."""

    outing: Outing
    guide: str
    real: RealTour
    counts: Mapping[str, int]


@dataclass(frozen=True)
class OutingsPage:
    """The outings of one guide, or of all for a keeper."""

    collection: Collection
    lines: Sequence[OutingLine]
    incidents: int
    only_incidents: bool
    everyones: bool

    @property
    def words(self) -> str:
        """What the page's script says, as JSON."""
        return words_as_json()


@dataclass(frozen=True)
class ToldStop:
    """A stop of an outing with the records that are open today."""

    real: RealStop
    station: Station | None
    dropped: Sequence[str]


@dataclass(frozen=True)
class OutingPage:
    """One outing."""

    collection: Collection
    outing: Outing
    guide: str
    real: RealTour
    stops: Sequence[ToldStop]
    written: Sequence[OutingEntry]
    stations: Mapping[str, Station]

    @property
    def started(self) -> dt.datetime | None:
        """When it started, on the clock of the house."""
        return house_time(self.real.started) if self.real.started else None


def outings_page(
    session: Session, account_id: int | None, guides: Mapping[int, str], *, only_incidents: bool
) -> OutingsPage:
    """The list, the newest first."""
    rows = outings(session, account_id, incidents=only_incidents)
    return OutingsPage(
        collection=collection(session),
        lines=[OutingLine(row, guides.get(row.account_id or 0, ""), _real(row), _counts(row)) for row in rows],
        incidents=incident_count(session, account_id),
        only_incidents=only_incidents,
        everyones=account_id is None,
    )


def outing_page(
    session: Session, viewer: Viewer, key: int, account_id: int | None, guides: Mapping[int, str]
) -> OutingPage:
    """One outing; what was planned is named only as far as it is open today."""
    row = outing(session, key, account_id)
    by_ref = {station.ref: station for station in stations(session)}
    named = titles(session, viewer, tellings(session, viewer))
    real = _real(row)
    told = [
        ToldStop(stop, by_ref.get(stop.planned.station), [named[ref] for ref in stop.dropped if ref in named])
        for stop in real.stops
    ]
    return OutingPage(
        collection=collection(session),
        outing=row,
        guide=guides.get(row.account_id or 0, ""),
        real=real,
        stops=told,
        written=[entry for entry in row.entries if entry.kind in WRITTEN],
        stations=by_ref,
    )


def counted(row: Outing) -> list[OutingEntry]:
    """The lines of its log that were not taken back."""
    return [entry for entry in row.entries if entry.kind != TAKEN_BACK]


def _real(row: Outing) -> RealTour:
    return real_tour(from_data(row.planned), counted(row))


def _counts(row: Outing) -> dict[str, int]:
    return {kind: sum(entry.kind == kind for entry in row.entries) for kind in WRITTEN}
