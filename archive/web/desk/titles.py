"""The titles of tellings as a viewer may read them."""

from __future__ import annotations

from collections.abc import Iterable

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.rights.decisions import Viewer
from archive.tours.model import Telling
from archive.tours.titles import shown_title


def titles(session: Session, viewer: Viewer, rows: Iterable[Telling]) -> dict[str, str]:
    """The titles by reference; those of voices have their narrators under their shown names."""
    names = shown_names(session, viewer)
    return {row.ref: shown_title(row, names) for row in rows}


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
