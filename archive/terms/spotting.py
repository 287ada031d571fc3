"""Finding the thesaurus's words in running text. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

# Whether a word, folded to lower case, may stand for the meaning with this key here.
Fits = Callable[[str, int], bool]


@dataclass(frozen=True)
class Spot:
    """A stretch of text that is one of the words, and the key of what it means."""

    start: int
    end: int
    key: int


class Vocabulary:
    """Words with the key of what each means; where two claim a word, the first given keeps it."""

    def __init__(self, words: Iterable[tuple[str, int]]) -> None:
        pairs: dict[str, int] = {}
        for word, key in words:
            if word.strip():
                pairs.setdefault(_folded(word), key)
        self._keys: Mapping[str, int] = pairs
        self._pattern = _pattern(tuple(sorted(pairs, key=len, reverse=True)))

    def spots(self, text: str, passed_over: Iterable[int] = (), fits: Fits = lambda _word, _key: True) -> list[Spot]:
        """The first fitting place of each meaning in the text, in order; keys passed over are left alone."""
        seen = set(passed_over)
        found = []
        for match in self._pattern.finditer(text):
            word = _folded(match["word"])
            key = self._keys[word]
            if key not in seen and fits(word, key):
                seen.add(key)
                found.append(Spot(match.start(), match.end(), key))
        return found


def _folded(word: str) -> str:
    return " ".join(word.casefold().split())


@lru_cache(maxsize=8)
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    """Whole words, the longest first; a plain plural counts, and any white space stands for a space."""
    if not words:
        return re.compile(r"(?P<word>(?!))")
    either = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in words)
    return re.compile(rf"(?<![\w-])(?P<word>{either})(?:e?s)?(?![\w-])", re.IGNORECASE)
