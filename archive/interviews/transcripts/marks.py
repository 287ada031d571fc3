"""The one convention for what cannot be heard well: `[unclear: these words]` and `[inaudible]`. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archive.interviews.transcripts.comparing import Piece

INAUDIBLE = "[inaudible]"
_UNCLEAR = re.compile(r"\[unclear: (?P<words>[^\[\]]+)\]")
_MARK = re.compile(rf"{re.escape(INAUDIBLE)}|{_UNCLEAR.pattern}")
# What typists write for the same: in round or square brackets, in any case, with question marks or dots.
_OTHER = re.compile(
    r"[\[(]\s*(?:"
    r"(?P<unclear>unclear|unsure|uncertain|sounds like|phonetic)\s*[:,-]?\s*(?P<words>[^\[\]()]*?)\s*\??"
    r"|(?P<inaudible>inaudible|indistinct|unintelligible|not heard|cannot hear|\?{1,5}|\.{3}\?)\s*(?:\d[\d:.]*)?"
    r")\s*[\])]",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Mark:
    """A mark in a text: where it stands, and the words that are unclear, "" for what is inaudible."""

    start: int
    end: int
    words: str


def unclear(text: str, start: int, end: int) -> str:
    """The text with a stretch marked unclear; a stretch that is marked already loses its mark."""
    start, end = sorted((start, end))
    for mark in marks_in(text):
        if mark.words and mark.start <= start and end <= mark.end:
            return text[: mark.start] + mark.words + text[mark.end :]
    words = text[start:end].strip().replace("[", "").replace("]", "")
    if not words:
        return text
    lead = len(text[start:end]) - len(text[start:end].lstrip())
    tail = len(text[start:end]) - len(text[start:end].rstrip())
    return f"{text[: start + lead]}[unclear: {words}]{text[end - tail :]}"


def inaudible(text: str, at: int) -> str:
    """The text with a mark for what nobody can hear, set off by spaces."""
    before, after = text[:at].rstrip(), text[at:].lstrip()
    return " ".join(part for part in (before, INAUDIBLE, after) if part)


def marks_in(text: str) -> Iterator[Mark]:
    """The marks of a text in order."""
    for match in _MARK.finditer(text):
        yield Mark(match.start(), match.end(), match["words"] or "")


def without_marks(text: str) -> str:
    """The words alone: what is unclear stands bare, what is inaudible is left out."""
    bare = _MARK.sub(lambda match: match["words"] or "", text)
    return " ".join(bare.split())


def in_convention(text: str) -> tuple[Piece, ...]:
    """The text with what typists write for the same brought into the convention, as pieces that differ or not."""
    pieces, at = [], 0
    for match in _OTHER.finditer(text):
        words = (match["words"] or "").strip()
        put = f"[unclear: {words}]" if words else INAUDIBLE
        if put != match[0]:
            pieces += [Piece("same", text[at : match.start()]), Piece("gone", match[0]), Piece("added", put)]
            at = match.end()
    return tuple(piece for piece in (*pieces, Piece("same", text[at:])) if piece.text)
