"""Keeping the file that a transcript was typed in, untouched, beside the lines made of it. Nothing commits here."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.interviews.model import Recording, TranscriptFile
from archive.store.model import Event, KeptFile

MEDIA_TYPES = {
    "docx": "application/vnd.openxmlformats-officedocument.wordprocessingml.document",
    "odt": "application/vnd.oasis.opendocument.text",
    "vtt": "text/vtt",
    "ttml": "application/ttml+xml",
    "csv": "text/csv",
    "text": "text/plain",
}


def keep_typed_file(
    session: Session, recording: Recording, sha256: str, size: int, *, name: str, form: str, who: str
) -> TranscriptFile:
    """Put down that a file, whose bytes the store has taken in, is a typed transcript of a recording."""
    if session.get(KeptFile, sha256) is None:
        session.add(KeptFile(sha256=sha256, size=size, media_type=MEDIA_TYPES[form]))
        detail = f"Typed transcript of {recording.ref}"
        session.add(Event(kind="ingestion", outcome="success", sha256=sha256, detail=detail))
        session.flush()
    made = TranscriptFile(recording_id=recording.id, file_name=name, form=form, sha256=sha256, who=who)
    session.add(made)
    session.flush()
    return made
