"""The work that tells the voices of a recording's lines apart; who they are, a person says afterwards."""

from __future__ import annotations

from typing import Any

from sqlalchemy.orm import Session

from archive.audio.aligning.model import StoppedError
from archive.audio.turns import tell_apart
from archive.errors import Conflict
from archive.interviews.intake.queries import recording as recording_by_ref
from archive.interviews.transcripts.queries import lines_of
from archive.jobs.edits import ask
from archive.jobs.model import Job
from archive.jobs.queries import unended
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.values.timecode import Span

KIND = "tell the voices apart"


def ask_for(session: Session, ref: str, who: str) -> tuple[Job, bool]:
    """The work on a recording, and whether it is new; Conflict where there are no lines."""
    row = recording_by_ref(session, ref)
    if not row.segments:
        raise Conflict(f"{row.ref} has no words yet. Bring a transcript first, or have a draft made.")
    for job in unended(session):
        if job.kind == KIND and job.inputs.get("recording") == row.ref:
            return job, False
    return ask(session, KIND, {"recording": row.ref, "who": who}, who), True


def tell_voices_apart(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Which voice says each line, for each number of voices that there may be. The lines stay as they are."""
    ref = inputs["recording"]
    with store.session() as session:
        row = recording_by_ref(session, ref)
        lines, version, master = lines_of(session, row), row.transcript_version, store.files.path(row.master_sha256)
    try:
        turns = tell_apart(
            master,
            [Span(line.start_ms, line.end_ms) for line in lines],
            progress=progress.tell,
            stop=progress.stop_asked,
        )
    except StoppedError as stopped:
        raise Stopped("Stopped. The words are as they were.") from stopped
    ways = {
        str(number): {"voices": [each.voice for each in told], "sure": [each.sure for each in told]}
        for number, told in turns.ways.items()
    }
    return {"address": f"/workroom/recordings/{ref}/turns", "version": version, "count": turns.count, "ways": ways}
