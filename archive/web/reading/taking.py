"""Transcripts to take away: what is open of a recording, under the shown names, headed by its citation."""

from __future__ import annotations

from collections.abc import Iterable

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.model import Recording, Segment
from archive.interviews.names import shown_names, speaker_of, words_of
from archive.interviews.queries import segments
from archive.rights.decisions import Viewer
from archive.values.timecode import format_clock
from archive.web.media.captions import captions_of
from archive.web.reading.interview_page import source_of

TRANSCRIPT_TYPES = {"txt": "text/plain", "vtt": "text/vtt"}


def transcript_of(session: Session, viewer: Viewer, recording: Recording, form: str) -> str:
    """The transcript of a recording of an open interview, as text or as captions."""
    if form == "vtt":
        return captions_of(session, viewer, recording)
    return "\n".join((*_head(session, viewer, recording), "", *_spoken(session, viewer, recording), ""))


def _head(session: Session, viewer: Viewer, recording: Recording) -> Iterable[str]:
    interview = recording.interview
    names = shown_names(session, viewer)
    yield source_of(session, interview, names, viewer.on).whole(
        [(recording.ref, recording.duration_ms)], draft=recording.is_draft
    )
    if recording.is_draft:
        yield _("These words are a draft. Nobody has checked them against the sound yet.")
    if interview.voice_note:
        yield interview.voice_note
    if recording.closures:
        yield _("Some passages are closed and are left out.")


def _spoken(session: Session, viewer: Viewer, recording: Recording) -> Iterable[str]:
    names = shown_names(session, viewer)
    before = None
    for segment in segments(session, viewer, recording):
        speaker = _speaker(segment)
        said = "" if speaker == before else f"{speaker_of(segment, names)}: "
        yield f"[{format_clock(segment.start_ms)}] {said}{words_of(segment, names)}"
        before = speaker


def _speaker(segment: Segment) -> tuple[int | None, str]:
    return segment.speaker_id, segment.speaker_label
