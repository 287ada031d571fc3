"""Which new line is which old one, and who takes over what hung on a line that is gone. Pure.

What hangs on a line (ties, evidence) stays with it when it is the same, moved, or mended.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from archive.interviews.transcripts.lines import Line, shared_ms, words

# Half the words, or half the time with some of the words: below that it is another line.
_LIKE_ENOUGH = 0.5
_NEAR = 4


def pair(old: Sequence[Line], new: Sequence[Line]) -> list[int | None]:
    """For each new line, the place of the old one that it is, or None for a line that is new."""
    pairs = _Pairs(old, new)
    pairs.by_key()
    pairs.by_words_in_order()
    pairs.by_words_anywhere()
    pairs.by_likeness()
    return pairs.found


def heir(gone: Line, new: Sequence[Line]) -> int | None:
    """The new line that takes over from one that is gone: the one over the same time, else the nearest."""
    if not new:
        return None
    return max(range(len(new)), key=lambda at: (shared_ms(gone, new[at]), -_apart(gone, new[at]), -at))


def parents(old: Sequence[Line], new: Sequence[Line], pairs: Sequence[int | None]) -> dict[int, int]:
    """For each new line that was split off an old one, the place of that one.

    It lies within the old line's time, and says words that the old line no longer says.
    """
    kept = {was: now for now, was in enumerate(pairs) if was is not None}
    starts, longest = _starts(old)
    found = {}
    for at, line in enumerate(new):
        if pairs[at] is not None or not line.text.strip():
            continue
        over = [was for was in _over(line, old, starts, longest) if _lost(old[was], kept.get(was), new, line)]
        if over:
            found[at] = max(over, key=lambda was: shared_ms(old[was], line))
    return found


def _lost(was: Line, now: int | None, new: Sequence[Line], line: Line) -> bool:
    """Whether most of a line's words, and of its time, are what an old line said and its successor does not."""
    if now is None or 2 * shared_ms(was, line) < line.end_ms - line.start_ms:
        return False
    missing, said = Counter(words(was.text)) - Counter(words(new[now].text)), Counter(words(line.text))
    return 2 * (missing & said).total() >= said.total() > 0


class _Pairs:
    def __init__(self, old: Sequence[Line], new: Sequence[Line]) -> None:
        self.old, self.new = old, new
        self.found: list[int | None] = [None] * len(new)
        self._taken: set[int] = set()

    def by_key(self) -> None:
        """Lines that say themselves which they are."""
        places = {line.key: at for at, line in enumerate(self.old) if line.key is not None}
        for at, line in enumerate(self.new):
            if line.key in places:
                self._take(at, places[line.key])

    def by_words_in_order(self) -> None:
        """The longest runs of lines that say the same."""
        left_old, left_new = self._left_old(), self._left_new()
        ids: dict[tuple[str, str, str], int] = {}
        told = [[ids.setdefault(side[at].said, len(ids)) for at in left]
                for side, left in ((self.old, left_old), (self.new, left_new))]  # fmt: skip
        for block in SequenceMatcher(None, told[0], told[1], autojunk=False).get_matching_blocks():
            for step in range(block.size):
                self._take(left_new[block.b + step], left_old[block.a + step])

    def by_words_anywhere(self) -> None:
        """Lines that say the same at another place: the nearest in time."""
        saying: dict[tuple[str, str, str], list[int]] = defaultdict(list)
        for was in self._left_old():
            saying[self.old[was].said].append(was)
        for at in self._left_new():
            line = self.new[at]
            same = [was for was in saying.get(line.said, ()) if was not in self._taken]
            if same:
                self._take(at, min(same, key=lambda was: abs(self.old[was].start_ms - line.start_ms)))

    def by_likeness(self) -> None:
        """Lines that were mended: the likeliest first."""
        bags = {was: Counter(words(self.old[was].text)) for was in self._left_old()}
        scored = sorted(self._candidates(bags), key=lambda each: (-each[0], each[1], each[2]))
        for _likeness, at, was in scored:
            self._take(at, was)

    def _candidates(self, bags: dict[int, Counter[str]]) -> Iterator[tuple[float, int, int]]:
        left = sorted(bags)
        starts, longest = _starts([self.old[was] for was in left])
        for at in self._left_new():
            line, bag = self.new[at], Counter(words(self.new[at].text))
            near = bisect_left(starts, line.start_ms)
            first = bisect_left(starts, line.start_ms - longest)
            last = bisect_left(starts, line.end_ms)
            for was in left[max(0, min(first, near - _NEAR)) : max(last, near + _NEAR)]:
                likeness = _likeness(self.old[was], bags[was], line, bag)
                if likeness >= _LIKE_ENOUGH:
                    yield likeness, at, was

    def _take(self, at: int, was: int) -> None:
        if self.found[at] is None and was not in self._taken:
            self.found[at] = was
            self._taken.add(was)

    def _left_old(self) -> list[int]:
        return [was for was in range(len(self.old)) if was not in self._taken]

    def _left_new(self) -> list[int]:
        return [at for at, was in enumerate(self.found) if was is None]


def _likeness(was: Line, was_bag: Counter[str], line: Line, bag: Counter[str]) -> float:
    """From 0 to 2: how many words two lines share, and how much of their time."""
    alike = 2 * (was_bag & bag).total() / max(1, was_bag.total() + bag.total())
    together = shared_ms(was, line) / max(1, max(was.end_ms, line.end_ms) - min(was.start_ms, line.start_ms))
    return alike + together if alike > 0 or together > _LIKE_ENOUGH else 0.0


def _starts(lines: Sequence[Line]) -> tuple[list[int], int]:
    """When lines start, in order, and how long the longest lasts."""
    return [line.start_ms for line in lines], max((line.end_ms - line.start_ms for line in lines), default=0)


def _over(line: Line, old: Sequence[Line], starts: Sequence[int], longest: int) -> list[int]:
    first, last = bisect_left(starts, line.start_ms - longest), bisect_left(starts, line.end_ms)
    return [was for was in range(first, last) if shared_ms(old[was], line)]


def _apart(one: Line, other: Line) -> int:
    return max(0, one.start_ms - other.end_ms, other.start_ms - one.end_ms)
