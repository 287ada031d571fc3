"""Selects on typed transcripts, for keepers at their work."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.interviews.model import Recording, TranscriptFile
from archive.store.queries import found


def typed_files(session: Session, recording: Recording) -> Sequence[TranscriptFile]:
    """The files that were brought for a recording, the newest first."""
    mine = select(TranscriptFile).where(TranscriptFile.recording_id == recording.id)
    return session.scalars(mine.order_by(TranscriptFile.id.desc())).all()


def typed_file(session: Session, recording: Recording, key: int) -> TranscriptFile:
    """One of them."""
    mine = select(TranscriptFile).where(TranscriptFile.recording_id == recording.id, TranscriptFile.id == key)
    return found(session.scalar(mine), "typed transcript", str(key))
