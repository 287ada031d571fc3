"""Every change that taking recordings in makes to records; nothing commits here."""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import Conflict
from archive.interviews import rendition_edits
from archive.interviews.closing import guard
from archive.interviews.copies_edits import ask_for_copies
from archive.interviews.intake import queries
from archive.interviews.intake.naming import kept_name, master_name, next_number, next_ref
from archive.interviews.intake.new_interview import NewInterview
from archive.interviews.model import Interview, Recording, Upload
from archive.interviews.rendition_jobs import MadeFile
from archive.people.model import Person
from archive.rights.model import Agreement, Permission
from archive.store.model import Event, KeptFile


@dataclass(frozen=True)
class Master:
    """A master that has been read through, with its copies kept: all that becomes a record.

    `recorded` is when and by what it was recorded, as its file says. `finer` are its levels at other zooms.
    """

    sha256: str
    size: int
    media_type: str
    name: str
    duration_ms: int
    codec: str
    sample_rate: int
    channels: int
    facts: dict[str, Any]
    damage: str
    likeness: list[str]
    copies: tuple[MadeFile, ...]
    finer: dict[int, MadeFile] = field(default_factory=dict)
    recorded: tuple[datetime, str] | None = None


def add_recording(session: Session, interview: Interview, master: Master) -> Recording:
    """A new recording of an interview with its copies and events; it has no words yet."""
    rendition_edits.note_kept(session, master.sha256, master.size, master.media_type)
    for made in master.finer.values():
        rendition_edits.note_kept(session, made.sha256, made.size, "application/octet-stream")
    recording = Recording(
        ref=next_ref(interview.ref, queries.refs_ever(session, Recording)),
        interview_id=interview.id,
        position=queries.last_position(session, interview.id) + 1,
        master_name=master_name(master.name, queries.master_names(session, interview.id)),
        master_sha256=master.sha256,
        duration_ms=master.duration_ms,
        codec=master.codec[:40],
        sample_rate=master.sample_rate,
        channels=master.channels,
        facts={**master.facts, "levels": {str(zoom): made.sha256 for zoom, made in master.finer.items()}},
        damage=master.damage,
        likeness=master.likeness,
        transcript_state="none",
    )
    session.add(recording)
    session.flush()
    rendition_edits.add(session, recording, "", master.copies)
    session.add_all(_events(recording.ref, master))
    session.flush()
    return recording


def measured(
    session: Session, recording: Recording, facts: dict[str, Any], damage: str, likeness: list[str], who: str
) -> None:
    """Write down what was found in a recording that had come without it.

    Where its pauses move the edge of a guard, no copy is right any more, and new ones are asked for.
    """
    recording.facts, recording.damage, recording.likeness = {**facts, **recording.facts}, damage, likeness
    if guard(recording):
        ask_for_copies(session, who)


def set_aside(session: Session, sha256: str, name: str, reason: str) -> None:
    """Keep the event of a file of which nothing could be read."""
    session.add(Event(kind="quarantine", outcome="success", sha256=sha256, detail=f"{name}: {reason}"))


def _events(ref: str, master: Master) -> Iterable[Event]:
    """What happened, in the words of the PREMIS event types."""
    if master.recorded is not None:
        at, by = master.recorded
        yield Event(kind="capture", outcome="success", sha256=master.sha256, at=at, detail=by)
    yield Event(kind="message digest calculation", outcome="success", sha256=master.sha256, detail="SHA-256")
    yield Event(kind="ingestion", outcome="success", sha256=master.sha256, detail=f"{master.name}, now {ref}")
    yield Event(kind="fixity check", outcome="sound", sha256=master.sha256, detail="read once more while measuring")
    if master.damage:
        yield Event(kind="validation", outcome="damaged", sha256=master.sha256, detail=master.damage)


def is_kept(session: Session, sha256: str) -> bool:
    """Whether a record speaks of a file."""
    return session.get(KeptFile, sha256) is not None


def begin_upload(session: Session, interview: str, name: str, size: int, who: str) -> Upload:
    """A file that is about to arrive. Its key cannot be guessed."""
    row = Upload(key=secrets.token_hex(16), interview=interview, file_name=kept_name(name), size=size, who=who)
    session.add(row)
    session.flush()
    return row


def advance(row: Upload, received: int) -> None:
    """More of it has arrived."""
    row.received = received
    if received == row.size:
        row.state = "arrived"


def give_work(row: Upload, job: str) -> None:
    """Note which piece of work takes it in."""
    row.state, row.job, row.says = "arrived", job, ""


def settle(row: Upload, state: str, says: str) -> None:
    """Write down what came of it."""
    row.state, row.says = state, says


def drop_upload(row: Upload) -> None:
    """Give up a file that is on its way in or was refused; Conflict while it is being taken in, or was."""
    if row.state not in ("arriving", "refused"):
        raise Conflict(f"{row.file_name} is {row.state}. Only a file that is arriving or was refused can be dropped.")
    settle(row, "dropped", "Dropped.")


def add_interview(session: Session, asked: NewInterview, language: str) -> Interview:
    """A new interview without recordings. What its agreement does not allow is closed; without one, everything is."""
    row = Interview(
        ref=asked.ref or next_number("I", queries.refs_ever(session, Interview)),
        title=asked.title,
        held=asked.held,
        place=asked.place,
        language=asked.language or language,
        covers=asked.covers,
        summary=asked.summary,
        narrators=[*queries.people_by_ref(session, asked.narrators), *_new_narrators(session, asked.new_narrator)],
        interviewers=queries.people_by_ref(session, asked.interviewers),
    )
    if asked.signed or asked.allowed:
        allowed = [Permission(purpose=each, allowed=True, name_form=asked.name_form) for each in asked.allowed]
        row.agreement = Agreement(signed=asked.signed, note=asked.note, permissions=allowed)
    session.add(row)
    session.flush()
    return row


def _new_narrators(session: Session, name: str) -> list[Person]:
    if not name:
        return []
    initials = " ".join(f"{word[0]}." for word in name.split())[:20]
    person = Person(
        ref=next_number("P", queries.refs_ever(session, Person)), name=name, roles=["narrator"], initials=initials
    )
    session.add(person)
    session.flush()
    return [person]
