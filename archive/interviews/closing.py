"""What is masked of a recording: its closures, each with its guard; the one answer for sound, levels and marks."""

from __future__ import annotations

from archive.interviews.model import Recording
from archive.values.timecode import Span


def masked_spans(recording: Recording) -> tuple[Span, ...]:
    """The stretches that nobody may hear or read, in order; what overlaps or touches is one."""
    edges = sorted((closure.masked_start_ms, closure.masked_end_ms) for closure in recording.closures)
    found: list[Span] = []
    for start, end in edges:
        if found and start <= found[-1].end_ms:
            found[-1] = Span(found[-1].start_ms, max(end, found[-1].end_ms))
        else:
            found.append(Span(start, end))
    return tuple(found)


def guard(recording: Recording) -> bool:
    """Work out the guard of every closure anew, by what is known of the sound; whether anything else is masked now."""
    before = masked_spans(recording)
    for closure in recording.closures:
        closure.cover(closure.span, known_pauses(recording), recording.duration_ms)
    return masked_spans(recording) != before


def known_pauses(recording: Recording) -> tuple[Span, ...]:
    """The pauses that were measured in a recording; none in one that was never measured."""
    return tuple(Span(start, end) for start, end in (recording.facts or {}).get("pauses", ()))
