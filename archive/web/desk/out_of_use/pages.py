"""What the page of places out of use shows, as frozen records."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from archive.plan.model import OutOfUse, Station
from archive.plan.places import Place, places
from archive.plan.queries import out_of_use, stations
from archive.plan.ways import Needs, Party, Ways, open_ways_of, ways_of

KEPT_DAYS = 365
_KINDS = ("room", "station", "door", "passage")
_ON_FOOT, _BY_WHEELCHAIR = Needs(), Needs(step_free=True, narrow=True)


@dataclass(frozen=True)
class Entry:
    """One place out of use, and what people call it; a place that the plan has no longer is called by its reference."""

    row: OutOfUse
    name: str


@dataclass(frozen=True)
class OutOfUsePage:
    """Everything that is out of use on a day, will be, or was in the last year, and the form to add to it."""

    on: dt.date
    now: Sequence[Entry]
    later: Sequence[Entry]
    over: Sequence[Entry]
    choices: Mapping[str, Sequence[Place]]
    cut_off: Sequence[Station]
    cut_off_wheelchair: Sequence[Station]
    given: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)


def out_of_use_page(
    session: Session,
    on: dt.date,
    *,
    given: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> OutOfUsePage:
    """The page for a day."""
    known = places(session)
    names = {(place.kind, place.ref): place.name for place in known}
    entries = [Entry(row, names.get((row.kind, row.place), row.place)) for row in out_of_use(session)]
    ended = [entry for entry in entries if entry.row.until_day and entry.row.until_day < on]
    begun = [entry for entry in entries if entry.row.from_day <= on and entry not in ended]
    return OutOfUsePage(
        on=on,
        now=begun,
        later=[entry for entry in reversed(entries) if entry.row.from_day > on],
        over=[entry for entry in ended if entry.row.until_day and (on - entry.row.until_day).days <= KEPT_DAYS],
        choices={kind: [place for place in known if place.kind == kind] for kind in _KINDS},
        cut_off=_cut_off(session, on, _ON_FOOT) if begun else (),
        cut_off_wheelchair=_cut_off(session, on, _BY_WHEELCHAIR) if begun else (),
        given=given or {"from": on.isoformat()},
        faults=faults or {},
    )


def _cut_off(session: Session, on: dt.date, needs: Needs) -> list[Station]:
    """The stations that lose their way on a day: reached from most of the house when all is in use, and not now."""
    rows = stations(session)
    refs = [row.ref for row in rows]
    lost = _reached(open_ways_of(session), refs, needs) - _reached(ways_of(session, on), refs, needs)
    return [row for row in rows if row.ref in lost]


def _reached(ways: Ways, refs: Sequence[str], needs: Needs) -> set[str]:
    """The largest set of stations that can be reached from one of them."""
    found: dict[str, set[str]] = {ref: {ref} for ref in refs}
    for start, finish in ways.minutes(refs, needs, Party(1, 1.0)):
        found[start].add(finish)
    return max(found.values(), key=len, default=set())
