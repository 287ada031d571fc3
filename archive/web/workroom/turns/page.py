"""What the page on a recording's voices shows, as frozen records. Words stand on the bench alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flask import url_for
from sqlalchemy.orm import Session

from archive.audio.turns import UNSURE_BELOW
from archive.interviews.closing import masked_spans
from archive.interviews.model import Recording
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of, people_known
from archive.interviews.voices import has_speaker, samples_of
from archive.jobs.queries import jobs_of_kind
from archive.rights.naming import shown_name
from archive.tasks.telling_apart import KIND
from archive.values.timecode import Span, format_seconds

MOST_SHOWN = 100


@dataclass(frozen=True)
class Apart:
    """How lines were told apart: how many voices there seem to be, the choices, and the voice of each line."""

    count: int
    choices: Sequence[int]
    chosen: int
    voices: Sequence[int]
    sure: Sequence[float]


@dataclass(frozen=True)
class Sample:
    """A few seconds of a voice."""

    start_ms: int
    address: str


@dataclass(frozen=True)
class Voice:
    """One voice: its number from 1, how much it says, and where it is heard best."""

    number: int
    lines: int
    minutes: float
    samples: Sequence[Sample]


@dataclass(frozen=True)
class TurnsPage:
    """What would be done, or what was found and waits for names."""

    recording: Recording
    lines: int
    with_speaker: int
    apart: Apart | None
    voices: Sequence[Voice]
    unsure: Sequence[int]
    more: int
    own_people: Sequence[tuple[str, str]]
    other_people: Sequence[tuple[str, str]]
    named: bool
    problem: str


def turns_page(
    session: Session, recording: Recording, asked: int, *, named: bool = False, problem: str = ""
) -> TurnsPage:
    """The page; `asked` is the number of voices that a person thinks there are, 0 for as many as were found."""
    lines = lines_of(session, recording)
    apart = apart_of(session, recording, asked)
    unsure = [at for at, sure in enumerate(apart.sure, 1) if sure < UNSURE_BELOW] if apart else []
    own, others = _people(session, recording)
    return TurnsPage(
        recording=recording,
        lines=len(lines),
        with_speaker=sum(map(has_speaker, lines)),
        apart=apart,
        voices=_voices(recording, lines, apart) if apart else (),
        unsure=unsure[:MOST_SHOWN],
        more=max(0, len(unsure) - MOST_SHOWN),
        own_people=own,
        other_people=others,
        named=named,
        problem=problem,
    )


def apart_of(session: Session, recording: Recording, asked: int) -> Apart | None:
    """What was found last of the transcript as it is now; None when it has changed since, or nothing was found yet."""
    for job in jobs_of_kind(session, KIND):
        mine = job.inputs.get("recording") == recording.ref and isinstance(job.outcome, dict)
        if mine and job.outcome["version"] == recording.transcript_version:
            choices = sorted(map(int, job.outcome["ways"]))
            chosen = asked if asked in choices else job.outcome["count"]
            way = job.outcome["ways"][str(chosen)]
            return Apart(job.outcome["count"], choices, chosen, way["voices"], way["sure"])
    return None


def _voices(recording: Recording, lines: Sequence[Line], apart: Apart) -> list[Voice]:
    closed = masked_spans(recording)
    found = []
    for voice in range(apart.chosen):
        mine = [at for at, each in enumerate(apart.voices) if each == voice]
        length = sum(lines[at].end_ms - lines[at].start_ms for at in mine)
        samples = [_sample(recording, span) for span in samples_of(lines, apart.sure, mine, closed)]
        found.append(Voice(voice + 1, len(mine), length / 60_000, samples))
    return found


def _sample(recording: Recording, span: Span) -> Sample:
    sound = url_for("mending.sound", ref=recording.ref)
    return Sample(span.start_ms, f"{sound}#t={format_seconds(span.start_ms)},{format_seconds(span.end_ms)}")


def _people(session: Session, recording: Recording) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """Those of the interview, and everybody else; an unnamed person stays unnamed."""
    interview = recording.interview
    own = [(each.ref, shown_name(each, ())) for each in (*interview.narrators, *interview.interviewers)]
    refs = {ref for ref, _name in own}
    people = [each for each in people_known(session) if each.kind == "person" and each.ref not in refs]
    return own, [(each.ref, shown_name(each, ())) for each in people]
