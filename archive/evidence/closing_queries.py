"""Which statements fall with words that are closed, for a keeper who is about to close them."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from sqlalchemy import exists, or_, select
from sqlalchemy.orm import Session, aliased

from archive.evidence.model import Evidence, Statement


def statements_falling(session: Session, closing: Collection[int], closed: Collection[int]) -> Sequence[Statement]:
    """The statements that rest on one of the lines that are being closed, and on nothing that stays open.

    Both are keys of lines; `closed` are those that are closed already. What an agreement closes is not asked here.
    """
    if not closing:
        return []
    left = aliased(Evidence)
    stands = or_(left.kind != "segment", left.segment_id.not_in([*closing, *closed]))
    rests = (Evidence.statement_id == Statement.id, Evidence.side == "for", Evidence.segment_id.in_(closing))
    falls = exists().where(*rests), ~exists().where(left.statement_id == Statement.id, left.side == "for", stands)
    return session.scalars(select(Statement).where(*falls).order_by(Statement.ref)).all()
