"""Times that lead back to segments: rows for ties, and moments for evidence, where segments may overlap."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from archive.exchange.draft_voices import RecordingDraft, TieDraft
from archive.exchange.reading_tours import segment_at
from archive.values.timecode import Span


def tie_rows(recording: RecordingDraft) -> list[tuple[Span, TieDraft]]:
    """Ties as spans: read again, each falls on the segments that bear it now.

    A tie on a segment that lies wholly under others without it cannot be said by times alone; its own span is given.
    """
    bearers: defaultdict[TieDraft, set[int]] = defaultdict(set)
    for position, segment in enumerate(recording.segments):
        for tie in segment.ties:
            bearers[tie].add(position)
    pieces = list(_pieces(recording)) if bearers else []
    rows = [(span, tie) for tie, own in bearers.items() for span in _spans(recording, pieces, own)]
    return sorted(rows, key=lambda row: (row[0], row[1].kind, row[1].ref, row[1].state, row[1].made_by))


def moment_of(recording: RecordingDraft, position: int) -> int:
    """A time that falls in this segment rather than in one that overlaps it; its start if there is none."""
    segment = recording.segments[position]
    if segment_at(recording, segment.span.start_ms) == position:
        return segment.span.start_ms
    edges = {edge for other in recording.segments for edge in (other.span.start_ms, other.span.end_ms)}
    inside = sorted(edge for edge in edges if segment.span.start_ms <= edge < segment.span.end_ms)
    return next((edge for edge in inside if segment_at(recording, edge) == position), segment.span.start_ms)


def _pieces(recording: RecordingDraft) -> Iterator[tuple[Span, frozenset[int]]]:
    """The recording cut at every start and end, with the segments that are spoken in each piece."""
    changes: defaultdict[int, list[int]] = defaultdict(list)
    for position, segment in enumerate(recording.segments):
        changes[segment.span.start_ms].append(position)
        changes[segment.span.end_ms].append(position)
    times = sorted(changes)
    spoken: frozenset[int] = frozenset()
    for start, end in zip(times, times[1:], strict=False):
        spoken ^= frozenset(changes[start])
        yield Span(start, end), spoken


def _spans(recording: RecordingDraft, pieces: list[tuple[Span, frozenset[int]]], own: set[int]) -> list[Span]:
    """The longest spans in which only these segments are spoken."""
    spans: list[Span] = []
    reached: set[int] = set()
    start = end = -1
    for span, spoken in [*pieces, (Span(0, 1), frozenset({-1}))]:
        if spoken <= own:
            if spoken:
                start, end = span.start_ms if start < 0 else start, span.end_ms
                reached |= spoken
        elif start >= 0:
            spans.append(Span(start, end))
            start = -1
    return spans + [recording.segments[position].span for position in sorted(own - reached)]
