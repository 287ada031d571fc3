"""What the bench plays: a recording whole, closed stretches too, from the lightest copy that hides nothing."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePath

from archive.errors import NotReady
from archive.interviews.model import Recording
from archive.interviews.rendition_jobs import MEDIA_TYPES

# What browsers play of the kinds of file that masters come as.
_PLAYED = {
    ".flac": "audio/flac",
    ".wav": "audio/wav",
    ".mp3": "audio/mpeg",
    ".m4a": "audio/mp4",
    ".mp4": "audio/mp4",
    ".aac": "audio/aac",
    ".ogg": "audio/ogg",
    ".oga": "audio/ogg",
    ".opus": "audio/ogg",
    ".webm": "audio/webm",
}
_LIGHTEST = ("webm", "mp3")


@dataclass(frozen=True)
class Whole:
    """A kept file that holds the sound of a recording with nothing masked."""

    sha256: str
    media_type: str
    name: str


def whole_sound(recording: Recording) -> Whole:
    """A copy made while nothing was closed, or that came with the folder; else the master, if a browser plays it."""
    unmasked = {copy.form: copy for copy in recording.renditions if copy.closed == "" and copy.form in _LIGHTEST}
    for form in _LIGHTEST:
        if form in unmasked:
            return Whole(unmasked[form].sha256, MEDIA_TYPES[form], f"{recording.ref}.{form}")
    suffix = PurePath(recording.master_name).suffix.lower()
    if suffix not in _PLAYED:
        raise NotReady(
            f"No browser plays {suffix or 'this kind of file'}, and every copy of {recording.ref} is masked."
        )
    return Whole(recording.master_sha256, _PLAYED[suffix], f"{recording.ref}{suffix}")
