"""Closures changed, and deeds on them turned back. Nothing commits here."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Session

from archive.errors import Conflict
from archive.interviews.closing import known_pauses
from archive.interviews.closing_edits import check_reason, closure_of
from archive.interviews.closing_history import Stand, number_of, still_so, stood
from archive.interviews.closing_queries import closure_changes
from archive.interviews.model import Recording
from archive.rights.model import Closure
from archive.store.model import Change
from archive.values.timecode import Span


def change_span(
    session: Session,
    recording: Recording,
    key: int,
    span: Span,
    *,
    reason: str,
    review_on: dt.date | None,
    on: dt.date,
) -> Closure:
    """Let a closure close another stretch, or for another reason, or until another day."""
    check_reason(reason, review_on, on)
    row = closure_of(recording, key)
    _say(recording, row, Stand(span, reason.strip(), review_on))
    session.flush()
    return row


def undo_change(session: Session, recording: Recording, key: int) -> None:
    """Turn one deed on a recording's closures back; Conflict where the closure was changed again since.

    The closure stands as it stood, under its own key. Its review may be overdue by now: that is told where it stands.
    """
    change = next((row for row in closure_changes(session, recording) if row.id == key), None)
    if change is None or not can_undo(recording, change):
        raise Conflict("This closure was changed again since. Undo the newer change first.")
    row = _row(recording, change)
    if change.before is None:
        # Deleted as it is, not taken out of its recording's list first: the history is to say whose closure it was.
        session.delete(row)
    elif row is None:
        as_it_was = stood(None, change.before)
        pauses, duration = known_pauses(recording), recording.duration_ms
        row = Closure(as_it_was.span, pauses, duration, reason=as_it_was.reason, review_on=as_it_was.review_on)
        row.id = number_of(change)
        recording.closures.append(row)
    else:
        _say(recording, row, stood(row, change.before))
    session.flush()
    session.expire(recording, ["closures"])


def can_undo(recording: Recording, change: Change) -> bool:
    """Whether the closure is still as this change left it."""
    return still_so(_row(recording, change), change)


def _row(recording: Recording, change: Change) -> Closure | None:
    return next((each for each in recording.closures if each.id == number_of(change)), None)


def _say(recording: Recording, row: Closure, now: Stand) -> None:
    row.cover(now.span, known_pauses(recording), recording.duration_ms)
    row.reason, row.review_on = now.reason, now.review_on
