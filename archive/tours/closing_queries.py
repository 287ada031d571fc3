"""Which tellings and tours fall with clips and statements that are closed, for a keeper who is about to close them."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, selectinload

from archive.evidence.model import Statement
from archive.tours.model import Stop, StopTelling, Telling, Tour


def tellings_falling(session: Session, clips: Collection[int], statements: Collection[int]) -> Sequence[Telling]:
    """The tellings, those withdrawn left out, that play one of the clips or say one of the statements."""
    told = or_(Telling.clip_id.in_(clips), Telling.statements.any(Statement.id.in_(statements)))
    mine = select(Telling).where(~Telling.withdrawn, told).options(selectinload(Telling.station))
    return session.scalars(mine.order_by(Telling.ref)).all()


def tours_touched(session: Session, tellings: Collection[int]) -> Sequence[Tour]:
    """The tours, those withdrawn left out, on which one of the tellings is told."""
    chosen = Tour.stops.any(Stop.chosen.any(StopTelling.telling_id.in_(tellings)))
    return session.scalars(select(Tour).where(~Tour.withdrawn, chosen).order_by(Tour.name, Tour.ref)).all()
