"""Typed lines given times on a recording: their own where they have them, else a place in proportion to their words.

A guessed time is doubtful and has no confidence; a line whose end alone is guessed is not doubtful, and has none
either. Where a guess might put closed words outside their closure, the line
is laid over the whole stretch in which it must lie, so that it stays closed until its true time is found. Pure.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from archive.errors import Fault, Unacceptable
from archive.exchange.typed.model import TypedLine
from archive.interviews.transcripts.lines import Line
from archive.values.timecode import Span, format_clock

# Typed times are rounded to the second, and are as quick as the typist.
GUARD_MS = 2_000


@dataclass(frozen=True)
class Run:
    """A line with a time, or none at the start, and the lines after it without one; from when to when they all lie."""

    first: int
    after: int
    span: Span
    timed: bool


def place(
    lines: Sequence[TypedLine],
    duration_ms: int,
    *,
    closed: Sequence[Span] = (),
    people: Mapping[str, str] | None = None,
) -> list[Line]:
    """The lines of a transcript. `people` are the references of those whom the labels stand for."""
    if len(lines) > duration_ms:
        fault = Fault("the file", 0, f"it has {len(lines)} lines", f"The recording lasts {format_clock(duration_ms)}")
        raise Unacceptable([fault], "The words")
    known = people or {}
    placed = (line for run in runs(lines, duration_ms) for line in _laid(run, lines, closed, known))
    return list(placed)


def runs(lines: Sequence[TypedLine], duration_ms: int) -> list[Run]:
    """The lines from each time to the next."""
    if not lines:
        return []
    anchors = {at: lines[at].start_ms or 0 for at in _anchors(lines, duration_ms)}
    starts = sorted({0, *anchors})
    found = []
    for at, after in zip(starts, [*starts[1:], len(lines)], strict=True):
        span = Span(anchors.get(at, 0), anchors.get(after, duration_ms))
        found.append(Run(at, after, span, at in anchors))
    return found


def _anchors(lines: Sequence[TypedLine], duration_ms: int) -> list[int]:
    """The lines whose times leave room for the lines before and after them, a millisecond each at least."""
    found: list[int] = []
    last_at, last_ms = 0, 0
    for at, line in enumerate(lines):
        start = line.start_ms
        if start is None or start >= duration_ms - (len(lines) - at):
            continue
        if start - last_ms >= at - last_at and (start > last_ms or not found):
            found.append(at)
            last_at, last_ms = at, start
    return found


def _laid(run: Run, lines: Sequence[TypedLine], closed: Sequence[Span], people: Mapping[str, str]) -> Iterator[Line]:
    mine = lines[run.first : run.after]
    if run.timed and len(mine) == 1:
        end = mine[0].end_ms
        span = run.span if end is None or end <= run.span.start_ms else Span(run.span.start_ms, end)
        yield _line(mine[0], span, people, guessed=False)
        return
    wide = Span(max(0, run.span.start_ms - GUARD_MS), run.span.end_ms + GUARD_MS)
    hidden = any(wide.overlaps(each) for each in closed)
    for at, (line, span) in enumerate(zip(mine, _spread(mine, _within(mine, run.span)), strict=True)):
        typed = run.timed and at == 0 and not hidden
        yield replace(_line(line, run.span if hidden else span, people, guessed=True), doubtful=not typed)


def _within(lines: Sequence[TypedLine], span: Span) -> Span:
    """The span up to where the lines say that they end, when all of them do: two voices of one caption."""
    ends = [line.end_ms for line in lines if line.end_ms is not None]
    told = len(ends) == len(lines) and span.start_ms + len(lines) < max(ends)
    return Span(span.start_ms, min(max(ends), span.end_ms)) if told else span


def _spread(lines: Sequence[TypedLine], span: Span) -> Iterator[Span]:
    """A stretch for each line, as long as its words are many; every line has a millisecond of its own."""
    weights = [len(line.text.split()) + 1 for line in lines]
    total, room = sum(weights), span.length_ms - len(lines)
    start, weight = span.start_ms, 0
    for number, mine in enumerate(weights, 1):
        weight += mine
        end = span.start_ms + number + room * weight // total
        yield Span(start, end)
        start = end


def _line(line: TypedLine, span: Span, people: Mapping[str, str], *, guessed: bool) -> Line:
    person = people.get(line.speaker, "")
    label = "" if person else line.speaker
    confidence = 0.0 if guessed else None
    return Line(span.start_ms, span.end_ms, person, label, line.text, confidence, guessed)
