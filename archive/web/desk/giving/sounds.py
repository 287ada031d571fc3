"""The sound of a tour's clips, cut and masked: for the page, and for the pack that is carried."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.interviews import queries as interviews
from archive.interviews.model import Clip
from archive.rights.decisions import Viewer
from archive.store.files import FileStore
from archive.tours.given.cuts import cut_clip
from archive.values.timecode import Span


def sound_of_clip(files: FileStore, clip: Clip) -> bytes:
    """A clip's sound; the closed stretches of its recording are silent, should any lie in it."""
    closed = tuple(Span(closure.start_ms, closure.end_ms) for closure in clip.recording.closures)
    return cut_clip(files.path(clip.recording.master_sha256), Span(clip.start_ms, clip.end_ms), closed)


def open_clip(session: Session, viewer: Viewer, ref: str) -> Clip:
    """The clip if it is open to the viewer, asked anew each time."""
    return interviews.clip(session, viewer, ref)


def clip_mark(clip: Clip) -> str:
    """What changes when the sound of a clip does: its master, its span and what is closed in the recording."""
    closed = sorted((closure.start_ms, closure.end_ms) for closure in clip.recording.closures)
    return f"{clip.recording.master_sha256} {clip.start_ms} {clip.end_ms} {closed}"
