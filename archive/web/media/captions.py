"""The captions of a recording: its open segments, under the names that may be shown."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.exchange.webvtt import Cue, write
from archive.interviews import queries as interviews
from archive.interviews.model import Recording
from archive.interviews.names import shown_names, speaker_of, words_of
from archive.rights.decisions import Viewer


def captions_of(session: Session, viewer: Viewer, recording: Recording) -> str:
    """WebVTT of what the viewer may read."""
    names = shown_names(session, viewer)
    segments = interviews.segments(session, viewer, recording)
    return write(Cue(s.start_ms, s.end_ms, speaker_of(s, names), words_of(s, names)) for s in segments)
