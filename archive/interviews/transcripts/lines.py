"""A line of a transcript as it is mended: who said what, from when to when. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from archive.errors import Fault
from archive.values.timecode import format_timecode

# Sound copies may end a little before or after the master says they do.
_SLACK_MS = 1_000
LONGEST_TEXT, LONGEST_LABEL = 20_000, 200
_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")


@dataclass(frozen=True)
class Line:
    """One line. `speaker` is a person's reference or "", `label` what the transcript calls an unknown speaker.

    `key` is the segment that the line came from, where that is known: it says which line this is, not what it says.
    """

    start_ms: int
    end_ms: int
    speaker: str
    label: str
    text: str
    confidence: float | None = None
    doubtful: bool = False
    key: int | None = None

    @property
    def row(self) -> list[Any]:
        """The line as a version keeps it."""
        return [self.start_ms, self.end_ms, self.speaker, self.label, self.text, self.confidence, self.doubtful]

    @property
    def said(self) -> tuple[str, str, str]:
        """Who says what, whenever."""
        return self.speaker, self.label, self.text

    @property
    def bare(self) -> Line:
        """The line without its key: what it says alone."""
        return replace(self, key=None)


def of_row(row: Sequence[Any]) -> Line:
    """The line that a version kept."""
    start_ms, end_ms, speaker, label, text, confidence, doubtful = row
    return Line(start_ms, end_ms, speaker, label, text, confidence, doubtful)


def words(text: str) -> list[str]:
    """The words of a text, folded, without its punctuation."""
    return [word.casefold() for word in _WORD.findall(text)]


def shared_ms(one: Line, other: Line) -> int:
    """For how long two lines run at the same time."""
    return max(0, min(one.end_ms, other.end_ms) - max(one.start_ms, other.start_ms))


def faults_of(lines: Iterable[Line], duration_ms: int, known: frozenset[str]) -> Iterator[Fault]:
    """What is wrong with lines: their times, their order, or a speaker whom nobody knows."""
    before = 0
    for number, line in enumerate(lines, start=1):
        yield from (Fault("lines", number, *words_) for words_ in _faults(line, before, duration_ms, known))
        before = max(before, line.start_ms)


def _faults(line: Line, before: int, duration_ms: int, known: frozenset[str]) -> Iterator[tuple[str, str]]:
    start, end = line.start_ms, line.end_ms
    if not 0 <= start < end:
        yield f"it runs from {start} to {end} milliseconds", "A line ends after it starts"
    elif end > duration_ms + _SLACK_MS:
        yield f"it ends at {format_timecode(end)}", f"The recording ends at {format_timecode(duration_ms)}"
    elif start < before:
        yield f"it starts at {format_timecode(start)}, before the line above it", "Lines stand in order of their starts"
    if line.speaker and line.speaker not in known:
        yield f"nobody has the reference '{line.speaker[:64]}'", "Name a person who is kept, or give a label"
    if len(line.text) > LONGEST_TEXT or len(line.label) > LONGEST_LABEL:
        yield "it is too long", f"A line has {LONGEST_TEXT} letters at most, a label {LONGEST_LABEL}"
    if line.confidence is not None and not 0 <= line.confidence <= 1:
        yield f"its confidence is {line.confidence}", "A confidence runs from 0 to 1"
