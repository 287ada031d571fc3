"""What a line may speak of: the thesaurus's words and the names that are known, spotted in its text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive.terms.spotting import Vocabulary

# A name of one short word is said too often to mean the thing.
_SHORTEST = 3


@dataclass(frozen=True)
class Known:
    """A record that a line may speak of: its kind, reference, the name to show, and the words it goes by."""

    kind: str
    ref: str
    name: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Suggestion:
    """A record that the text seems to speak of, and the words that say so."""

    known: Known
    said: str


def suggestions(text: str, known: Sequence[Known], tied: Iterable[tuple[str, str]] = ()) -> list[Suggestion]:
    """What the text seems to speak of and is not tied to yet, in the order it is said.

    Each kind is spotted for itself: "drop stamp" may be the word of the thesaurus and the object too.
    """
    there = set(tied)
    found: list[tuple[int, Suggestion]] = []
    for kind in dict.fromkeys(each.kind for each in known):
        places = [at for at, each in enumerate(known) if each.kind == kind]
        words = [(word, at) for at in places for word in known[at].words if len(word) >= _SHORTEST]
        for spot in Vocabulary(words).spots(text):
            each = known[spot.key]
            if (each.kind, each.ref) not in there:
                found.append((spot.start, Suggestion(each, text[spot.start : spot.end])))
    return [suggestion for _start, suggestion in sorted(found, key=lambda pair: pair[0])]
