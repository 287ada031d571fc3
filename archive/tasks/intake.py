"""Taking in a recording that has arrived: by the web, or out of the inbox."""

from __future__ import annotations

from typing import Any

from sqlalchemy.orm import Session

from archive.errors import Conflict, LemelError
from archive.interviews.intake import edits, queries
from archive.interviews.intake.arriving import place_of
from archive.interviews.intake.taking import Came, Given, measure, take_in
from archive.interviews.model import Upload
from archive.jobs.edits import ask
from archive.jobs.model import Job
from archive.jobs.queries import job as job_by_key
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped

KIND = "take in a recording"
MEASURE = "measure a recording"


def ask_for(session: Session, upload: Upload, who: str, *, all_the_same: bool = False) -> Job:
    """The work that takes an upload in, in the same commit that says that it has arrived."""
    let_go(session, upload)
    if upload.state not in ("arrived", "refused"):
        raise Conflict(f"{upload.file_name} is {upload.state}. Only a file that has arrived can be taken in.")
    job = ask(session, KIND, {"upload": upload.key, "all_the_same": all_the_same}, who)
    edits.give_work(upload, job.key)
    return job


def let_go(session: Session, upload: Upload) -> None:
    """Let a file whose work has failed or was stopped wait for the keeper; Conflict while the work is being done."""
    if upload.state != "arrived":
        return
    work = job_by_key(session, upload.job) if upload.job else None
    if work is not None and not work.ended:
        raise Conflict(f"{upload.file_name} is being taken in. Wait for it, or stop the work.")
    edits.settle(upload, "refused", work.says if work and work.says else "It has not been taken in yet.")


def take_in_a_recording(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Take an upload in, or say why not: then its bytes stay until the keeper has said what to do with them."""
    key = inputs["upload"]
    with store.session() as session:
        row = queries.upload(session, key)
    recording = ""
    if row.state == "arrived":
        try:
            came = _taken(store, row, bool(inputs.get("all_the_same")), progress)
        except LemelError as problem:
            _settle(store, row, "refused", str(problem))
            raise
        if came.state == "stopped":
            _settle(store, row, "refused", came.says)
            raise Stopped(came.says)
        recording = came.recording if came.state == "taken in" else ""
    with store.session() as session:
        row = queries.upload(session, key)
    if row.state in ("taken in", "dropped"):
        place_of(store.settings, row).unlink(missing_ok=True)
    address = f"/workroom/recordings/{recording}" if recording else "/workroom/upload/"
    return {"address": address, "recording": recording}


def measure_a_recording(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Find out what was never measured of a recording; done twice, it finds the same."""
    if not measure(store, inputs["recording"], inputs["who"], progress=progress.tell, stop=progress.stop_asked):
        raise Stopped("Stopped. Nothing was written down.")
    return {"address": f"/workroom/recordings/{inputs['recording']}"}


def _taken(store: Store, row: Upload, all_the_same: bool, progress: Progress) -> Came:
    def note(session: Session, came: Came) -> None:
        edits.settle(queries.upload(session, row.key), _STATE[came.state], came.says)

    given = Given(place_of(store.settings, row), row.interview, row.file_name, row.who, all_the_same, note)
    came = take_in(store, given, progress=progress.tell, stop=progress.stop_asked)
    if came.state in ("same file", "same sound"):
        _settle(store, row, "refused", came.says)
    return came


# What cannot be read is kept aside, so nothing of the upload itself remains to be decided.
_STATE = {"taken in": "taken in", "unreadable": "dropped"}


def _settle(store: Store, row: Upload, state: str, says: str) -> None:
    with store.changing(row.who) as session:
        edits.settle(queries.upload(session, row.key), state, says)
