"""The page that says why nothing fits: the wishes that cannot be had together, and the changes that would help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.jobs.model import Job
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.queries import tellings
from archive.tours.wishes import Wishes, read_wishes
from archive.web.desk.planning.words import field_words


@dataclass(frozen=True)
class Help:
    """A change that would let a tour be planned: in words, and what is gained by it."""

    says: str
    gain: str


@dataclass(frozen=True)
class NothingFitsPage:
    """Why nothing fits. `conflict` holds the wishes that cannot all be met, as the form calls them and in words."""

    collection: Collection
    job: Job
    conflict: Sequence[tuple[str, str]]
    helps: Sequence[Help]


def nothing_fits_page(session: Session, viewer: Viewer, job: Job) -> NothingFitsPage:
    """The page of a planning that found nothing; not found once anything is closed that its words may name."""
    wishes = wishes_of(job)
    named = {*wishes.must_tellings, *wishes.not_tellings, *(ref for _, refs in wishes.pinned for ref in refs)}
    if not named <= {telling.ref for telling in tellings(session, viewer)}:
        raise NotFound(f"There is no planning '{job.key}' here that found nothing.")
    return NothingFitsPage(
        collection=collection(session),
        job=job,
        conflict=[(field_words(one["wish"]), one["says"]) for one in job.outcome["conflict"]],
        helps=[Help(one["says"], one["gain"]) for one in job.outcome["helps"]],
    )


def wishes_of(job: Job) -> Wishes:
    """What a planning was asked."""
    return read_wishes(job.inputs["wishes"])


def helped(job: Job, number: str) -> Wishes:
    """The wishes with one of the changes that would help, by its number on the page."""
    helps = job.outcome["helps"]
    if not number.isascii() or not number.isdigit() or len(number) > 3 or int(number) >= len(helps):
        raise NotFound("There is no such change.")
    return read_wishes(helps[int(number)]["wishes"])
