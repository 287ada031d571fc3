"""What the page on the times of a recording's words shows, as frozen records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask import current_app
from sqlalchemy.orm import Session

from archive.interviews.model import Recording
from archive.interviews.timing import is_guessed
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of
from archive.jobs.queries import jobs_of_kind
from archive.tasks.aligning import KIND
from archive.values.timecode import Span

MOST_SHOWN = 200


@dataclass(frozen=True)
class DoubtfulLine:
    """A line that a person should look at: its number, when it may be said, how sure that is, and where to mend it."""

    number: int
    start_ms: int
    percent: int | None
    found: bool
    address: str


@dataclass(frozen=True)
class AligningPage:
    """What would be done, and what came of it when it was done last. Words stand on the bench alone."""

    recording: Recording
    english: bool
    lines: int
    guessed: int
    kept: int
    doubtful: Sequence[DoubtfulLine]
    more: int
    untold: Sequence[Span]
    done: bool
    overtaken: str
    theirs: int
    bench: str


def aligning_page(session: Session, recording: Recording, done: str) -> AligningPage:
    """The page; `done` is the key of the work that leads here."""
    lines = lines_of(session, recording)
    outcome = _outcome(session, recording, done)
    bench = _bench(recording)
    doubtful = [
        DoubtfulLine(number, line.start_ms, _percent(line), not is_guessed(line), _at(bench, number))
        for number, line in enumerate(lines, 1)
        if line.doubtful
    ]
    return AligningPage(
        recording=recording,
        english=recording.interview.language.casefold().startswith("en"),
        lines=len(lines),
        guessed=sum(map(is_guessed, lines)),
        kept=sum(not line.doubtful for line in lines),
        doubtful=doubtful[:MOST_SHOWN],
        more=max(0, len(doubtful) - MOST_SHOWN),
        untold=[Span(*span) for span in outcome.get("untold", ()) if _fits(outcome, recording)],
        done=bool(outcome) and _fits(outcome, recording),
        overtaken=outcome.get("overtaken", "") if _fits(outcome, recording) else "",
        theirs=outcome.get("theirs", 0),
        bench=bench,
    )


def _outcome(session: Session, recording: Recording, done: str) -> Mapping[str, Any]:
    """What came of the work that leads here, else of the last one on this recording."""
    mine = [job for job in jobs_of_kind(session, KIND) if job.inputs.get("recording") == recording.ref]
    for job in mine:
        if isinstance(job.outcome, dict) and (job.key == done or not done and "version" in job.outcome):
            return job.outcome
    return {}


def _percent(line: Line) -> int | None:
    """How many in a hundred of its words were heard; None where a person wrote them since."""
    return None if line.confidence is None else round(100 * line.confidence)


def _fits(outcome: Mapping[str, Any], recording: Recording) -> bool:
    """Whether the transcript still is what the work made of it."""
    return outcome.get("version") == recording.transcript_version


def _bench(recording: Recording) -> str:
    """Where its words are mended, if this home has the bench."""
    there = any(rule.rule.rstrip("/").endswith("/recordings/<ref>/bench") for rule in current_app.url_map.iter_rules())
    return f"/workroom/recordings/{recording.ref}/bench" if there else ""


def _at(bench: str, number: int) -> str:
    return f"{bench}#line-{number}" if bench else ""
