"""The words of the trade that a speech model is told beforehand, so that it knows them when it hears them. Pure."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable

# A model takes twice as much, but a small one then writes the words down where it understands nothing.
MOST_LETTERS = 300
_AROUND = 8
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")


def hot_words(preferred: Iterable[str], others: Iterable[str] = (), *, everyday: Container[str] = ()) -> str:
    """The words in sentences: those with a word that is none of everyday's first, then the preferred, the short first.

    A model writes in the manner of what it is told: told a list, it writes one, and its last word again and again.
    """
    ranked = sorted(
        [(_is_everyday(word, everyday), 0, len(word), word) for word in preferred]
        + [(_is_everyday(word, everyday), 1, len(word), word) for word in others]
    )
    told: dict[str, str] = {}
    room = MOST_LETTERS
    for *_rank, word in ranked:
        if word.casefold() not in told and len(word) + _AROUND <= room:
            told[word.casefold()] = word
            room -= len(word) + _AROUND
    words = list(told.values())
    return " ".join(f"We said {' and '.join(words[at : at + 2])}." for at in range(0, len(words), 2))


def _is_everyday(term: str, everyday: Container[str]) -> bool:
    return all(word.casefold() in everyday for word in _WORD.findall(term))
