"""The words of the trade that a speech model is told beforehand, so that it knows them when it hears them. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

# A model of this family takes 223 pieces of words beforehand; a piece of a trade word has three letters or so.
MOST_LETTERS = 650


def hot_words(preferred: Sequence[str], others: Iterable[str] = (), near: str = "") -> str:
    """As many words as a model takes: those that stand in a text near at hand first, then the preferred, then others.

    Of equal standing, the shorter come first, so that more of them find room.
    """
    folded = near.casefold()
    ranked = sorted(
        [(word.casefold() not in folded, 0, len(word), word) for word in preferred]
        + [(word.casefold() not in folded, 1, len(word), word) for word in others]
    )
    told: dict[str, str] = {}
    room = MOST_LETTERS
    for *_rank, word in ranked:
        if word.casefold() not in told and len(word) + 2 <= room:
            told[word.casefold()] = word
            room -= len(word) + 2
    return ", ".join(told.values())
