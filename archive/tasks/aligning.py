"""The work that finds when each line of a transcript is said, and stores it unless somebody was quicker."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from archive.audio.aligning.aligning import align
from archive.audio.aligning.lexicon import Lexicon
from archive.audio.aligning.model import Alignment, GivenLine, Stop, StoppedError
from archive.audio.aligning.model import Progress as Told
from archive.errors import CannotRead, Conflict, Overtaken
from archive.exchange.typed.model import LeftOut, Options
from archive.exchange.typed.placing import place
from archive.exchange.typed.reading import read_typed
from archive.exchange.typed.understanding import understand
from archive.interviews.closing import masked_spans
from archive.interviews.found_times import beside_theirs
from archive.interviews.intake.naming import kept_name
from archive.interviews.intake.queries import recording as recording_by_ref
from archive.interviews.model import Recording
from archive.interviews.timing import shielded, wanting, with_times
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of, speaker_refs
from archive.interviews.transcripts.typed_edits import keep_typed_file
from archive.jobs.edits import ask
from archive.jobs.model import Job
from archive.jobs.queries import unended
from archive.settings import Settings
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.terms.queries import vocabulary
from archive.values.timecode import Span

KIND = "align a transcript"
SAID = "Times found in the sound"
SAID_BESIDE = "Times found in the sound, beside what was changed meanwhile"
_STOPPED = "Stopped. The times are as they were. What was heard so far is kept, so asking again goes on from there."


@dataclass(frozen=True)
class TypedFile:
    """A typed transcript as it is understood: its lines, which of them have a time, and what is no words of it."""

    path: Path
    form: str
    lines: Sequence[Line]
    given: Sequence[GivenLine]
    left_out: Sequence[LeftOut] = ()


def read_typed_file(path: Path, duration_ms: int, closed: Sequence[Span], people: set[str]) -> TypedFile:
    """Read and understand a file; a label that is a person's reference stands for that person."""
    try:
        content = path.read_bytes()
    except OSError as problem:
        raise CannotRead(
            str(path), 0, problem.strerror or "it cannot be opened", "Give a file that is there"
        ) from problem
    typed = understand(read_typed(content, path.name), Options(duration_ms=duration_ms, known=frozenset(people)))
    speakers = {label: label for label in typed.labels if label in people}
    return TypedFile(
        path=path,
        form=typed.form,
        lines=place(typed.lines, duration_ms, closed=closed, people=speakers),
        given=[GivenLine(line.text, line.start_ms, line.end_ms) for line in typed.lines],
        left_out=typed.left_out,
    )


@dataclass(frozen=True)
class Wanted:
    """A recording's lines that want times, and all that is needed to find and keep them."""

    recording: str
    master: Path
    duration_ms: int
    lines: Sequence[Line]
    given: Sequence[GivenLine]
    closed: Sequence[Span]
    said_as: dict[str, str]
    based_on: int
    file: TypedFile | None = None


def job_inputs(recording: str, who: str, *, anew: bool = False) -> dict[str, Any]:
    """What the work is told: whose times, who asks, and whether times that are there are found anew as well."""
    return {"recording": recording, "who": who, "anew": anew}


def ask_for(session: Session, recording: str, who: str, *, anew: bool = False) -> tuple[Job, bool]:
    """The work on a recording, and whether it is new: while it is being done already, there is no second."""
    for job in unended(session):
        if job.kind == KIND and job.inputs.get("recording") == recording:
            return job, False
    return ask(session, KIND, job_inputs(recording, who, anew=anew), who), True


def align_a_transcript(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Find the times and keep them. What somebody changed meanwhile stands, and the times are put beside it."""
    ref = inputs["recording"]
    with store.session() as session:
        wanted = wanted_of(store, session, ref, anew=bool(inputs["anew"]))
    found, lines = find_times(store.settings, wanted, progress.tell, progress.stop_asked)
    outcome = {"address": f"/workroom/recordings/{ref}/align?done={progress.key}", **told(found, lines)}
    return {**outcome, **keep(store, wanted, lines, inputs["who"])}


def wanted_of(store: Store, session: Session, ref: str, *, anew: bool = False, typed: Path | None = None) -> Wanted:
    """A recording with the lines it has, or those of a typed file.

    Conflict when there are none, or when it is in a language that is not listened for.
    """
    row = recording_by_ref(session, ref)
    closed = masked_spans(row)
    file = read_typed_file(typed, row.duration_ms, closed, set(speaker_refs(session).values())) if typed else None
    lines = file.lines if file else lines_of(session, row)
    if not lines:
        raise Conflict(f"{ref} has no words yet. Bring a typed transcript first.")
    if not row.interview.language.casefold().startswith("en"):
        raise Conflict(
            f"{ref} is in the language '{row.interview.language}'. Times can be found for English alone; "
            "give the others by hand."
        )
    return Wanted(
        recording=ref,
        master=store.files.path(row.master_sha256),
        duration_ms=row.duration_ms,
        lines=lines,
        given=file.given if file and not anew else wanting(lines, anew=anew),
        closed=closed,
        said_as={word.preferred: word.said_as for word in vocabulary(session) if word.said_as},
        based_on=row.transcript_version,
        file=file,
    )


def find_times(settings: Settings, wanted: Wanted, progress: Told, stop: Stop) -> tuple[Alignment, list[Line]]:
    """What is found, and the lines with it. What is finished stays in a folder of the home until all is kept."""
    folder = _folder(settings, wanted)
    try:
        found = align(wanted.master, wanted.given, Lexicon(wanted.said_as), progress=progress, stop=stop, folder=folder)
    except StoppedError as stopped:
        raise Stopped(_STOPPED) from stopped
    return found, with_times(wanted.lines, wanted.given, found, wanted.closed, wanted.duration_ms)


def _folder(settings: Settings, wanted: Wanted) -> Path:
    return settings.incoming / "aligning" / wanted.recording


def keep(store: Store, wanted: Wanted, lines: Sequence[Line], who: str) -> dict[str, Any]:
    """Keep what was found, beside what somebody changed meanwhile; the version that this makes, and what was theirs.

    Overtaken when a file's words were to take the place of words that are no longer there; asked again, it is quick.
    """
    try:
        kept: dict[str, Any] = {"version": keep_times(store, wanted, lines, who)}
    except Overtaken as overtaken:
        if wanted.file:
            raise
        version, theirs = keep_beside(store, wanted, lines, who)
        kept = {"overtaken": overtaken.who, "theirs": theirs, "version": version}
    shutil.rmtree(_folder(store.settings, wanted))
    return kept


def keep_times(store: Store, wanted: Wanted, lines: Sequence[Line], who: str) -> int:
    """The version that this makes; Overtaken when the words are no longer those that were aligned."""
    with store.changing(who) as change:
        row = recording_by_ref(change, wanted.recording)
        file = wanted.file
        lines = _shielded(row, lines)
        if file is None:
            return keep_lines(change, row, lines, who=who, said=SAID, based_on=wanted.based_on)
        sha256, size = store.files.keep(file.path)
        keep_typed_file(change, row, sha256, size, name=kept_name(file.path.name), form=file.form, who=who)
        said = f"Words from the file {kept_name(file.path.name)}, their times found in the sound"[:300]
        state = "draft" if any(line.doubtful for line in lines) else "checked"
        return keep_lines(change, row, lines, who=who, said=said, based_on=wanted.based_on, state=state)


def keep_beside(store: Store, wanted: Wanted, lines: Sequence[Line], who: str) -> tuple[int, int]:
    """The version with the times found beside what somebody wrote meanwhile, and how many lines keep theirs."""
    with store.changing(who) as change:
        row = recording_by_ref(change, wanted.recording)
        both, theirs = beside_theirs(wanted.lines, lines, lines_of(change, row))
        shown = _shielded(row, both)
        return keep_lines(change, row, shown, who=who, said=SAID_BESIDE, based_on=row.transcript_version), theirs


def _shielded(row: Recording, lines: Sequence[Line]) -> list[Line]:
    """With what is closed by now, which may be more than when the search began."""
    return shielded(lines, masked_spans(row), row.duration_ms)


def told(found: Alignment, lines: Sequence[Line]) -> dict[str, Any]:
    """What came of it, for JSON: line numbers count from 1."""
    return {
        "lines_timed": len(lines),
        "doubtful": [at for at, line in enumerate(lines, 1) if line.doubtful],
        "unheard": [at + 1 for at in found.unheard],
        "untold": [[span.start_ms, span.end_ms] for span in found.untold],
    }
