"""The standing of a statement, worked out from its evidence. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Standing(StrEnum):
    """How well a statement is borne out, strongest first, then the two that warn."""

    DOCUMENTED = "documented"
    COMPUTED = "computed"
    RECALLED_BY_SEVERAL = "recalled by several"
    RECALLED_BY_ONE = "recalled by one"
    HANDED_DOWN = "handed down"
    CONTESTED = "contested"
    UNSUPPORTED = "unsupported"


@dataclass(frozen=True)
class Piece:
    """What the rule needs of one piece of evidence. Pieces of one source count once."""

    side: str
    kind: str
    source: str
    firsthand: bool


def standing(pieces: Iterable[Piece]) -> Standing:
    """The standing that follows from the evidence.

    Anything against makes it contested if anything is for, and unsupported if nothing is. Else the strongest kind
    for it counts: a document or an object, a reckoning, several independent memories, one, or hearsay.
    """
    kept = list(pieces)
    supporting = [piece for piece in kept if piece.side == "for"]
    if not supporting:
        return Standing.UNSUPPORTED
    if len(supporting) < len(kept):
        return Standing.CONTESTED
    kinds = {piece.kind for piece in supporting}
    if kinds & {"document", "object"}:
        return Standing.DOCUMENTED
    if "reckoning" in kinds:
        return Standing.COMPUTED
    return _recalled(supporting)


def _recalled(memories: list[Piece]) -> Standing:
    sources = {piece.source for piece in memories if piece.firsthand}
    if len(sources) > 1:
        return Standing.RECALLED_BY_SEVERAL
    return Standing.RECALLED_BY_ONE if sources else Standing.HANDED_DOWN
