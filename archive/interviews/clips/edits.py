"""Changes to what was cut; never committed here."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy.orm import Session

from archive.errors import NotReady
from archive.interviews import rendition_edits
from archive.interviews.clips import queries
from archive.interviews.clips.sound import Recipe, stretch_of
from archive.interviews.model import CutClip


def note(session: Session, clip_id: int, made: Recipe, sha256: str, size: int, media_type: str) -> None:
    """Write down a file that was cut. NotReady where the clip, or what is closed, is no longer what it was cut for."""
    clip = queries.clip_by_key(session, clip_id)
    if clip is None or stretch_of(clip) != made.stretch:
        raise NotReady("The sound of this clip has changed this moment. Ask for it again.")
    rendition_edits.note_kept(session, sha256, size, media_type)
    row = queries.cut_of(session, made.made_from, made.form)
    if row is None:
        session.add(CutClip(recording_id=clip.recording_id, made_from=made.made_from, form=made.form, sha256=sha256))
    elif row.sha256 != sha256:
        lost, row.sha256 = row.sha256, sha256
        rendition_edits.forget_unused(session, {lost})


def drop_stale(session: Session) -> list[str]:
    """Forget what was cut for closures, spans or clips that are no more.

    Gives the checksums of the files that nothing rests on any more.
    """
    marks = {
        recording.id: {stretch_of(clip).mark for clip in recording.clips}
        for recording in queries.recordings_cut_from(session)
    }
    every = queries.all_cut(session)
    return _drop(
        session, [row for row in every if not row.made_from.startswith(tuple(marks.get(row.recording_id, ())))]
    )


def drop_all(session: Session) -> list[str]:
    """Forget everything that was cut; gives the checksums of the files that nothing rests on any more."""
    return _drop(session, queries.all_cut(session))


def _drop(session: Session, rows: Sequence[CutClip]) -> list[str]:
    for row in rows:
        session.delete(row)
    return rendition_edits.forget_unused(session, {row.sha256 for row in rows})
