"""How far a mask reaches beyond what was closed, so that neither a codec nor a cut word gives anything away."""

from __future__ import annotations

from collections.abc import Iterable

from archive.values.timecode import Span

# Measured: what a codec smears past a cut is below -80 dBFS after 50 ms (see tests/audio/test_access.py).
GUARD_MS = 50
# A pause this near to the guard's edge takes the edge, so that the word between is not heard cut in two.
NEAR_MS = 300


def guarded_span(closure: Span, pauses: Iterable[Span], duration_ms: int) -> Span:
    """The stretch to mask for a closure: 50 ms more on both sides, or up to the next pause where one is near.

    It never holds less than the closure and its guard, and never reaches past the ends of the recording.
    """
    known = tuple(pauses)
    start, end = max(0, closure.start_ms - GUARD_MS), closure.end_ms + GUARD_MS
    if not any(pause.start_ms <= start <= pause.end_ms for pause in known):
        start = max((p.end_ms for p in known if start - NEAR_MS <= p.end_ms < start), default=start)
    if not any(pause.start_ms <= end <= pause.end_ms for pause in known):
        end = min((p.start_ms for p in known if end < p.start_ms <= end + NEAR_MS), default=end)
    # A closure may end a little past the sound's own end; what is closed stays closed.
    return Span(start, max(min(end, duration_ms), closure.end_ms))
