"""The list of the interviews that are open."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.model import Interview
from archive.interviews.names import shown_names, shown_text
from archive.interviews.queries import interviews
from archive.rights.decisions import Viewer
from archive.web.reading.interview_page import in_words, narrator_links
from archive.web.reading.links import Link, record_url


@dataclass(frozen=True)
class Entry:
    """One interview in the list."""

    ref: str
    url: str
    title: str
    narrators: tuple[Link, ...]
    held: str
    covers: str
    minutes: float
    summary: str


@dataclass(frozen=True)
class InterviewsPage:
    """The open interviews by reference."""

    entries: tuple[Entry, ...]

    @property
    def minutes(self) -> float:
        """How long they last together."""
        return sum(entry.minutes for entry in self.entries)


def interviews_page(session: Session, viewer: Viewer) -> InterviewsPage:
    """The list as one viewer may have it."""
    names = shown_names(session, viewer)
    return InterviewsPage(tuple(entry_of(one, names) for one in interviews(session, viewer)))


def entry_of(interview: Interview, names: dict[int, str]) -> Entry:
    """An interview's entry in a list."""
    return Entry(
        ref=interview.ref,
        url=record_url("interview", interview.ref),
        title=shown_text(interview.title, interview, names),
        narrators=narrator_links(interview, names),
        held=in_words(interview.held),
        covers=in_words(interview.covers),
        minutes=sum(recording.duration_ms for recording in interview.recordings) / 60_000,
        summary=shown_text(interview.summary, interview, names),
    )
