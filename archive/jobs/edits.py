"""Every change to jobs; none commits."""

from __future__ import annotations

import secrets
from typing import Any

from sqlalchemy.orm import Session

from archive.jobs.model import Job
from archive.jobs.queries import job, unended
from archive.store.base import utc_now


def ask(session: Session, kind: str, inputs: dict[str, Any], who: str) -> Job:
    """A new job, waiting. Its key cannot be guessed."""
    row = Job(key=secrets.token_hex(16), kind=kind, inputs=inputs, who=who)
    session.add(row)
    session.flush()
    return row


def stop(session: Session, key: str) -> Job:
    """Ask a job to stop: one that waits stops at once, one at work at the next point where it looks."""
    row = job(session, key)
    if not row.ended:
        row.stop_asked = True
    if row.state == "waiting":
        end(row, "stopped", "Stopped before it began.")
    return row


def begin(session: Session, key: str) -> Job | None:
    """Take a waiting job in hand; None when it is no longer wanted, or in another's hands."""
    row = job(session, key)
    if row.state != "waiting":
        return None
    row.state = "working"
    return row


def end(row: Job, state: str, says: str, outcome: Any = None) -> None:
    """Write down what came of a job."""
    row.state, row.says, row.outcome, row.ended_at = state, says, outcome, utc_now()
    if state == "done":
        row.share = 1.0


def wait_again(session: Session) -> list[str]:
    """Put back every job that was in hand when its process was killed; gives the keys of all that wait now."""
    rows = unended(session)
    for row in rows:
        row.state = "waiting"
    return [row.key for row in rows]
