"""What the outings of a tour tell together: minutes that turn out otherwise, and questions that recur."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.model import Station
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.search.asking import FoundRecord
from archive.store.model import Collection
from archive.tours.given.estimates import Estimate, Share, estimate, shared_out, worth_offering
from archive.tours.given.planned import from_data
from archive.tours.given.queries import MinutesChange, also_told_on, last_minutes_changes, outings_of
from archive.tours.given.questions import Asked, Recurring, recurring
from archive.tours.given.timing import RealTour, real_tour
from archive.tours.model import Outing, Telling
from archive.tours.sheet import TimedStop
from archive.web.desk.giving.outing_pages import counted
from archive.web.desk.pages import tour_page
from archive.web.searching import ask

_ANSWERS = 3
_FIXED = ("clip", "demonstration")


@dataclass(frozen=True)
class NewMinutes:
    """A telling with the minutes that are offered for it, and the other tours it is told on."""

    telling: Telling
    minutes: float
    also_on: Sequence[str]


@dataclass(frozen=True)
class StopAfterwards:
    """A stop of the tour as it is now, and how long it took where nothing of it was dropped.

    `offered` is empty where the plan is near enough, or where nothing at the stop can change. `undo` are the last
    changes of minutes here that still stand.
    """

    timed: TimedStop
    real: Sequence[float]
    found: Estimate | None
    walked: Estimate | None
    offered: Sequence[NewMinutes]
    undo: Sequence[MinutesChange]


@dataclass(frozen=True)
class AnsweredQuestion:
    """A question that recurs, with what the search finds for it."""

    question: Recurring
    answers: Sequence[FoundRecord]
    stations: Sequence[Station]


@dataclass(frozen=True)
class AfterwardsPage:
    """All outings of a tour together."""

    collection: Collection
    tour_ref: str
    name: str
    outings: int
    stops: Sequence[StopAfterwards]
    questions: Sequence[AnsweredQuestion]


def afterwards_page(session: Session, viewer: Viewer, ref: str) -> AfterwardsPage:
    """The page of a tour."""
    page = tour_page(session, viewer, ref)
    rows = outings_of(session, page.sheet.tour)
    real = [real_tour(from_data(row.planned), counted(row)) for row in rows]
    by_ref = {station.ref: station for station in stations(session)}
    keys = {item.telling.id for timed in page.sheet.stops for item in timed.told}
    also = also_told_on(session, page.sheet.tour, keys)
    changes = last_minutes_changes(session, [item.telling.ref for t in page.sheet.stops for item in t.told])
    return AfterwardsPage(
        collection=page.collection,
        tour_ref=ref,
        name=page.sheet.tour.name,
        outings=len(rows),
        stops=[_stop(timed, real, also, changes) for timed in page.sheet.stops],
        questions=[_answered(viewer, question, by_ref) for question in recurring(_asked(rows))],
    )


def _stop(
    timed: TimedStop, real: Sequence[RealTour], also: Mapping[int, list[str]], changes: Mapping[str, MinutesChange]
) -> StopAfterwards:
    minutes, walks = _minutes_at(timed, real), _walks_to(timed, real)
    found = estimate(minutes)
    told = [item.telling for item in timed.told]
    undo = [changes[telling.ref] for telling in told if telling.ref in changes]
    return StopAfterwards(
        timed=timed,
        real=minutes,
        found=found,
        walked=estimate(walks),
        offered=_offered(timed, found, also),
        undo=[change for change in undo if _stands(change, told)],
    )


def _minutes_at(timed: TimedStop, real: Sequence[RealTour]) -> list[float]:
    """How long the stop took without waiting, when the very tellings of now were planned there and none dropped."""
    refs = tuple(item.telling.ref for item in timed.told)
    here = timed.stop.station.ref
    return [
        stop.telling_minutes
        for tour in real
        for stop in tour.stops
        if stop.planned.station == here and stop.whole and stop.telling_minutes is not None
        if tuple(telling.ref for telling in stop.planned.tellings) == refs
    ]


def _walks_to(timed: TimedStop, real: Sequence[RealTour]) -> list[float]:
    here = timed.stop.station.ref
    return [s.walked for tour in real for s in tour.stops if s.planned.station == here and s.walked is not None]


def _offered(timed: TimedStop, found: Estimate | None, also: Mapping[int, list[str]]) -> list[NewMinutes]:
    if found is None or not worth_offering(timed.telling_minutes, found):
        return []
    told = [item.telling for item in timed.told]
    shares = [Share(telling.ref, telling.minutes, telling.kind in _FIXED) for telling in told]
    minutes = shared_out(shares, found.minutes)
    return [
        NewMinutes(telling, minutes[telling.ref], also.get(telling.id, []))
        for telling in told
        if telling.ref in minutes and abs(minutes[telling.ref] - telling.minutes) > 0.01
    ]


def _stands(change: MinutesChange, told: Sequence[Telling]) -> bool:
    return any(telling.ref == change.telling and abs(telling.minutes - change.after) < 1e-9 for telling in told)


def _asked(rows: Sequence[Outing]) -> list[Asked]:
    return [
        Asked(entry.text, entry.station, row.given_on.isoformat())
        for row in rows
        for entry in row.entries
        if entry.kind == "question"
    ]


def _answered(viewer: Viewer, question: Recurring, by_ref: Mapping[str, Station]) -> AnsweredQuestion:
    hits = ask(viewer, " OR ".join(question.words), {}, limit=_ANSWERS).hits
    return AnsweredQuestion(question, hits, [by_ref[ref] for ref in question.stations if ref in by_ref])
