"""From the times of words to the times of lines: in order, within the sound, none running into the next."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from archive.audio.aligning.model import DOUBTFUL_BELOW, AlignedLine, Heard
from archive.audio.aligning.text import Text

_AGREE_MS = 300
# Without the second way of listening a line can be no surer than this.
_ANCHORS_ALONE = 0.4
_TAIL_MS = 120
_WORD_MS = 300


@dataclass(frozen=True)
class _Rough:
    """What is known of a line: when it starts and ends, if at all, and how sure that is."""

    start_ms: int | None
    end_ms: int | None
    confidence: float


def place_lines(
    text: Text, anchors: Mapping[int, Heard], laid: Mapping[int, Heard], duration_ms: int, unheard: Collection[int]
) -> list[AlignedLine]:
    """The lines of a text on a sound of that length. `laid` are the words as they were laid on the sound."""
    rough = [_rough(text, at, anchors, laid, unheard) for at in range(len(text.lines))]
    fixed = frozenset(at for at, line in enumerate(text.given) if line.start_ms is not None)
    starts = in_order(_filled([line.start_ms for line in rough], text, duration_ms), duration_ms, fixed)
    ends = [*starts[1:], duration_ms]
    return [
        AlignedLine(start, _end(line, start, most), line.confidence, line.confidence < DOUBTFUL_BELOW)
        for line, start, most in zip(rough, starts, ends, strict=True)
    ]


def _rough(
    text: Text, at: int, anchors: Mapping[int, Heard], laid: Mapping[int, Heard], unheard: Collection[int]
) -> _Rough:
    given = text.given[at]
    words = range(text.bounds[at], text.bounds[at + 1])
    confidence = _confidence(words, anchors, laid)
    if given.start_ms is not None:
        last = max((word for word in words if word in laid), default=None)
        end = given.end_ms if given.end_ms is not None or last is None else laid[last].end_ms
        return _Rough(given.start_ms, end, confidence)
    if at in unheard or not words:
        return _Rough(None, None, 0.0)
    times = laid if any(word in laid for word in words) else anchors
    found = [(word, times[word]) for word in words if word in times]
    if not found:
        return _Rough(None, None, 0.0)
    first, heard = found[0]
    start = max(0, heard.start_ms - (first - words[0]) * _WORD_MS)
    return _Rough(start, found[-1][1].end_ms + _TAIL_MS, confidence)


def _confidence(words: Sequence[int], anchors: Mapping[int, Heard], laid: Mapping[int, Heard]) -> float:
    """The share of words that both ways of listening find at the same place."""
    if not words:
        return 0.0
    if not any(word in laid for word in words):
        return _ANCHORS_ALONE * sum(word in anchors for word in words) / len(words)
    both = (word for word in words if word in anchors and word in laid)
    agreed = sum(abs(anchors[word].start_ms - laid[word].start_ms) <= _AGREE_MS for word in both)
    return round(agreed / len(words), 3)


def _filled(starts: Sequence[int | None], text: Text, duration_ms: int) -> list[int]:
    """Lines without a start get one between their neighbours, in proportion to the words before them."""
    known = [(-1, 0), *((at, ms) for at, ms in enumerate(starts) if ms is not None), (len(starts), duration_ms)]
    filled = [0] * len(starts)
    for (before, first_ms), (after, last_ms) in pairwise(known):
        if before >= 0:
            filled[before] = first_ms
        first_word = text.bounds[max(before, 0)]
        words = max(1, text.bounds[after] - first_word)
        for at in range(before + 1, after):
            share = (text.bounds[at] - first_word) / words
            filled[at] = first_ms + round((max(last_ms, first_ms) - first_ms) * share)
    return filled


def in_order(starts: Sequence[int], duration_ms: int, fixed: Collection[int] = ()) -> list[int]:
    """The starts, moved as little as keeps each a millisecond after the one before it and all of them in the sound.

    Those that are fixed stay where they are, as long as they are in order themselves.
    """
    latest = [0] * len(starts)
    limit = duration_ms
    for at in reversed(range(len(starts))):
        limit = min(limit - 1, starts[at]) if at in fixed else limit - 1
        latest[at] = limit
    found: list[int] = []
    for start, last in zip(starts, latest, strict=True):
        earliest = found[-1] + 1 if found else 0
        found.append(max(min(start, last), earliest))
    return found


def _end(line: _Rough, start_ms: int, most_ms: int) -> int:
    wanted = line.end_ms if line.end_ms is not None else most_ms
    return max(start_ms + 1, min(wanted, most_ms))
