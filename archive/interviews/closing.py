"""What is masked of a recording: its closures, each with its guard; the one answer for sound, levels and marks."""

from __future__ import annotations

from collections.abc import Iterable

from archive.interviews.model import Recording
from archive.rights.model import Closure
from archive.values.timecode import Span


def masked_spans(recording: Recording) -> tuple[Span, ...]:
    """The stretches that nobody may hear or read, in order."""
    return merged(recording.closures)


def merged(closures: Iterable[Closure]) -> tuple[Span, ...]:
    """What is masked for closures, in order; what overlaps or touches is one."""
    found: list[Span] = []
    for span in sorted(closure.masked for closure in closures):
        if found and span.start_ms <= found[-1].end_ms:
            found[-1] = Span(found[-1].start_ms, max(span.end_ms, found[-1].end_ms))
        else:
            found.append(span)
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
