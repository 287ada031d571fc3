"""The edges of a closed stretch, to be heard: as readers will hear them, and, for the keeper alone, as they are."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from archive.audio.cutting import cut
from archive.values.timecode import Span

EDGES = ("start", "end", "whole")
AROUND_MS = 3_000


def heard_stretch(edge: str, masked: Span, duration_ms: int) -> Span:
    """Three seconds before to three seconds after an edge of what is masked, or after the whole of it."""
    first = masked.end_ms if edge == "end" else masked.start_ms
    last = masked.start_ms if edge == "start" else masked.end_ms
    start, end = max(0, first - AROUND_MS), min(duration_ms, last + AROUND_MS)
    return Span(min(start, max(0, duration_ms - AROUND_MS)), max(end, start + 1))


def sound_of(master: Path, stretch: Span, masked: Sequence[Span], form: str) -> bytes:
    """A stretch of a master in a form that browsers play, with what is masked silent."""
    with TemporaryDirectory(prefix="lemel-") as folder:
        target = Path(folder) / f"edge.{form}"
        cut(master, target, stretch, closed=masked)
        return target.read_bytes()
