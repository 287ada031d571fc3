"""Every select on outings and their logs, and how long what is carried out of reach may be used."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Select, func, select
from sqlalchemy.orm import Session, selectinload

from archive.rights.decisions import Viewer
from archive.rights.model import Permission
from archive.rights.queries import permission_open
from archive.store.model import Change
from archive.store.queries import found
from archive.tours.model import Outing, OutingEntry, Stop, StopTelling, Telling, Tour
from archive.tours.sheet import TourSheet

LONGEST_KEPT = dt.timedelta(days=7)
_WHOLE = (selectinload(Outing.entries), selectinload(Outing.tour))


@dataclass(frozen=True)
class MinutesChange:
    """That a telling's minutes were changed: when, by whom, from what to what."""

    telling: str
    at: dt.datetime
    who: str
    before: float
    after: float


def outings(session: Session, account_id: int | None, *, incidents: bool = False) -> Sequence[Outing]:
    """The outings of one guide, or with None those of all, the newest first; only those with an incident if asked."""
    wanted = _wanted(account_id).options(*_WHOLE)
    if incidents:
        wanted = wanted.where(_has_incident())
    return session.scalars(wanted.order_by(Outing.given_on.desc(), Outing.id.desc())).all()


def incident_count(session: Session, account_id: int | None) -> int:
    """How many of these outings tell of an incident."""
    wanted = _wanted(account_id).where(_has_incident())
    return session.scalar(select(func.count()).select_from(wanted.subquery())) or 0


def outing(session: Session, key: int, account_id: int | None) -> Outing:
    """One outing of a guide, or with None of anybody."""
    wanted = _wanted(account_id).where(Outing.id == key).options(*_WHOLE)
    return found(session.scalar(wanted), "outing", str(key))


def outings_of(session: Session, tour: Tour) -> Sequence[Outing]:
    """Every giving of a tour, the oldest first, with its log."""
    mine = select(Outing).where(Outing.tour_id == tour.id).options(*_WHOLE)
    return session.scalars(mine.order_by(Outing.given_on, Outing.id)).all()


def outing_by_key(session: Session, key: str) -> Outing | None:
    """The outing that a device made this key for."""
    return session.scalar(select(Outing).where(Outing.key == key).options(*_WHOLE))


def tour_or_none(session: Session, ref: str) -> Tour | None:
    """The tour with this reference, if it is still there."""
    return session.scalar(select(Tour).where(Tour.ref == ref))


def telling_to_change(session: Session, ref: str) -> Telling:
    """A telling by reference, to be changed; whether it is open was asked before."""
    return found(session.scalar(select(Telling).where(Telling.ref == ref)), "telling", ref)


def also_told_on(session: Session, tour: Tour, telling_ids: Iterable[int]) -> dict[int, list[str]]:
    """The names of other tours on which each of the tellings is told."""
    told = (
        select(StopTelling.telling_id, Tour.name)
        .join(Stop, Stop.id == StopTelling.stop_id)
        .join(Tour, Tour.id == Stop.tour_id)
        .where(StopTelling.telling_id.in_(list(telling_ids)), Tour.id != tour.id, ~Tour.withdrawn)
    )
    names: dict[int, list[str]] = {}
    for telling_id, name in session.execute(told.distinct().order_by(Tour.name)):
        names.setdefault(telling_id, []).append(name)
    return names


def last_minutes_changes(session: Session, refs: Iterable[str]) -> dict[str, MinutesChange]:
    """The last change of each telling's minutes, by its reference."""
    records = [f"telling:{ref}" for ref in refs]
    rows = session.scalars(
        select(Change).where(Change.record.in_(records), Change.kind == "changed").order_by(Change.id)
    )
    last: dict[str, MinutesChange] = {}
    for row in rows:
        before, after = row.before or {}, row.after or {}
        if "minutes" in before and "minutes" in after:
            ref = row.record.removeprefix("telling:")
            last[ref] = MinutesChange(ref, row.at, row.who, float(before["minutes"]), float(after["minutes"]))
    return last


def may_be_used_until(session: Session, viewer: Viewer, sheet: TourSheet) -> dt.date:
    """The last day on which what is carried out of reach may be used: a week, or less where something runs out.

    What runs out is an open agreement that will be withdrawn on a day already known, and the papers of a machine that
    is run on the tour.
    """
    ends = [viewer.on + LONGEST_KEPT]
    withdrawn = session.scalar(select(func.min(Permission.withdrawn_on)).where(permission_open(viewer)))
    if withdrawn is not None:
        ends.append(withdrawn - dt.timedelta(days=1))
    items = (item for timed in sheet.stops for item in timed.told)
    ends += [item.clearance.until for item in items if item.clearance and item.clearance.until]
    return max(viewer.on, min(ends))


def _wanted(account_id: int | None) -> Select[Outing]:
    return select(Outing) if account_id is None else select(Outing).where(Outing.account_id == account_id)


def _has_incident() -> ColumnElement[bool]:
    return Outing.entries.any(OutingEntry.kind == "incident")
