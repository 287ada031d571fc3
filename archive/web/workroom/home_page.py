"""What the Workroom's first page shows. Of what is closed it tells references and dates, and nothing else."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from flask import url_for
from sqlalchemy.orm import Session

from archive.evidence.model import Statement
from archive.interviews.model import Clip, Interview, Recording, Segment
from archive.interviews.queries import interview_refs, recording_refs
from archive.objects.clearance import clearance_on
from archive.objects.model import MuseumObject
from archive.objects.queries import machines
from archive.objects.running.queries import faulty_runs
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.decisions import spoken_date
from archive.rights.queries import agreements_near, closures_to_review
from archive.store.model import Collection, KeptFile, Load
from archive.store.queries import (
    DayOfEvents,
    collection,
    count_of,
    days_of_events,
    kept_files,
    last_load,
    unsound_files,
)
from archive.terms.model import Term
from archive.tours.model import Telling, Tour
from archive.values.timecode import format_clock
from archive.web.workroom.readability_page import ReadabilityTable, readability_table

DAYS_NEAR = 365
KINDS = (
    ("interviews", Interview),
    ("recordings", Recording),
    ("segments", Segment),
    ("clips", Clip),
    ("people and firms", Person),
    ("objects", MuseumObject),
    ("stations", Station),
    ("processes", Process),
    ("hazards", Hazard),
    ("terms", Term),
    ("statements", Statement),
    ("tellings", Telling),
    ("tours", Tour),
)


@dataclass(frozen=True)
class DatedNote:
    """Something that the keeper should look at, where, and its day, or none when it is so today."""

    day: dt.date | None
    what: str
    past: bool
    address: str = ""


@dataclass(frozen=True)
class FileState:
    """How many files are kept, their size in bytes, when they were last checked, and those not sound."""

    count: int
    size: int
    checked_at: dt.datetime | None
    unsound: Sequence[KeptFile]


@dataclass(frozen=True)
class HomePage:
    """The home at a glance."""

    collection: Collection
    counts: Sequence[tuple[str, int]]
    last_load: Load | None
    agreements: Sequence[DatedNote]
    closures: Sequence[DatedNote]
    clearances: Sequence[DatedNote]
    files: FileState
    events: Sequence[DayOfEvents]
    readability: ReadabilityTable


def home_page(session: Session, today: dt.date) -> HomePage:
    """The page on a day."""
    return HomePage(
        collection=collection(session),
        counts=[(name, count_of(session, kind)) for name, kind in KINDS],
        last_load=last_load(session),
        agreements=_agreements(session, today),
        closures=_closures(session, today),
        clearances=_clearances(session, today),
        files=_files(session),
        events=days_of_events(session, 8),
        readability=readability_table(session),
    )


def _agreements(session: Session, today: dt.date) -> list[DatedNote]:
    refs = interview_refs(session)
    by_day: dict[tuple[dt.date, str], list[str]] = {}
    for agreement, permission in agreements_near(session, today, DAYS_NEAR):
        ref = refs[agreement.interview_id]
        dated = ((permission.from_date, f"{ref} opens for"), (permission.withdrawn_on, f"{ref} is withdrawn for"))
        for day, words in dated:
            if day and abs((day - today).days) <= DAYS_NEAR:
                by_day.setdefault((day, words), []).append(permission.purpose)
    return [DatedNote(day, f"{words} {', '.join(whys)}", day < today) for (day, words), whys in sorted(by_day.items())]


def _closures(session: Session, today: dt.date) -> list[DatedNote]:
    refs = recording_refs(session)
    return [
        DatedNote(
            closure.review_on,
            f"{refs[closure.recording_id]}, {format_clock(closure.start_ms)} to {format_clock(closure.end_ms)}",
            closure.review_on < today,
            url_for("closing.page", ref=refs[closure.recording_id], _anchor=f"closure-{closure.id}"),
        )
        for closure in closures_to_review(session, today, DAYS_NEAR)
        if closure.review_on
    ]


def _clearances(session: Session, today: dt.date) -> list[DatedNote]:
    notes = []
    for machine in machines(session):
        if not machine.demonstrations:
            continue
        state = clearance_on(machine.clearances, today)
        for lack in state.lacking:
            notes.append(DatedNote(None, f"{machine.name} ({machine.ref}) may not be run. {lack}", True))
        if state.until and (state.until - today).days <= DAYS_NEAR:
            words = f"{machine.name} ({machine.ref}) is cleared until {spoken_date(state.until)}"
            notes.append(DatedNote(state.until, words, False))
    called = {machine.ref: machine.name for machine in machines(session)}
    for run in faulty_runs(session):
        words = f"{called.get(run.machine, run.machine)} ({run.machine}) has an open fault: {run.faults}"
        notes.append(DatedNote(run.started_at.date(), words, True))
    return notes


def _files(session: Session) -> FileState:
    files = kept_files(session)
    checked = [file.checked_at for file in files if file.checked_at]
    return FileState(len(files), sum(file.size for file in files), min(checked, default=None), unsound_files(session))
