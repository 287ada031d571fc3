"""What the page on a recording's draft shows, as a frozen record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from archive.audio.drafting.speech_model import SpeechModel, look_at
from archive.interviews.model import Recording
from archive.jobs.queries import jobs_of_kind
from archive.settings import Settings
from archive.tasks.drafting import KIND
from archive.values.timecode import Span


@dataclass(frozen=True)
class DraftPage:
    """What is there, what is missing, and what came of it when it was done last. Words stand on the bench alone."""

    recording: Recording
    model: SpeechModel
    lines: int
    doubtful: int
    untold: Sequence[Span]
    done: bool
    overtaken: str


def draft_page(session: Session, settings: Settings, recording: Recording, done: str) -> DraftPage:
    """The page; `done` is the key of the work that leads here."""
    outcome = _outcome(session, recording, done)
    fits = outcome.get("version") == recording.transcript_version
    return DraftPage(
        recording=recording,
        model=look_at(settings.speech_model),
        lines=len(recording.segments),
        doubtful=sum(segment.doubtful for segment in recording.segments),
        untold=[Span(*span) for span in outcome.get("untold", ()) if fits],
        done=bool(outcome) and fits,
        overtaken=outcome.get("overtaken", ""),
    )


def _outcome(session: Session, recording: Recording, done: str) -> Mapping[str, Any]:
    """What came of the work that leads here."""
    for job in jobs_of_kind(session, KIND):
        if job.key == done and job.inputs.get("recording") == recording.ref and isinstance(job.outcome, dict):
            return job.outcome
    return {}
