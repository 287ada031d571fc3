"""Proposed chapters of a transcript, by how its words hold together. Pure.

Text-tiling: M. A. Hearst (1997), "TextTiling: Segmenting text into multi-paragraph subtopic passages", Computational
Linguistics 23(1), 33-64. Each gap between lines is scored by how alike the blocks of lines before and after it are
(cosine of word counts); a chapter begins where the likeness dips deepest below the peaks on both sides.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import mean, pstdev

from archive.interviews.said.keywords import Rarity

_BLOCK = 6
_LEAST_LINES = 5
_MOST_PHRASES = 4
_OF_THE_TRADE = 1.6
# Below this many lines there is one matter, or none.
_LEAST_TO_PART = 2 * _LEAST_LINES


@dataclass(frozen=True)
class Chapter:
    """Lines that hold together: the first of them, the one after the last, and the keys that tell it from the rest."""

    first: int
    after: int
    keys: tuple[str, ...]


def chapters(lines: Sequence[Sequence[str]], rarity: Rarity, trade: frozenset[str] = frozenset()) -> list[Chapter]:
    """The chapters of lines given by their roots and terms; terms in `trade` are the thesaurus's own."""
    if not lines:
        return []
    starts = [0, *_borders(lines), len(lines)]
    return [
        Chapter(first, after, _keys(lines, first, after, rarity, trade))
        for first, after in zip(starts, starts[1:], strict=False)
    ]


def _borders(lines: Sequence[Sequence[str]]) -> list[int]:
    if len(lines) < _LEAST_TO_PART:
        return []
    likeness = [_likeness(lines, gap) for gap in range(1, len(lines))]
    smooth = _smoothed(likeness)
    depths = [_depth(smooth, place) for place in range(len(smooth))]
    deep = mean(depths) + pstdev(depths) / 2
    chosen: list[int] = []
    for place in sorted(range(len(depths)), key=lambda at: -depths[at]):
        gap = place + 1
        clear = all(abs(gap - other) >= _LEAST_LINES for other in (0, len(lines), *chosen))
        if depths[place] > max(deep, 0) and clear:
            chosen.append(gap)
    return sorted(chosen)


def _likeness(lines: Sequence[Sequence[str]], gap: int) -> float:
    """The cosine of the words of the blocks before and after a gap."""
    before = Counter(word for line in lines[max(0, gap - _BLOCK) : gap] for word in line)
    after = Counter(word for line in lines[gap : gap + _BLOCK] for word in line)
    size = math.sqrt(sum(n * n for n in before.values()) * sum(n * n for n in after.values()))
    return sum(before[word] * after[word] for word in before) / size if size else 0.0


def _smoothed(values: Sequence[float]) -> list[float]:
    """Each value with its neighbours, so that one odd line makes no chapter."""
    return [mean(values[max(0, place - 1) : place + 2]) for place in range(len(values))]


def _depth(values: Sequence[float], place: int) -> float:
    """How far below the nearest peaks on both sides a value lies."""
    left = right = place
    while left > 0 and values[left - 1] >= values[left]:
        left -= 1
    while right < len(values) - 1 and values[right + 1] >= values[right]:
        right += 1
    return values[left] + values[right] - 2 * values[place]


def _keys(
    lines: Sequence[Sequence[str]], first: int, after: int, rarity: Rarity, trade: frozenset[str]
) -> tuple[str, ...]:
    """What tells a chapter: words that stand here often and elsewhere seldom, the trade's own words before others."""
    here = Counter(word for line in lines[first:after] for word in set(line))
    worth = {
        word: count * rarity.weight(word) * (_OF_THE_TRADE if word in trade else 1)
        for word, count in here.items()
        if count > 1 or word in trade
    }
    return tuple(sorted(worth, key=lambda word: (-worth[word], word))[:_MOST_PHRASES])
