"""Cutting a clip's sound when it is asked for, unless it is kept already. Whoever asks has found the clip open."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from sqlalchemy.orm import Session

from archive.audio import cutting
from archive.audio.loudness import Loudness
from archive.interviews.clips import edits, queries
from archive.interviews.clips.sound import ALONE_LUFS, MEASURED, MEDIA_TYPES, Recipe, gain_of, recipe, stretch_of
from archive.interviews.model import Clip
from archive.store.session import Store
from archive.values.timecode import format_timecode

WHO = "clips"


def sound_of(store: Store, session: Session, clip: Clip, form: str, level: float = ALONE_LUFS) -> str:
    """The checksum of the kept file that is a clip's sound in a form, at a level in LUFS."""
    made = recipe(clip, form, level)

    def cut(target: Path) -> None:
        master, stretch = store.files.path(made.stretch.master_sha256), made.stretch
        gain_db = 0.0 if made.level is None else gain_of(made, loudness_of(store, session, clip))
        start, end = (format_timecode(ms) for ms in (stretch.span.start_ms, stretch.span.end_ms))
        # For a sound editor; by reference alone, since a title may hold a name that is not shown.
        says = f"{clip.recording.ref}, {start} to {end}"
        cutting.cut(master, target, stretch.span, closed=stretch.masked, gain_db=gain_db, description=says)

    return _kept(store, session, clip, made, cut, MEDIA_TYPES[form])


def loudness_of(store: Store, session: Session, clip: Clip) -> Loudness:
    """How loud a clip is in its master, without what is masked; measured once, and kept like a cut."""
    made = Recipe(stretch_of(clip), MEASURED, None)

    def measure(target: Path) -> None:
        master, stretch = store.files.path(made.stretch.master_sha256), made.stretch
        found = cutting.loudness_of(master, stretch.span, closed=stretch.masked)
        # With the fingerprint in it no two clips rest on one file.
        told = {"of": made.made_from, "integrated": found.integrated, "true_peak": found.true_peak}
        target.write_text(json.dumps(told), "utf-8")

    told = json.loads(store.files.path(_kept(store, session, clip, made, measure, "application/json")).read_bytes())
    return Loudness(told["integrated"], None, told["true_peak"], None, None)


def _kept(
    store: Store, session: Session, clip: Clip, made: Recipe, make: Callable[[Path], None], media_type: str
) -> str:
    """What a recipe makes: found among what is kept, or made now. The row is written once the bytes are safe.

    Two who ask at the same moment both cut, and keep the same bytes under one row.
    """
    row = queries.cut_of(session, made.made_from, made.form)
    if row is not None and store.files.holds(row.sha256):
        return row.sha256
    sha256, size = store.files.keep_made(make, f".{made.form}")
    with store.changing(WHO) as changes:
        edits.note(changes, clip.id, made, sha256, size, media_type)
    return sha256
