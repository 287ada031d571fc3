"""Closing stretches of a recording, and opening them again. Nothing commits here."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.rights.model import Closure
from archive.store.queries import found
from archive.values.timecode import Span

_LONGEST_REASON = 2_000


def close_span(
    session: Session, recording_id: int, span: Span, *, reason: str, review_on: dt.date | None, on: dt.date
) -> Closure:
    """Close a stretch for everybody, with the reason and the day on which it is looked at again.

    It bites at once: words that overlap it are hidden whole, and no copy of the sound is served until one is made in
    which the stretch is masked.
    """
    faults = []
    if not reason.strip() or len(reason) > _LONGEST_REASON:
        faults.append(Fault("reason", 0, "it has no reason, or too long a one", "Say in a sentence why it is closed"))
    if review_on is None or review_on <= on:
        faults.append(Fault("review", 0, "it has no day to come for a review", "Give a day after today"))
    if faults:
        raise Unacceptable(faults, "The closure")
    made = Closure(
        recording_id=recording_id,
        start_ms=span.start_ms,
        end_ms=span.end_ms,
        reason=reason.strip(),
        review_on=review_on,
    )
    session.add(made)
    session.flush()
    return made


def lift(session: Session, recording_id: int, key: int) -> None:
    """Open a stretch again."""
    closure = session.get(Closure, key)
    mine = closure if closure is not None and closure.recording_id == recording_id else None
    session.delete(found(mine, "closure", str(key)))
    session.flush()
