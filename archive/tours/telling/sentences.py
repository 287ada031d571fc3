"""A script as sentences, its length in words, and the minutes that they take. Pure."""

from __future__ import annotations

import re

LEAST_MINUTES = 0.1
_ABBREVIATED = re.compile(r"\b(?:No|Nos|Mr|Mrs|Ms|Dr|St|Messrs|e\.g|i\.e|approx|Fig)\.$")
_END = re.compile(r"[.!?…]+[\"”’')\]]*(?=\s)|\n\s*\n")


def sentences(script: str) -> tuple[str, ...]:
    """The sentences of a script in order, each on one line; "No. 3" and "Mr. Dunmore" end none."""
    found, start = [], 0
    for end in _END.finditer(script):
        if not _ABBREVIATED.search(script[start : end.end()]):
            found.append(script[start : end.end()])
            start = end.end()
    found.append(script[start:])
    return tuple(tidy for tidy in (" ".join(part.split()) for part in found) if tidy)


def word_count(script: str) -> int:
    """How many words are spoken: what stands between spaces. The page counts in the same way as one types."""
    return len(script.split())


def spoken_minutes(script: str, words_per_minute: float) -> float:
    """The minutes that a script takes at the collection's pace, to one decimal; 0 where nothing is said."""
    words = word_count(script)
    tenths = int(words / words_per_minute * 10 + 0.5)
    return max(LEAST_MINUTES, tenths / 10) if words else 0.0


def lasting_minutes(milliseconds: int) -> float:
    """The minutes of a clip, to one decimal and never none."""
    return max(LEAST_MINUTES, int(milliseconds / 6000 + 0.5) / 10)
