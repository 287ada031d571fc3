"""How loud the voices of a tour are made: all alike, as far as every one of them can go."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.interviews.clips.cutting import loudness_of
from archive.interviews.clips.sound import level_of
from archive.rights.decisions import Viewer
from archive.store.session import Store
from archive.tours import queries


def level_on_tour(store: Store, session: Session, viewer: Viewer, ref: str) -> float:
    """The level in LUFS of the clips on a tour that are open to the viewer; closed ones have no say in it."""
    clips = queries.clips_on(session, viewer, queries.tour(session, ref))
    return level_of(loudness_of(store, session, clip) for clip in clips)
