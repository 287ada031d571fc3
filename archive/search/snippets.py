"""The words around what was found, with the places to mark; plain text, never markup."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from archive.search.parsing import Wanted
from archive.search.words import Word, stems_placed, words_of

LONGEST = 240
_LEAD = 60

Mark = tuple[int, int]


class Snippet(NamedTuple):
    """A stretch of a text, and the (start, end) of each word to mark in it."""

    text: str
    marks: tuple[Mark, ...]


class Marker:
    """Marks what was asked for in the texts of one page of hits.

    Texts are parted at blanks, and each different part is looked at once: parting is quick, looking for words is not.
    """

    def __init__(self, wanted: Wanted, texts: Iterable[str]) -> None:
        self._stems, self._beginnings = wanted.stems, wanted.beginnings
        parts = set().union(*(text.split() for text in texts))
        self._marked = {part for part in parts if not _stems_in(part).isdisjoint(self._stems)}
        if self._beginnings:
            self._marked.update(part for part in parts if any(map(self._begins, _words_in(part))))

    def snippet(self, text: str, longest: int = LONGEST) -> Snippet:
        """The stretch of a text with the most of the words that were asked for."""
        parts = text.split()
        flat = " ".join(parts)
        marks = [] if self._marked.isdisjoint(parts) else self._marks(parts)
        return Snippet(flat, tuple(marks)) if len(flat) <= longest else _cut(flat, marks, longest)

    def _marks(self, parts: list[str]) -> list[Mark]:
        marks: list[Mark] = []
        at = 0
        for part in parts:
            if part in self._marked:
                marks += [(at + word.start, at + word.end) for word in self._wanted_in(part)]
            at += len(part) + 1
        return marks

    def _wanted_in(self, part: str) -> list[Word]:
        """The words to mark in a part; all of them where they were asked for as one, such as fire-gilding."""
        words = _words_in(part)
        return [word for word in words if word.stem in self._stems or self._begins(word)] or list(words)

    def _begins(self, word: Word) -> bool:
        return word.plain.startswith(self._beginnings)


_words_in = lru_cache(maxsize=65536)(words_of)


@lru_cache(maxsize=65536)
def _stems_in(part: str) -> frozenset[str]:
    return frozenset(stem for stem, _ in stems_placed(part))


def _cut(text: str, marks: list[Mark], longest: int) -> Snippet:
    """From a little before the mark that has the most marks within reach, at whole words, with dots where cut."""
    reach = longest - _LEAD
    best = max(marks, key=lambda mark: sum(mark[0] <= start < mark[0] + reach for start, _ in marks), default=(0, 0))
    start = _word_start(text, best[0] - _LEAD)
    end = _word_end(text, start + longest)
    before, after = ("… " if start else ""), (" …" if end < len(text) else "")
    shift = len(before) - start
    shown = tuple((first + shift, last + shift) for first, last in marks if start <= first and last <= end)
    return Snippet(f"{before}{text[start:end]}{after}", shown)


def _word_start(text: str, at: int) -> int:
    """The start of the first whole word from a place on; the text's own start where that is near."""
    return 0 if at < _LEAD // 4 else text.find(" ", at) + 1


def _word_end(text: str, at: int) -> int:
    """The end of the last whole word up to a place."""
    return len(text) if at >= len(text) else max(text.rfind(" ", 0, at + 1), 0) or at
