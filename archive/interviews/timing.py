"""Which lines of a transcript want a time, and the lines once their times were found in the sound. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from archive.audio.aligning.model import Alignment, GivenLine
from archive.interviews.transcripts.lines import Line
from archive.values.timecode import Span

# A doubtful time may be further off than what it is laid between; what is closed has a guard of this much about it.
GUARD_MS = 2_000


def is_guessed(line: Line) -> bool:
    """Whether its time was never found: a typed line laid somewhere in proportion to its words."""
    return line.doubtful and line.confidence == 0.0


def has_guessed_end(line: Line) -> bool:
    """Whether it was typed with the time at which it starts, and laid up to somewhere before the next time."""
    return not line.doubtful and line.confidence == 0.0


def wanting(lines: Sequence[Line], *, anew: bool = False) -> list[GivenLine]:
    """The lines as they are asked for: those that a person timed, or that were found for sure, keep their times.

    With `anew`, none does.
    """
    return [GivenLine(line.text) if anew or line.doubtful else _known(line) for line in lines]


def _known(line: Line) -> GivenLine:
    return GivenLine(line.text, line.start_ms, None if has_guessed_end(line) else line.end_ms)


def with_times(
    lines: Sequence[Line], given: Sequence[GivenLine], found: Alignment, closed: Sequence[Span], duration_ms: int
) -> list[Line]:
    """The lines with their times; those that had one keep it.

    Where a doubtful line might be said in what is closed, it is laid over the whole stretch between its sure
    neighbours: so it stays closed until a person has found its place.
    """
    timed = [
        _kept(line, asked, aligned.end_ms)
        if asked.start_ms is not None
        else replace(
            line,
            start_ms=aligned.start_ms,
            end_ms=aligned.end_ms,
            confidence=aligned.confidence,
            doubtful=aligned.doubtful,
        )
        for line, asked, aligned in zip(lines, given, found.lines, strict=True)
    ]
    return shielded(timed, closed, duration_ms)


def _kept(line: Line, asked: GivenLine, end_ms: int) -> Line:
    """A line that had its time. What was typed with a time was timed by a person, and is not in doubt."""
    assert asked.start_ms is not None
    end = max(asked.start_ms + 1, asked.end_ms if asked.end_ms is not None else end_ms)
    sure = replace(line, confidence=None, doubtful=False) if line.confidence == 0.0 else line
    return replace(sure, start_ms=asked.start_ms, end_ms=end)


def shielded(lines: Sequence[Line], closed: Sequence[Span], duration_ms: int) -> list[Line]:
    """Runs of doubtful lines near a closure, laid over all of where they may be; all lines in order of their starts."""
    return _in_order(_hidden(lines, closed, duration_ms))


def _hidden(lines: Sequence[Line], closed: Sequence[Span], duration_ms: int) -> list[Line]:
    found = list(lines)
    at = 0
    while at < len(lines):
        after = at
        while after < len(lines) and lines[after].doubtful:
            after += 1
        if after > at:
            start = lines[at - 1].start_ms if at else 0
            end = lines[after].start_ms if after < len(lines) else duration_ms
            end = max(end, start + 1, *(line.end_ms for line in lines[at:after]))
            wide = Span(max(0, start - GUARD_MS), end + GUARD_MS)
            if any(wide.overlaps(each) for each in closed):
                found[at:after] = [replace(line, start_ms=start, end_ms=end) for line in lines[at:after]]
        at = after + 1
    return found


def _in_order(lines: Sequence[Line]) -> list[Line]:
    """No line starts before the one above it, even where a transcript has two voices at one time."""
    found: list[Line] = []
    for line in lines:
        start = max(line.start_ms, found[-1].start_ms if found else 0)
        found.append(replace(line, start_ms=start, end_ms=max(line.end_ms, start + 1)))
    return found
