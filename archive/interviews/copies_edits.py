"""Asking for the copies that are missing, in the same commit as whatever made them so."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.jobs.edits import ask
from archive.jobs.queries import unended

KIND = "copies"


def ask_for_copies(session: Session, who: str) -> str:
    """The key of the work that makes every missing copy, to hand over once it is committed.

    Work that waits already will see this change too, so it is not asked for twice. Work that is being done may have
    passed by what has changed.
    """
    waiting = next((job.key for job in unended(session) if job.kind == KIND and job.state == "waiting"), None)
    return waiting or ask(session, KIND, {}, who).key
