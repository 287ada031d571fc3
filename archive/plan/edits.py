"""Every change to what is out of use; none commits. The plan itself comes from its folder."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.plan.model import PLACE_KINDS, OutOfUse
from archive.plan.places import places
from archive.plan.queries import one_out_of_use, out_of_use_at

MOST_WHY = 300


def put_out_of_use(
    session: Session, kind: str, place: str, from_day: dt.date, until_day: dt.date | None, why: str
) -> OutOfUse:
    """Say that a door, passage, room or station may not be used from a day on, until a day or until further notice."""
    why = " ".join(why.split())
    faults = [*_place_faults(session, kind, place), *_why_faults(why)]
    if until_day is not None and until_day < from_day:
        faults.append(Fault("until", 0, f"It ends on {until_day}, before it begins", "Give a later day, or none"))
    elif not faults:
        faults += _overlap_faults(session, kind, place, from_day, until_day)
    if faults:
        raise Unacceptable(faults, "What you gave")
    row = OutOfUse(kind=kind, place=place, from_day=from_day, until_day=until_day, why=why)
    session.add(row)
    session.flush()
    return row


def back_in_use(session: Session, key: int, on: dt.date | None = None) -> None:
    """A place may be used again from a day on, today if none is named.

    That it was out of use before stays written down; what had not begun is taken away.
    """
    row = one_out_of_use(session, key)
    last = (on or dt.date.today()) - dt.timedelta(days=1)
    if last < row.from_day:
        session.delete(row)
    elif row.until_day is None or row.until_day > last:
        row.until_day = last


def _place_faults(session: Session, kind: str, place: str) -> list[Fault]:
    if not place:
        return [Fault("place", 0, "No place is chosen", "Choose a door, passage, room or station")]
    if kind not in PLACE_KINDS:
        return [Fault("place", 0, f"'{kind[:40]}' is no kind of place", f"It may be {', '.join(PLACE_KINDS)}")]
    if (kind, place) not in {(one.kind, one.ref) for one in places(session)}:
        return [Fault("place", 0, f"The plan has no {kind} '{place[:40]}'", "Choose one from the list")]
    return []


def _why_faults(why: str) -> list[Fault]:
    if not why:
        return [Fault("why", 0, "The reason is missing", "Say why, so that guides know what to tell")]
    if len(why) > MOST_WHY:
        return [Fault("why", 0, f"The reason has {len(why)} letters", f"Give up to {MOST_WHY}")]
    return []


def _overlap_faults(
    session: Session, kind: str, place: str, from_day: dt.date, until_day: dt.date | None
) -> list[Fault]:
    for row in out_of_use_at(session, kind, place):
        if (row.until_day is None or row.until_day >= from_day) and (until_day is None or row.from_day <= until_day):
            until = f"until {row.until_day}" if row.until_day else "until further notice"
            found = f"It is out of use already from {row.from_day} {until}"
            return [Fault("from", 0, found, "Choose other days, or put it back in use first")]
    return []
