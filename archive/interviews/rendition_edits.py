"""Changes to renditions; never committed here."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy.orm import Session

from archive.interviews.model import Recording, Rendition
from archive.interviews.rendition_jobs import MEDIA_TYPES, WAVEFORM, MadeFile
from archive.interviews.rendition_queries import is_in_use
from archive.store.model import Event, KeptFile


def add(session: Session, recording: Recording, closed: str, made: Iterable[MadeFile]) -> None:
    """Put down the files that were made of a recording with these closures masked, and that they were made."""
    there = {rendition.form for rendition in recording.renditions if rendition.closed == closed}
    for file in made:
        note_kept(session, file.sha256, file.size, MEDIA_TYPES[file.form])
        if file.form not in there:
            kind = "waveform" if file.form == WAVEFORM else "access"
            rendition = Rendition(kind=kind, form=file.form, closed=closed, sha256=file.sha256)
            recording.renditions.append(rendition)
            detail = f"access copy of {recording.ref}, {file.form}"
            session.add(Event(kind="creation", outcome="success", sha256=file.sha256, detail=detail))


def drop(session: Session, renditions: Iterable[Rendition]) -> list[str]:
    """Delete renditions; gives the checksums of the files that nothing rests on any more."""
    checksums = set()
    for rendition in renditions:
        checksums.add(rendition.sha256)
        session.delete(rendition)
    return forget_unused(session, checksums)


def put_in_place(session: Session, key: int, file: MadeFile) -> list[str]:
    """Let a rendition rest on another file; gives the checksums of the files that nothing rests on any more."""
    rendition = session.get(Rendition, key)
    if rendition is None:
        return []
    note_kept(session, file.sha256, file.size, MEDIA_TYPES[file.form])
    before, rendition.sha256 = rendition.sha256, file.sha256
    return forget_unused(session, {before})


def note_kept(session: Session, sha256: str, size: int, media_type: str) -> None:
    """Put down a file whose bytes are kept, unless that is done."""
    if session.get(KeptFile, sha256) is None:
        session.add(KeptFile(sha256=sha256, size=size, media_type=media_type))
        session.flush()


def forget_unused(session: Session, checksums: set[str]) -> list[str]:
    """Delete the rows of kept files that nothing rests on; gives their checksums."""
    session.flush()
    unused = sorted(sha256 for sha256 in checksums if not is_in_use(session, sha256))
    for sha256 in unused:
        if (kept := session.get(KeptFile, sha256)) is not None:
            session.delete(kept)
    session.flush()
    return unused
