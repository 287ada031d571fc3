"""The captions of a recording: its open segments, under the names that may be shown; of a draft, each cue says so."""

from __future__ import annotations

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.exchange.webvtt import Cue, write
from archive.interviews import queries as interviews
from archive.interviews.model import Clip, Recording, Segment
from archive.interviews.names import shown_names, speaker_of, words_of
from archive.rights.decisions import Viewer


def captions_of(session: Session, viewer: Viewer, recording: Recording) -> str:
    """WebVTT of what the viewer may read."""
    names = shown_names(session, viewer)
    segments = interviews.segments(session, viewer, recording)
    return write(Cue(s.start_ms, s.end_ms, speaker_of(s, names), _words(s, names)) for s in segments)


def captions_of_clip(session: Session, viewer: Viewer, clip: Clip) -> str:
    """The same for a clip's own sound, whose time begins where the clip does; words at its edges end with it."""
    names, span = shown_names(session, viewer), clip.span
    segments = interviews.lines_within(session, viewer, clip.recording_id, span)
    return write(
        Cue(
            max(s.start_ms - span.start_ms, 0),
            min(s.end_ms, span.end_ms) - span.start_ms,
            speaker_of(s, names),
            _words(s, names),
        )
        for s in segments
    )


def _words(segment: Segment, names: dict[int, str]) -> str:
    """Players show one cue and nothing of the file around it, so the mark stands in each."""
    words = words_of(segment, names)
    return str(_("(draft) %(words)s", words=words)) if segment.recording.is_draft else words
