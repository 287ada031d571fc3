"""The lines of a draft as a transcript keeps them, none of them out of what is closed. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from archive.audio.drafting.model import DraftLine
from archive.interviews.transcripts.lines import Line
from archive.values.timecode import Span

# A model's times may be off by this much: what it puts so near a closure may have been said in it.
NEAR_MS = 1_000


def lines_of_draft(drafted: Sequence[DraftLine], closed: Sequence[Span]) -> list[Line]:
    """The lines without speakers. A line near a closure is laid up to it, in doubt, and so is closed with it."""
    return [_line(line, closed) for line in drafted]


def _line(line: DraftLine, closed: Sequence[Span]) -> Line:
    start, end = line.start_ms, line.end_ms
    for span in closed:
        if span.end_ms <= start < span.end_ms + NEAR_MS:
            start = span.end_ms - 1
        if span.start_ms - NEAR_MS < end <= span.start_ms:
            end = span.start_ms + 1
    moved = (start, end) != (line.start_ms, line.end_ms)
    return Line(start, end, "", "", line.text, line.confidence, line.doubtful or moved)
