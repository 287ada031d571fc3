"""Text and sound cut into pieces that belong together, at words whose place is sure."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from archive.audio.aligning.anchoring import Anchors
from archive.audio.aligning.gaps import Gap
from archive.audio.aligning.listening import Listening
from archive.audio.aligning.text import Text

_SHORTEST_MS = 8_000
# Where no line starts for so long, any word after a little silence will do.
_LONG_MS = 40_000
_SEARCH_MS = 400
_EDGE_MS = 300
_BREATH_MS = 120


@dataclass(frozen=True)
class Piece:
    """Words, by their numbers in the text, that are said within a stretch of the sound."""

    words: tuple[int, ...]
    start_ms: int
    end_ms: int


@dataclass(frozen=True)
class _Cut:
    """Words before `word` end before `before_ms`; it and those after it start after `after_ms`."""

    word: int
    before_ms: int
    after_ms: int


def pieces_of(
    text: Text, anchors: Anchors, sound: Listening, *, untold: Sequence[Gap], left_out: Collection[int]
) -> list[Piece]:
    """The pieces in order. Speech that nothing tells lies between them; words that are left out are in none."""
    cuts = _cuts(text, anchors, sound, untold)
    starts = [_Cut(0, 0, _first_start(cuts, untold, anchors, text)), *cuts]
    ends = [*cuts, _Cut(len(text.words), _last_end(untold, sound.duration_ms, text), sound.duration_ms)]
    pieces = []
    for start, end in zip(starts, ends, strict=True):
        words = tuple(word for word in range(start.word, end.word) if word not in left_out)
        if words and end.before_ms - start.after_ms >= 100:
            pieces.append(Piece(words, start.after_ms, end.before_ms))
    return pieces


def _first_start(cuts: Sequence[_Cut], untold: Sequence[Gap], anchors: Anchors, text: Text) -> int:
    """Speech before the first word, such as a greeting that was not typed, belongs to no piece."""
    first = next((gap for gap in untold if gap.start_ms == 0), None)
    return max(0, first.end_ms - _EDGE_MS) if first is not None and not first.words else 0


def _last_end(untold: Sequence[Gap], duration_ms: int, text: Text) -> int:
    last = next((gap for gap in untold if gap.after == len(text.words)), None)
    return min(duration_ms, last.start_ms + _EDGE_MS) if last is not None and not last.words else duration_ms


def _cuts(text: Text, anchors: Anchors, sound: Listening, untold: Sequence[Gap]) -> list[_Cut]:
    found: list[_Cut] = []
    line_starts = set(text.bounds)
    about = {gap.after: gap for gap in untold if 0 < gap.after < len(text.words) and gap.first > 0}
    for word in sorted(anchors):
        here = anchors[word]
        gap = about.get(word)
        if gap is not None:
            found += _around(gap, anchors, found)
            continue
        since = here.start_ms - (found[-1].after_ms if found else 0)
        sure = word + 1 in anchors or word - 1 in anchors
        if word == 0 or since < _SHORTEST_MS or not sure or found and found[-1].word >= word:
            continue
        if word in line_starts or since > _LONG_MS and _after_breath(word, anchors):
            at = _quiet_before(word, anchors, sound)
            if not found or at >= found[-1].after_ms:
                found.append(_Cut(word, at, at))
    return found


def _around(gap: Gap, anchors: Anchors, found: Sequence[_Cut]) -> list[_Cut]:
    """Leave out speech that nothing tells; where words lie in the gap too, all of it stays."""
    last = found[-1].word if found else 0
    if gap.words or gap.after <= last:
        return []
    before, after = min(gap.start_ms + _EDGE_MS, gap.end_ms), max(gap.end_ms - _EDGE_MS, gap.start_ms)
    return [_Cut(gap.after, before, after)]


def _after_breath(word: int, anchors: Anchors) -> bool:
    return word - 1 in anchors and anchors[word].start_ms - anchors[word - 1].end_ms >= _BREATH_MS


def _quiet_before(word: int, anchors: Anchors, sound: Listening) -> int:
    """The quietest point just before a word, and not before the end of the word before it."""
    start = anchors[word].start_ms
    earliest = start - _SEARCH_MS
    if word - 1 in anchors:
        earliest = max(earliest, anchors[word - 1].end_ms - 20)
    return min(start, max(0, sound.quietest(max(0, earliest), start)))
