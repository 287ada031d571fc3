"""The work that writes a first transcript down from the sound, and keeps it, marked as a draft."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from archive.audio.aligning.lexicon import dictionary
from archive.audio.aligning.model import Progress as Told
from archive.audio.aligning.model import Stop, StoppedError
from archive.audio.drafting.drafting import draft
from archive.audio.drafting.hot_words import hot_words
from archive.audio.drafting.speech_model import need_model, recogniser_of
from archive.errors import Conflict, Overtaken
from archive.interviews.closing import masked_spans
from archive.interviews.drafted import lines_of_draft
from archive.interviews.intake.queries import recording as recording_by_ref
from archive.interviews.model import Recording
from archive.interviews.transcripts.edits import keep_lines, overtaken
from archive.interviews.transcripts.lines import Line
from archive.jobs.edits import ask
from archive.jobs.model import Job
from archive.jobs.queries import unended
from archive.settings import Settings
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.terms.queries import vocabulary
from archive.values.timecode import Span

KIND = "draft a transcript"
SAID = "Drafted by a speech model"
_STOPPED = "Stopped. The words are as they were. What was heard so far is kept, so asking again goes on from there."


@dataclass(frozen=True)
class Wanted:
    """A recording that wants a draft, and all that is needed to make and keep it."""

    recording: str
    master: Path
    language: str
    hot_words: str
    closed: Sequence[Span]
    based_on: int
    state: str

    def told(self, model: Path) -> list[str]:
        """What the draft depends on, beside the sound."""
        size = (model / "model.bin").stat().st_size if (model / "model.bin").is_file() else 0
        return [str(model), str(size), self.language, self.hot_words]


def ask_for(
    session: Session, settings: Settings, ref: str, who: str, *, over: bool = False, terms: bool = True
) -> tuple[Job, bool]:
    """The work on a recording, and whether it is new: while it is being done already, there is no second.

    `terms` tells the model the words of the thesaurus beforehand. NotReady without a model; Conflict where there are
    words already, unless it is said that they may be replaced.
    """
    need_model(settings.speech_model)
    row = recording_by_ref(session, ref)
    for job in unended(session):
        if job.kind == KIND and job.inputs.get("recording") == row.ref:
            return job, False
    may_replace(row, over=over)
    inputs = {"recording": row.ref, "who": who, "over": over, "terms": terms}
    return ask(session, KIND, inputs, who), True


def may_replace(row: Recording, *, over: bool) -> None:
    """Conflict where a draft would take the place of words, unless somebody has said that it may."""
    if over or not row.segments:
        return
    whose = "a person has checked" if row.transcript_state == "checked" else "are there already"
    raise Conflict(
        f"{row.ref} has words that {whose}. A draft would take their place; say so if you want that. "
        "The older version is kept."
    )


def draft_a_transcript(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Make the draft and keep it. Where somebody changed the words meanwhile, theirs stand and that is told."""
    ref = inputs["recording"]
    with store.session() as session:
        wanted = wanted_of(store, session, ref, over=bool(inputs["over"]), terms=bool(inputs["terms"]))
    lines, untold = written_down(store.settings, wanted, progress.tell, progress.stop_asked)
    outcome = {"address": f"/workroom/recordings/{ref}/draft?done={progress.key}", **told(lines, untold)}
    try:
        version = keep_draft(store, wanted, lines, inputs["who"])
    except Overtaken as problem:
        return {**outcome, "overtaken": str(problem)}
    return {**outcome, "version": version}


def wanted_of(store: Store, session: Session, ref: str, *, over: bool = False, terms: bool = True) -> Wanted:
    """What is to be drafted; Conflict where words are there that may not be replaced."""
    row = recording_by_ref(session, ref)
    may_replace(row, over=over)
    # The sentences that they stand in are English, and so is the list of everyday words.
    words = vocabulary(session) if terms and row.interview.language.casefold().startswith("en") else ()
    preferred, others = [word.preferred for word in words], [other for word in words for other in word.other_words]
    return Wanted(
        recording=row.ref,
        master=store.files.path(row.master_sha256),
        language=row.interview.language,
        hot_words=hot_words(preferred, others, everyday=dictionary()),
        closed=masked_spans(row),
        based_on=row.transcript_version,
        state=row.transcript_state,
    )


def written_down(settings: Settings, wanted: Wanted, progress: Told, stop: Stop) -> tuple[list[Line], Sequence[Span]]:
    """The lines of the draft, and where somebody speaks without one.

    What is finished stays in a folder of the home until all is.
    """
    model = settings.speech_model
    folder = settings.incoming / "drafting" / wanted.recording
    recogniser = recogniser_of(model, wanted.language, wanted.hot_words)
    try:
        drafted = draft(wanted.master, recogniser, told=wanted.told(model), progress=progress, stop=stop, folder=folder)
    except StoppedError as stopped:
        raise Stopped(_STOPPED) from stopped
    shutil.rmtree(folder)
    if not drafted.lines:
        raise Conflict(f"No words were heard in {wanted.recording}. Its words are as they were.")
    return lines_of_draft(drafted.lines, wanted.closed), drafted.untold


def keep_draft(store: Store, wanted: Wanted, lines: Sequence[Line], who: str) -> int:
    """The version that this makes; Overtaken when the words, or what was said of them, are no longer as they were."""
    with store.changing(who) as change:
        row = recording_by_ref(change, wanted.recording)
        if row.transcript_state != wanted.state:
            raise overtaken(change, row, wanted.based_on)
        return keep_lines(change, row, lines, who=who, said=SAID, based_on=wanted.based_on, state="draft")


def told(lines: Sequence[Line], untold: Sequence[Span]) -> dict[str, Any]:
    """What came of it, for JSON: line numbers count from 1."""
    return {
        "lines": len(lines),
        "doubtful": [at for at, line in enumerate(lines, 1) if line.doubtful],
        "untold": [[span.start_ms, span.end_ms] for span in untold],
    }
