"""The titles of tellings as a viewer may read them."""

from __future__ import annotations

from collections.abc import Iterable

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.names import shown_names, shown_text
from archive.rights.decisions import Viewer
from archive.tours.model import Telling


def titles(session: Session, viewer: Viewer, rows: Iterable[Telling]) -> dict[str, str]:
    """The titles by reference; those of voices have their narrators under their shown names."""
    names = shown_names(session, viewer)
    return {row.ref: _title(row, names) for row in rows}


def _title(row: Telling, names: dict[int, str]) -> str:
    return row.title if row.clip is None else shown_text(row.title, row.clip.recording.interview, names)


def kind_words(kind: str) -> str:
    """A kind of telling, in one word."""
    words = {
        "talk": _("talk"),
        "clip": _("voice"),
        "object": _("in the hand"),
        "demonstration": _("machine runs"),
        "question": _("question"),
    }
    return str(words.get(kind, kind))
