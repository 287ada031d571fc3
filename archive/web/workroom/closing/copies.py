"""Whether the copies that readers hear are made for the closures as they are, and the work that makes them."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import NotReady
from archive.interviews.copies_edits import KIND
from archive.interviews.model import Recording
from archive.interviews.rendition_jobs import MEDIA_TYPES
from archive.interviews.renditions import servable
from archive.jobs.model import Job
from archive.jobs.queries import jobs_of_kind


@dataclass(frozen=True)
class Copies:
    """Whether all of them are there, and the last work on them that has not ended well."""

    ready: bool
    job: Job | None


def copies_of(session: Session, recording: Recording) -> Copies:
    """How the copies of a recording stand."""
    ready = all(_is_there(recording, form) for form in MEDIA_TYPES)
    newest = next(iter(jobs_of_kind(session, KIND, 1)), None)
    return Copies(ready, None if ready or newest is None or newest.state == "done" else newest)


def _is_there(recording: Recording, form: str) -> bool:
    try:
        servable(recording, form)
    except NotReady:
        return False
    return True
