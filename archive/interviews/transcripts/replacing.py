"""Find and replace in a transcript, shown before it is done. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from archive.errors import Fault, Unacceptable
from archive.interviews.transcripts.comparing import Piece
from archive.interviews.transcripts.marks import in_convention

LONGEST = 200


@dataclass(frozen=True)
class Asked:
    """What to find and what to put in its place; the words as they are, no patterns."""

    find: str
    put: str
    case: bool = False
    whole_words: bool = True


@dataclass(frozen=True)
class Replacement:
    """One line that would change: its place, its text then, and where the two differ."""

    at: int
    text: str
    pieces: tuple[Piece, ...]


def replacements(texts: Sequence[str], asked: Asked) -> list[Replacement]:
    """Every line that would change, in order. A replaced word that began with a capital keeps it."""
    if not asked.find.strip() or max(len(asked.find), len(asked.put)) > LONGEST:
        allowed = f"Give something to find, of {LONGEST} letters at most"
        raise Unacceptable([Fault("find", 0, "there is nothing to find, or too much", allowed)], "Find and replace")
    pattern = _pattern(asked)
    return _each(texts, lambda text: _replaced(text, pattern, asked))


def marks_brought_in(texts: Sequence[str]) -> list[Replacement]:
    """Every line whose marks for unclear and inaudible are not in the one convention, with them brought into it."""
    return _each(texts, in_convention)


def _each(texts: Sequence[str], change: Callable[[str], tuple[Piece, ...]]) -> list[Replacement]:
    found = []
    for at, text in enumerate(texts):
        pieces = change(text)
        if any(piece.kind != "same" for piece in pieces):
            found.append(Replacement(at, "".join(p.text for p in pieces if p.kind != "gone"), pieces))
    return found


def _pattern(asked: Asked) -> re.Pattern[str]:
    """The words as they are; any white space stands for a space, either apostrophe for the other."""
    wanted = r"\s+".join(re.sub("['’]", "['’]", re.escape(word)) for word in asked.find.split())
    if asked.whole_words:
        wanted = rf"(?<!\w){wanted}(?!\w)"
    return re.compile(wanted, 0 if asked.case else re.IGNORECASE)


def _replaced(text: str, pattern: re.Pattern[str], asked: Asked) -> tuple[Piece, ...]:
    pieces, at = [], 0
    for match in pattern.finditer(text):
        put = asked.put if asked.case else _capital(match[0], asked.put)
        if put != match[0]:
            pieces += [Piece("same", text[at : match.start()]), Piece("gone", match[0]), Piece("added", put)]
            at = match.end()
    return tuple(piece for piece in (*pieces, Piece("same", text[at:])) if piece.text)


def _capital(found: str, put: str) -> str:
    return put[:1].upper() + put[1:] if found[:1].isupper() and put[:1].islower() else put
