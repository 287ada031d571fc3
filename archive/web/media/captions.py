"""The captions of a recording: its open segments, under the names that may be shown."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.exchange.webvtt import Cue, write
from archive.interviews import queries as interviews
from archive.interviews.model import Clip, Recording
from archive.interviews.names import shown_names, speaker_of, words_of
from archive.rights.decisions import Viewer


def captions_of(session: Session, viewer: Viewer, recording: Recording) -> str:
    """WebVTT of what the viewer may read."""
    names = shown_names(session, viewer)
    segments = interviews.segments(session, viewer, recording)
    return write(Cue(s.start_ms, s.end_ms, speaker_of(s, names), words_of(s, names)) for s in segments)


def captions_of_clip(session: Session, viewer: Viewer, clip: Clip) -> str:
    """The same for a clip's own sound, whose time begins where the clip does; words at its edges end with it."""
    names, span = shown_names(session, viewer), clip.span
    segments = interviews.lines_within(session, viewer, clip.recording_id, span)
    return write(
        Cue(
            max(s.start_ms - span.start_ms, 0),
            min(s.end_ms, span.end_ms) - span.start_ms,
            speaker_of(s, names),
            words_of(s, names),
        )
        for s in segments
    )
