"""Every select on departures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import func, select
from sqlalchemy.orm import Session, selectinload

from archive.errors import NotFound
from archive.store.model import Change
from archive.store.queries import found
from archive.tours.model import Departure, Tour
from archive.tours.queries import tours


def departures(session: Session, day: dt.date) -> Sequence[Departure]:
    """The departures of a day, by the time that they leave, those without one last."""
    mine = select(Departure).where(Departure.day == day).options(selectinload(Departure.tour))
    order = (Departure.leaves.is_(None), Departure.leaves, Departure.earliest, Departure.ref)
    return session.scalars(mine.order_by(*order)).all()


def departure(session: Session, ref: str) -> Departure:
    """One departure."""
    return found(session.scalar(select(Departure).where(Departure.ref == ref)), "departure", ref)


def days(session: Session) -> list[tuple[dt.date, int, int]]:
    """The days that have departures, the latest first: how many, and how many of them have no time yet."""
    waiting = func.count(Departure.id) - func.count(Departure.leaves)
    told = select(Departure.day, func.count(Departure.id), waiting).group_by(Departure.day)
    return [(day, count, left) for day, count, left in session.execute(told.order_by(Departure.day.desc()))]


def guides(session: Session) -> Sequence[str]:
    """Everybody who has been down as a guide."""
    named = select(Departure.guide).where(Departure.guide != "").distinct()
    return session.scalars(named.order_by(Departure.guide)).all()


def offered_tours(session: Session) -> list[Tour]:
    """The tours that may be given: those that are not withdrawn."""
    return [tour for tour in tours(session) if not tour.withdrawn]


def dropped(session: Session, ref: str) -> Change:
    """What is written down of a departure that was dropped, the last time that it was."""
    change = _last_change(session, ref)
    if change is None or change.kind != "deleted":
        raise NotFound(f"There is no departure '{ref[:40]}' that was dropped.")
    return change


def is_dropped(session: Session, ref: str) -> bool:
    """Whether a departure of this reference was dropped and has not come back."""
    change = _last_change(session, ref)
    return change is not None and change.kind == "deleted"


def _last_change(session: Session, ref: str) -> Change | None:
    last = select(Change).where(Change.record == f"departure:{ref}").order_by(Change.id.desc()).limit(1)
    return session.scalar(last)
