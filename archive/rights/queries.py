"""The rule of who may see or hear what, as SQL clauses; and what the keeper must look at soon."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any, TypeAlias

from sqlalchemy import ColumnElement, exists, or_, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from archive.rights.decisions import Viewer
from archive.rights.model import Agreement, Closure, Permission

Column: TypeAlias = InstrumentedAttribute[Any] | ColumnElement[Any]


def permission_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Permission that says the same as `decisions.decide`."""
    return (
        (Permission.purpose == (viewer.purpose.value if viewer.may_ask else None))
        & Permission.allowed
        & or_(Permission.from_date.is_(None), Permission.from_date <= viewer.on)
        & or_(Permission.withdrawn_on.is_(None), Permission.withdrawn_on > viewer.on)
    )


def interview_open(viewer: Viewer, interview_id: Column) -> ColumnElement[bool]:
    """Whether the interview with this key is open to the viewer."""
    return exists().where(
        Agreement.interview_id == interview_id,
        Permission.agreement_id == Agreement.id,
        permission_open(viewer),
    )


def clear_of_closures(recording_id: Column, start_ms: Column, end_ms: Column) -> ColumnElement[bool]:
    """Whether a stretch reaches into no closure and no guard: one that does is hidden whole, from everyone."""
    # Into the guard is enough: a line's times are no surer than the guard is wide, its words there cannot be heard
    # any more, and a word that was cut in two by the closure's edge would be read whole in the line beside it.
    reached = (Closure.masked_start_ms < end_ms, Closure.masked_end_ms > start_ms)
    return ~exists().where(Closure.recording_id == recording_id, *reached)


def agreements_near(session: Session, on: dt.date, days: int) -> Sequence[tuple[Agreement, Permission]]:
    """Agreements in which something opens or is withdrawn within so many days before or after a date."""
    first, last = on - dt.timedelta(days), on + dt.timedelta(days)
    near = (
        select(Agreement, Permission)
        .join(Agreement.permissions)
        .where(or_(Permission.from_date.between(first, last), Permission.withdrawn_on.between(first, last)))
    )
    return [(row[0], row[1]) for row in session.execute(near.order_by(Agreement.id, Permission.purpose))]


def closures_to_review(session: Session, on: dt.date, days: int) -> Sequence[Closure]:
    """Closures whose review date has come, or comes within so many days."""
    due = select(Closure).where(Closure.review_on <= on + dt.timedelta(days))
    return session.scalars(due.order_by(Closure.review_on, Closure.id)).all()
