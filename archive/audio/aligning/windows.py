"""A sound cut into windows, of 12 to 25 s unless other lengths are asked for, at pauses where there are any."""

from __future__ import annotations

from archive.audio.aligning.listening import Listening
from archive.values.timecode import Span

SHORTEST_MS, LONGEST_MS = 12_000, 25_000
_LEAST_SPEECH_MS = 200


def windows_of(sound: Listening, shortest_ms: int = SHORTEST_MS, longest_ms: int = LONGEST_MS) -> list[Span]:
    """The windows in order; those without speech are left out."""
    found = []
    start = 0
    while start < sound.duration_ms:
        left = sound.duration_ms - start
        end = sound.duration_ms if left <= longest_ms else _cut(sound, start + shortest_ms, start + longest_ms)
        if sound.speech_ms(start, end) >= _LEAST_SPEECH_MS:
            found.append(Span(start, end))
        start = end
    return found


def _cut(sound: Listening, first: int, last: int) -> int:
    """Where a window ends: in the middle of the longest pause in reach, or at the quietest point."""
    reach = [pause for pause in sound.pauses if first <= (pause.start_ms + pause.end_ms) // 2 <= last]
    if reach:
        longest = max(reach, key=lambda pause: pause.length_ms)
        return (longest.start_ms + longest.end_ms) // 2
    return max(first, min(sound.quietest(first, last), last))
