"""Which statement each sentence of a script rests on, by the words they share. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from archive.tours.telling.figures import agree, figures_in

# One shared word may be chance; two that make a fair share of the statement are not.
LEAST_WORDS = 2
LEAST_SHARE = 0.28
# A figure that both have is worth this many words.
FIGURE_WORTH = 2

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?")
_EVERYDAY_WORDS = """
    a about after again all also always an and any are as at back be because been before being both but by came
    can come could day did do does done down each ever every first for from get go goes gone got had hand hands
    has have he her here him his how i if in into is it its just knew know last like long made make man many may
    men more most much must my never no nobody not nothing now of off on once one only or other our out over own
    people put said same say says see she should so some still such take than that the their them then there these
    they thing things this those through time to today told too took two up us use used very was way we well went
    were what when where which while who whose why will with woman women work worked works would year years you
    your
"""
_EVERYDAY = frozenset(_EVERYDAY_WORDS.split())


def resting_on(sentence: str, statements: Sequence[str]) -> tuple[int, ...]:
    """The places of the statements that a sentence tells, the nearest first."""
    mine = content_words(sentence)
    scored = [(_likeness(sentence, mine, text), -place) for place, text in enumerate(statements)]
    near = sorted((score for score in scored if score[0] > 0), reverse=True)
    # What shares far less than the best is only in the same trade.
    return tuple(-place for likeness, place in near if likeness >= 0.6 * near[0][0])


def _likeness(sentence: str, mine: frozenset[str], statement: str) -> float:
    theirs = content_words(statement)
    shared = len(mine & theirs)
    known = figures_in(statement)
    both = sum(any(agree(figure, other) for other in known) for figure in figures_in(sentence))
    score = shared + FIGURE_WORTH * both
    share = score / (len(theirs) + FIGURE_WORTH * len(known) or 1)
    enough = score >= LEAST_WORDS and shared and share >= LEAST_SHARE
    return share if enough else 0.0


@lru_cache(maxsize=4096)
def content_words(text: str) -> frozenset[str]:
    """The words that carry the meaning, without their endings."""
    plain = text.lower().replace("’", "'")
    return frozenset(_stem(word.removesuffix("'s")) for word in _WORD.findall(plain) if word not in _EVERYDAY)


def _stem(word: str) -> str:
    """A word without the common endings, cut alike wherever it stands; nobody reads it."""
    for ending, rest in (
        ("ies", "y"),
        ("sses", "ss"),
        ("ing", ""),
        ("ers", ""),
        ("er", ""),
        ("ed", ""),
        ("es", ""),
        ("s", ""),
    ):
        if word.endswith(ending) and len(word) - len(ending) >= 3 and not word.endswith("ss"):
            return _doubled((word.removesuffix(ending) + rest).removesuffix("e"))
    return _doubled(word.removesuffix("e") if len(word) > 4 else word)


def _doubled(word: str) -> str:
    return word[:-1] if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "ls" else word
