"""The words around what was found, with the places to mark; plain text, never markup."""

from __future__ import annotations

from dataclasses import dataclass

from archive.search.parsing import Wanted
from archive.search.words import Word, folded, words_of

LONGEST = 240
_LEAD = 60


@dataclass(frozen=True)
class Snippet:
    """A stretch of a text, and the (start, end) of each word to mark in it."""

    text: str
    marks: tuple[tuple[int, int], ...]


def snippet(text: str, wanted: Wanted, longest: int = LONGEST) -> Snippet:
    """The stretch of a text with the most of the words that were asked for."""
    flat = " ".join(text.split())
    words = words_of(flat)
    marks = [(word.start, word.end) for word, marked in zip(words, _marked(words, wanted), strict=True) if marked]
    if len(flat) <= longest:
        return Snippet(flat, tuple(marks))
    return _cut(flat, words, marks, longest)


def _marked(words: list[Word], wanted: Wanted) -> list[bool]:
    """Which words were asked for, by stem, by beginning, or as half of a word written in two."""
    stems, beginnings = wanted.stems, wanted.beginnings
    marked = [word.stem in stems or word.plain.startswith(beginnings) for word in words]
    if not any(marked):
        for at, (one, other) in enumerate(zip(words, words[1:], strict=False)):
            if folded(one.plain + other.plain) in stems:
                marked[at] = marked[at + 1] = True
    return marked


def _cut(text: str, words: list[Word], marks: list[tuple[int, int]], longest: int) -> Snippet:
    """From a little before the mark that has the most marks within reach, at whole words, with dots where cut."""
    reach = longest - _LEAD
    best = max(marks, key=lambda mark: sum(mark[0] <= start < mark[0] + reach for start, _ in marks), default=(0, 0))
    start = min((word.start for word in words if word.start >= best[0] - _LEAD), default=0)
    end = max((word.end for word in words if word.end <= start + longest), default=longest)
    if start < _LEAD // 4:
        start = 0
    before, after = ("… " if start else ""), (" …" if end < len(text) - 1 else text[end:])
    shift = len(before) - start
    shown = tuple((first + shift, last + shift) for first, last in marks if start <= first and last <= end)
    return Snippet(f"{before}{text[start:end]}{after}", shown)
