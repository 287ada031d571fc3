"""What stands in the office's own papers and nowhere else: names and notes of files, older words, uploads, work."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.interviews.intake import queries
from archive.interviews.model import Recording, Upload
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of
from archive.interviews.transcripts.typed_edits import keep_typed_file
from archive.jobs.model import Job
from archive.objects.model import Clearance
from archive.store.model import Event
from archive.store.session import Store
from archive.tasks import aligning, intake
from tests.house.planted import OFFICE
from tests.small_collection import CLOSED_WORD


def file_office_papers(store: Store) -> None:
    """Write the word of the office wherever a keeper or the house itself writes for keepers alone."""
    typed = store.settings.home / "typed.txt"
    typed.write_text(f"{OFFICE}: the {CLOSED_WORD} and the {OFFICE}", "utf-8")
    kept = store.files.keep(typed)
    typed.unlink()
    with store.changing("keeper") as session:
        for row in queries.recordings(session):
            _name_the_file(session, row)
            name = f"{OFFICE} {row.ref}.txt"
            keep_typed_file(session, row, *kept, name=name, form="text", who="keeper")
            _write_and_take_back(session, row)
            _send_files(session, row)
            _leave_work(session, row)
        for paper in session.scalars(select(Clearance)):
            paper.note = f"Filed under {OFFICE}"


def _name_the_file(session: Session, row: Recording) -> None:
    row.master_name, row.damage = f"{OFFICE} {row.id}.flac", f"It breaks off at the {OFFICE}"
    row.facts = {**row.facts, "bext": {"description": OFFICE, "originator": OFFICE, "originator_reference": OFFICE}}
    row.likeness = [OFFICE]
    for kind in ("ingestion", "fixity check", "validation"):
        session.add(Event(kind=kind, outcome="success", sha256=row.master_sha256, detail=f"{OFFICE} of {row.ref}"))


def _write_and_take_back(session: Session, row: Recording) -> None:
    """An older version holds what nobody may read now, in a line that is open."""
    lines = lines_of(session, row)
    first = lines[0]
    more = Line(first.start_ms, first.end_ms, first.speaker, first.label, f"{first.text} {OFFICE}", key=first.key)
    for now, said in (([more, *lines[1:]], f"Wrote {OFFICE}"), (lines, f"Took {OFFICE} back")):
        keep_lines(session, row, now, who="keeper", said=said, based_on=row.transcript_version)


def _send_files(session: Session, row: Recording) -> None:
    for state in ("arriving", "arrived", "refused", "taken in"):
        session.add(
            Upload(
                key=f"office-{row.id}-{state}",
                interview=row.interview.ref,
                file_name=f"{OFFICE} {state}.wav",
                size=2_000,
                received=1_000 if state == "arriving" else 2_000,
                who="keeper",
                state=state,
                says=f"Sounds like the {OFFICE}",
            )
        )


def _leave_work(session: Session, row: Recording) -> None:
    """Work that came to nothing, and work that was overtaken, with the lines that it found."""
    told = {"overtaken": OFFICE, "lines": [line.row for line in lines_of(session, row)], "version": 1}
    for kind, state, outcome in ((aligning.KIND, "done", told), (intake.KIND, "failed", None)):
        inputs = {"recording": row.ref, "who": "keeper", "anew": False, "name": OFFICE}
        session.add(
            Job(
                key=f"office-{row.id}-{state}",
                kind=kind,
                who="keeper",
                inputs=inputs,
                state=state,
                says=f"{OFFICE} of {row.ref}",
                outcome=outcome,
            )
        )
