"""How far a mask reaches beyond what was closed, so that neither a codec nor a cut word gives anything away."""

from __future__ import annotations

from collections.abc import Iterable

from archive.values.timecode import Span

# What sounded last before a mask dies away in an Opus decoder: of speech within 25 ms, of the worst stereo noise below
# -80 dBFS after 57 ms (measured; see tests/audio/test_access.py). Before a sound comes back, 6 ms are enough.
BEFORE_MS, AFTER_MS = 60, 50
# A pause this near to the guard's edge takes the edge, so that the word between is not heard cut in two.
NEAR_MS = 300


def guarded_span(closure: Span, pauses: Iterable[Span], duration_ms: int) -> Span:
    """The stretch to mask for a closure: 60 ms more before and 50 ms after, or up to a pause where one is near.

    It never holds less than the closure and its guard, and never reaches past the ends of the recording.
    """
    known = tuple(pauses)
    start, end = max(0, closure.start_ms - BEFORE_MS), closure.end_ms + AFTER_MS
    if not any(pause.start_ms <= start <= pause.end_ms for pause in known):
        start = max((p.end_ms for p in known if start - NEAR_MS <= p.end_ms < start), default=start)
    if not any(pause.start_ms <= end <= pause.end_ms for pause in known):
        end = min((p.start_ms for p in known if end < p.start_ms <= end + NEAR_MS), default=end)
    # A closure may end a little past the sound's own end; what is closed stays closed.
    return Span(start, max(min(end, duration_ms), closure.end_ms))
