"""Every change to departures; none commits."""

from __future__ import annotations

import datetime as dt
import secrets
from collections.abc import Mapping

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.tours.day.asked import DepartureAsked
from archive.tours.day.queries import departure, departures, dropped
from archive.tours.model import Departure, Tour
from archive.tours.queries import tour


def add_departure(session: Session, day: dt.date, asked: DepartureAsked) -> Departure:
    """A departure more on a day."""
    row = Departure(ref=f"dp-{secrets.token_hex(6)}", day=day, tour_id=None)
    _put(session, row, asked)
    session.add(row)
    session.flush()
    return row


def change_departure(session: Session, ref: str, asked: DepartureAsked) -> Departure:
    """Tour, guide, group, window, time and note as they are asked now; without a time it is no longer fixed."""
    row = departure(session, ref)
    _put(session, row, asked)
    return row


def leave_at(session: Session, ref: str, minute: int | None) -> Departure:
    """Set by hand when a departure leaves; without a time it is no longer fixed."""
    row = departure(session, ref)
    row.leaves, row.fixed = minute, row.fixed and minute is not None
    return row


def fix(session: Session, ref: str, *, fixed: bool) -> Departure:
    """Hold a departure to its time, or let go of it; one without a time cannot be held."""
    row = departure(session, ref)
    row.fixed = fixed and row.leaves is not None
    return row


def drop(session: Session, ref: str) -> Departure:
    """Take a departure off its day; `bring_back` puts it there again."""
    row = departure(session, ref)
    session.delete(row)
    return row


def bring_back(session: Session, ref: str) -> Departure:
    """Put a dropped departure back as it was; without its tour, if that has gone in the meantime."""
    before = dict(dropped(session, ref).before or {})
    kept = {name: before[name] for name in _KEPT}
    here = session.get(Tour, before["tour_id"]) if before["tour_id"] else None
    row = Departure(**kept, day=dt.date.fromisoformat(before["day"]), tour_id=here.id if here else None)
    session.add(row)
    session.flush()
    return row


def set_times(session: Session, day: dt.date, times: Mapping[str, int]) -> None:
    """Let the departures of a day leave when a plan has them leave; those that are fixed are left alone."""
    rows = {row.ref: row for row in departures(session, day)}
    gone = sorted(set(times) - set(rows))
    if gone:
        raise NotFound("The day's departures were changed while it was planned. Plan it again.")
    for ref, leaves in times.items():
        if not rows[ref].fixed:
            rows[ref].leaves = leaves


_KEPT = ("ref", "guide", "group_size", "earliest", "latest", "leaves", "fixed", "note")


def _put(session: Session, row: Departure, asked: DepartureAsked) -> None:
    chosen = tour(session, asked.tour)
    row.tour_id, row.tour = chosen.id, chosen
    row.guide, row.group_size, row.note = asked.guide, asked.group_size, asked.note
    row.earliest, row.latest, row.leaves = asked.earliest, asked.latest, asked.leaves
    row.fixed = asked.fixed and asked.leaves is not None
