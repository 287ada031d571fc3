"""Files on their way in: those that arrive, those that wait for a word, and what could not be read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.interviews.intake import queries
from archive.interviews.intake.arriving import free_for_files
from archive.interviews.intake.aside import SetAside, all_set_aside
from archive.interviews.intake.inbox import Stranger, strangers
from archive.interviews.model import Upload
from archive.jobs.model import Job
from archive.jobs.queries import job
from archive.settings import Settings

# What a form without scripts can send: a whole request is 1 MiB at most.
PLAIN_BYTES = 1_000_000


@dataclass(frozen=True)
class UploadLine:
    """One file on its way: its upload, the share of the work that is done, and whether it waits for the keeper."""

    upload: Upload
    share: float
    says: str
    waits: bool

    @property
    def data(self) -> dict[str, Any]:
        """The same for the page's script."""
        row = self.upload
        return {
            "key": row.key,
            "name": row.file_name,
            "size": row.size,
            "received": row.received,
            "state": "refused" if self.waits else row.state,
            "says": self.says,
            "share": self.share,
        }


@dataclass(frozen=True)
class UploadPage:
    """The form's choices, what is on its way, what came lately, and what lies aside or in the wrong place."""

    interviews: Sequence[str]
    interview: str
    free: int
    inbox: str
    lines: Sequence[UploadLine]
    lately: Sequence[Upload]
    aside: Sequence[SetAside]
    strangers: Sequence[Stranger]


def upload_page(session: Session, settings: Settings, interview: str) -> UploadPage:
    """The page, for an interview if one is chosen."""
    interviews = queries.interview_refs(session)
    return UploadPage(
        interviews=interviews,
        interview=interview if interview in interviews else "",
        free=free_for_files(settings, queries.bytes_expected(session)),
        inbox=str(settings.inbox),
        lines=[upload_line(session, row) for row in queries.uploads(session)],
        lately=queries.ended_uploads(session),
        aside=all_set_aside(settings),
        strangers=strangers(settings.inbox, interviews),
    )


def upload_line(session: Session, row: Upload) -> UploadLine:
    """One file, with how far the work on it is."""
    work = _work(session, row)
    stuck = row.state == "arrived" and (work is None or work.ended)
    says = row.says or (work.says if work else "")
    return UploadLine(row, work.share if work else 0.0, says, row.state == "refused" or stuck)


def _work(session: Session, row: Upload) -> Job | None:
    try:
        return job(session, row.job) if row.job else None
    except NotFound:
        return None
