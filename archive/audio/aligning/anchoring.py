"""Where text and first hearing say the same: words of the text that are sure to have been heard, with their times."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher

from archive.audio.aligning.model import Heard
from archive.audio.aligning.text import Text

_SHORTEST_BLOCK = 2
# A short block far from where its neighbours expect it is chance: the same little words are said again and again.
_LONG_BLOCK = 4
_QUICKEST_WORD_MS, _SLOWEST_WORD_MS = 90, 1_500
_SLACK_MS = 3_000

Anchors = Mapping[int, Heard]


def anchors_of(text: Text, heard: Sequence[Heard], duration_ms: int) -> dict[int, Heard]:
    """The heard word of each word of the text that has one; in order of both."""
    starts = [each.start_ms for each in heard]
    within: dict[int, Heard] = {}
    beyond: dict[int, Heard] = {}
    for section in text.sections(duration_ms):
        first, after = bisect_left(starts, section.start_ms), bisect_left(starts, section.end_ms)
        mine = text.words[section.first : section.after]
        for at, each in _anchors(mine, heard[first:after]).items():
            inside = section.from_ms <= each.start_ms < section.until_ms
            (within if inside else beyond)[section.first + at] = each
    return _in_order(within, beyond)


def _in_order(within: Mapping[int, Heard], beyond: Mapping[int, Heard]) -> dict[int, Heard]:
    """Anchors within their sections, and of those a little beyond them the ones that fit between; none heard twice."""
    places = sorted(within)
    found = dict(within)
    last_ms = -1
    for word in sorted(beyond):
        at = bisect_left(places, word)
        before = max(last_ms, within[places[at - 1]].start_ms if at else -1)
        after = within[places[at]].start_ms if at < len(places) else None
        start = beyond[word].start_ms
        if start > before and (after is None or start < after):
            found[word] = beyond[word]
            last_ms = start
    return dict(sorted(found.items()))


def _anchors(words: Sequence[str], heard: Sequence[Heard]) -> dict[int, Heard]:
    spoken = [each.word for each in heard]
    matcher = SequenceMatcher(None, words, spoken, autojunk=False)
    blocks = [(block.a, block.b, block.size) for block in matcher.get_matching_blocks() if block.size]
    blocks = [block for block in blocks if block[2] >= _SHORTEST_BLOCK or len(words) == 1]
    kept = [block for at, block in enumerate(blocks) if _likely(block, blocks, at, heard)]
    return {a + step: heard[b + step] for a, b, size in kept for step in range(size)}


def _likely(
    block: tuple[int, int, int], blocks: Sequence[tuple[int, int, int]], at: int, heard: Sequence[Heard]
) -> bool:
    """Whether a short block stands at a distance from its neighbours that the words between can fill, on one side."""
    if block[2] >= _LONG_BLOCK or len(blocks) == 1:
        return True
    before = at > 0 and _fills(blocks[at - 1], block, heard)
    return before or (at + 1 < len(blocks) and _fills(block, blocks[at + 1], heard))


def _fills(one: tuple[int, int, int], other: tuple[int, int, int], heard: Sequence[Heard]) -> bool:
    words = other[0] - (one[0] + one[2])
    ms = heard[other[1]].start_ms - heard[one[1] + one[2] - 1].end_ms
    return words * _QUICKEST_WORD_MS - _SLACK_MS <= ms <= words * _SLOWEST_WORD_MS + _SLACK_MS
