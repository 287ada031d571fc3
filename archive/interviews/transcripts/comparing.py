"""What differs between two states of a transcript, line by line and word by word. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.matching import pair

_PIECE = re.compile(r"\s+|[^\W_]+(?:['’-][^\W_]+)*|.", re.DOTALL)


@dataclass(frozen=True)
class LineChange:
    """One line before and after; None where it was not there. Only lines that differ are told."""

    before: Line | None
    after: Line | None

    @property
    def kind(self) -> str:
        """Whether the line is new, gone, or changed."""
        if self.before is None:
            return "added"
        return "gone" if self.after is None else "changed"


@dataclass(frozen=True)
class Piece:
    """A stretch of text that both say, or only one of them does: "same", "gone", "added"."""

    kind: str
    text: str


def compare(before: Sequence[Line], after: Sequence[Line]) -> list[LineChange]:
    """The lines that differ, in the order of the newer state; what is gone stands where it stood."""
    pairs = pair(before, after)
    kept = {was for was in pairs if was is not None}
    changes: list[tuple[int, int, LineChange]] = [
        (line.start_ms, 0, LineChange(line, None)) for at, line in enumerate(before) if at not in kept
    ]
    for line, was in zip(after, pairs, strict=True):
        old = None if was is None else before[was]
        if old is None or old.bare != line.bare:
            changes.append((line.start_ms, 1, LineChange(old, line)))
    return [change for _start, _order, change in sorted(changes, key=lambda each: each[:2])]


def pieces(before: str, after: str) -> list[Piece]:
    """Two texts as one, word by word, with what is gone and what was added."""
    old, new = _PIECE.findall(before), _PIECE.findall(after)
    return list(_pieces(old, new, SequenceMatcher(None, old, new, autojunk=False)))


def _pieces(old: Sequence[str], new: Sequence[str], matcher: SequenceMatcher[str]) -> Iterator[Piece]:
    for kind, a1, a2, b1, b2 in matcher.get_opcodes():
        if kind == "equal":
            yield Piece("same", "".join(new[b1:b2]))
            continue
        if a1 < a2:
            yield Piece("gone", "".join(old[a1:a2]))
        if b1 < b2:
            yield Piece("added", "".join(new[b1:b2]))
