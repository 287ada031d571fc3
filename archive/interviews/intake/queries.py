"""Selects for whoever takes recordings in: the keeper, the shell and the working process; never for readers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import String, cast, func, select
from sqlalchemy.orm import Session, joinedload, selectinload, undefer

from archive.errors import NotFound
from archive.interviews.model import Interview, Recording, Upload
from archive.people.model import Person
from archive.store.model import Change
from archive.store.queries import found

_NEAR_MS = 3_000
_LIVING = ("arriving", "arrived", "refused")


@dataclass(frozen=True)
class Twin:
    """A recording that holds the same file or the same sound."""

    ref: str
    interview: str


def interview(session: Session, ref: str) -> Interview:
    """One interview, open or closed; NotFound names those that there are."""
    row = session.scalar(select(Interview).where(Interview.ref == ref))
    if row is None:
        refs = interview_refs(session)
        there = ", ".join(refs[:20]) + (" ..." if len(refs) > 20 else "")
        raise NotFound(f"There is no interview '{ref[:64]}' here. There are: {there or 'none yet'}.")
    return row


def interview_refs(session: Session) -> list[str]:
    """The references of all interviews."""
    return list(session.scalars(select(Interview.ref).order_by(Interview.ref)))


def recordings(session: Session) -> Sequence[Recording]:
    """Every recording with its interview and closures, by reference."""
    whole = (joinedload(Recording.interview), selectinload(Recording.closures))
    return session.scalars(select(Recording).options(*whole).order_by(Recording.ref)).all()


def recording(session: Session, ref: str) -> Recording:
    """One recording with its renditions, open or closed."""
    whole = (joinedload(Recording.interview), selectinload(Recording.closures), selectinload(Recording.renditions))
    return found(session.scalar(select(Recording).where(Recording.ref == ref).options(*whole)), "recording", ref)


def same_file(session: Session, sha256: str, interview: str = "") -> Twin | None:
    """The recording whose master is this very file, one of the given interview first."""
    mine = (
        select(Recording.ref, Interview.ref)
        .join(Recording.interview)
        .where(Recording.master_sha256 == sha256)
        .order_by(Interview.ref != interview, Recording.ref)
    )
    row = session.execute(mine.limit(1)).first()
    return None if row is None else Twin(*row)


def likenesses(session: Session) -> Iterator[tuple[Twin, list[str]]]:
    """Every recording whose sound was measured, with its fingerprint as kept; a few at a time, since they are long."""
    wanted = select(Recording.ref, Interview.ref, Recording.likeness).join(Recording.interview).order_by(Recording.id)
    for ref, whose, likeness in session.execute(wanted.execution_options(yield_per=8)):
        if likeness:
            yield Twin(ref, whose), likeness


def unmeasured(session: Session, near_ms: int | None = None) -> list[str]:
    """The recordings that came in a folder and were never measured; with a length, only those about as long."""
    mine = select(Recording.ref).where(cast(Recording.likeness, String) == "[]").order_by(Recording.ref)
    if near_ms is not None:
        mine = mine.where(Recording.duration_ms.between(near_ms - _NEAR_MS, near_ms + _NEAR_MS))
    return list(session.scalars(mine))


def measurable(session: Session, ref: str) -> Recording | None:
    """A recording with its fingerprint, to fill in what was never measured; None when it is gone."""
    return session.scalar(select(Recording).where(Recording.ref == ref).options(undefer(Recording.likeness)))


def refs_ever(session: Session, kind: type[Any]) -> set[str]:
    """Every reference of a kind that stands, or stood and was deleted: none is ever given twice."""
    table = kind.__tablename__
    named = session.scalars(select(Change.record).where(Change.record.startswith(f"{table}:")).distinct())
    return {record.partition(":")[2] for record in named} | set(session.scalars(select(kind.ref)))


def master_names(session: Session, interview_id: int) -> list[str]:
    """What the files of an interview are called, copies that came beside them included."""
    rows = session.scalars(
        select(Recording).where(Recording.interview_id == interview_id).options(selectinload(Recording.renditions))
    )
    return [name for row in rows for name in (row.master_name, *(each.file_name for each in row.renditions)) if name]


def last_position(session: Session, interview_id: int) -> int:
    """The place of an interview's last recording; -1 where there is none."""
    last = session.scalar(select(func.max(Recording.position)).where(Recording.interview_id == interview_id))
    return -1 if last is None else last


def upload(session: Session, key: str) -> Upload:
    """One file on its way in."""
    row = session.scalar(select(Upload).where(Upload.key == key))
    if row is None:
        raise NotFound(f"There is no upload '{key[:32]}' here.")
    return row


def uploads(session: Session, limit: int = 100) -> Sequence[Upload]:
    """The files that are on their way in or wait for a word, the newest first."""
    return session.scalars(
        select(Upload).where(Upload.state.in_(_LIVING)).order_by(Upload.id.desc()).limit(limit)
    ).all()


def ended_uploads(session: Session, limit: int = 10) -> Sequence[Upload]:
    """The files that were taken in or dropped last."""
    return session.scalars(
        select(Upload).where(Upload.state.not_in(_LIVING)).order_by(Upload.id.desc()).limit(limit)
    ).all()


def bytes_expected(session: Session) -> int:
    """How many bytes are still to come of what is arriving."""
    return session.scalar(select(func.sum(Upload.size - Upload.received)).where(Upload.state == "arriving")) or 0


def half_moved(session: Session, who: str) -> Sequence[Upload]:
    """The files that were being moved out of the inbox when the process ended."""
    return session.scalars(select(Upload).where(Upload.who == who, Upload.state == "arriving")).all()


def narrators_known(session: Session) -> Sequence[Person]:
    """The people who may be named as narrators or interviewers of an interview."""
    return session.scalars(select(Person).where(Person.kind == "person").order_by(Person.ref)).all()


def people_by_ref(session: Session, refs: Sequence[str]) -> list[Person]:
    """The people with these references; NotFound when one is none of ours."""
    return [found(session.scalar(select(Person).where(Person.ref == ref)), "person", ref) for ref in refs]
