"""Closing stretches of a recording, and opening them again. Nothing commits here."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.interviews.closing import known_pauses
from archive.interviews.model import Recording
from archive.rights.model import Closure
from archive.store.queries import found
from archive.values.timecode import Span

_LONGEST_REASON = 2_000


def close_span(
    session: Session, recording: Recording, span: Span, *, reason: str, review_on: dt.date | None, on: dt.date
) -> Closure:
    """Close a stretch for everybody, with the reason and the day on which it is looked at again.

    It bites at once: words that reach into it or its guard are hidden whole, and no copy of the sound is served until
    one is made in which the stretch is masked.
    """
    check_reason(reason, review_on, on)
    made = Closure(span, known_pauses(recording), recording.duration_ms, reason=reason.strip(), review_on=review_on)
    recording.closures.append(made)
    session.flush()
    return made


def check_reason(reason: str, review_on: dt.date | None, on: dt.date) -> None:
    """Refuse a closure that does not say why, or not when it is looked at again."""
    faults = []
    if not reason.strip() or len(reason) > _LONGEST_REASON:
        faults.append(Fault("reason", 0, "it has no reason, or too long a one", "Say in a sentence why it is closed"))
    if review_on is None or review_on <= on:
        faults.append(Fault("review", 0, "it has no day to come for a review", "Give a day after today"))
    if faults:
        raise Unacceptable(faults, "The closure")


def closure_of(recording: Recording, key: int) -> Closure:
    """One closure of a recording by its key."""
    return found(next((each for each in recording.closures if each.id == key), None), "closure", str(key))


def lift(session: Session, recording: Recording, key: int) -> None:
    """Open a stretch again."""
    # Deleted as it is, not taken out of its recording's list first: the history is to say whose closure it was.
    session.delete(closure_of(recording, key))
    session.flush()
    session.expire(recording, ["closures"])
