"""All the words of a field, in order: those that begin so, and those that are nearly so."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable

import numpy as np

from archive.search.distance import distance

_BITS = np.array([bin(number).count("1") for number in range(1 << 16)], np.uint8)


class Vocabulary:
    """The words of one field in one state of the index."""

    def __init__(self, words: Iterable[str]) -> None:
        self.words = sorted(set(words))
        self._lengths = np.fromiter(map(len, self.words), np.int64, len(self.words))
        self._letters = np.fromiter(map(_letters, self.words), np.uint32, len(self.words))

    def beginning(self, start: str) -> list[str]:
        """The words that begin so."""
        first = bisect_left(self.words, start)
        return self.words[first : bisect_left(self.words, start + "\U0010ffff", first)]

    def near(self, word: str, most: int) -> list[tuple[int, str]]:
        """The words at most so many edits away, with the number of edits.

        An edit changes at most two of the letters that occur, so only words that share the others are measured.
        """
        apart = self._letters ^ np.uint32(_letters(word))
        other_letters = _BITS[apart & np.uint32(0xFFFF)] + _BITS[apart >> np.uint32(16)]
        close = (np.abs(self._lengths - len(word)) <= most) & (other_letters <= 2 * most)
        measured = [(distance(word, self.words[at], most), self.words[at]) for at in np.flatnonzero(close).tolist()]
        return [found for found in measured if found[0] <= most]


def _letters(word: str) -> int:
    """Which letters occur, as bits; a few characters share a bit."""
    bits = 0
    for letter in word:
        bits |= 1 << (ord(letter) & 31)
    return bits
