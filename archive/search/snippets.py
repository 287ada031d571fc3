"""The words around what was found, with the places to mark; plain text, never markup."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from archive.search.parsing import Wanted
from archive.search.words import WORD, folded, known, plain

LONGEST = 240
_LEAD = 60

Mark = tuple[int, int]


class Snippet(NamedTuple):
    """A stretch of a text, and the (start, end) of each word to mark in it."""

    text: str
    marks: tuple[Mark, ...]


class Marker:
    """Marks what was asked for in the texts that were found; each different word is looked at once."""

    def __init__(self, wanted: Wanted) -> None:
        self._stems, self._beginnings = wanted.stems, wanted.beginnings
        self._known: dict[str, bool] = {}

    def snippet(self, text: str, longest: int = LONGEST) -> Snippet:
        """The stretch of a text with the most of the words that were asked for."""
        flat = " ".join(text.split())
        marks = self._marks(flat) or self._marks_of_pairs(flat)
        return Snippet(flat, tuple(marks)) if len(flat) <= longest else _cut(flat, marks, longest)

    def _marks(self, text: str) -> list[Mark]:
        known = self._known
        marks = []
        for match in WORD.finditer(text):
            word = match[0]
            marked = known.get(word)
            if marked is None:
                marked = known[word] = self._is_wanted(word)
            if marked:
                marks.append(match.span())
        return marks

    def _is_wanted(self, word: str) -> bool:
        shown, stem = known(word)
        return stem in self._stems or shown.startswith(self._beginnings)

    def _marks_of_pairs(self, text: str) -> list[Mark]:
        """Two words that were asked for as one."""
        pairs = pairwise(WORD.finditer(text))
        found = (pair for pair in pairs if folded(plain(pair[0][0]) + plain(pair[1][0])) in self._stems)
        return [match.span() for pair in found for match in pair]


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
