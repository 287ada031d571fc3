"""The words of the trade that a speech model is told beforehand, so that it knows them when it hears them. Pure."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable

# A model of this family takes 223 pieces of words beforehand; a piece of a trade word has three letters or so.
MOST_LETTERS = 600
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")


def hot_words(preferred: Iterable[str], others: Iterable[str] = (), *, everyday: Container[str] = ()) -> str:
    """As many words as a model takes: those with a word that is none of everyday's first, then the preferred.

    Each stands as a sentence of its own: a model writes in the manner of what it is told, and would write a list.
    """
    ranked = sorted(
        [(_is_everyday(word, everyday), 0, len(word), word) for word in preferred]
        + [(_is_everyday(word, everyday), 1, len(word), word) for word in others]
    )
    told: dict[str, str] = {}
    room = MOST_LETTERS
    for *_rank, word in ranked:
        if word.casefold() not in told and len(word) + 2 <= room:
            told[word.casefold()] = word
            room -= len(word) + 2
    return " ".join(f"{word[:1].upper()}{word[1:]}." for word in told.values())


def _is_everyday(term: str, everyday: Container[str]) -> bool:
    return all(word.casefold() in everyday for word in _WORD.findall(term))
