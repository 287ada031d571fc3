"""The title of a telling as it may be read: that of a voice has its narrators under their shown names. Pure."""

from __future__ import annotations

from archive.interviews.names import shown_text
from archive.tours.model import Telling


def shown_title(telling: Telling, names: dict[int, str]) -> str:
    """The title; `names` are people's names as the viewer may read them, by key."""
    return shown_text(telling.title, telling.clip.recording.interview, names) if telling.clip else telling.title
