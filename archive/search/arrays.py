"""Sets of documents with scores, as sorted arrays; pure sums, no records and no files."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

Docs: TypeAlias = NDArray[np.int32]
Scores: TypeAlias = NDArray[np.float64]
Mask: TypeAlias = NDArray[np.bool_]


class Matches(NamedTuple):
    """Document numbers in rising order, and the score of each."""

    docs: Docs
    scores: Scores

    def times(self, boost: float) -> Matches:
        """The same documents with scores multiplied."""
        return self if boost == 1.0 else Matches(self.docs, self.scores * boost)

    def where(self, mask: Mask) -> Matches:
        """Those that the mask lets through."""
        kept = mask[self.docs]
        return Matches(self.docs[kept], self.scores[kept])


NOTHING = Matches(np.empty(0, np.int32), np.empty(0, np.float64))


def every(count: int) -> Matches:
    """All documents, each with score 1."""
    return Matches(np.arange(count, dtype=np.int32), np.ones(count))


def both(one: Matches, other: Matches) -> Matches:
    """Documents in both, scores added: the shorter is searched for in the longer."""
    short, long = (one, other) if len(one.docs) <= len(other.docs) else (other, one)
    if not len(short.docs):
        return NOTHING
    at = np.searchsorted(long.docs, short.docs)
    at[at == len(long.docs)] = 0
    kept = long.docs[at] == short.docs
    return Matches(short.docs[kept], short.scores[kept] + long.scores[at[kept]])


def without(one: Matches, other: Matches) -> Matches:
    """Documents of the first that are not in the second."""
    if not len(other.docs) or not len(one.docs):
        return one
    at = np.searchsorted(other.docs, one.docs)
    at[at == len(other.docs)] = 0
    kept = other.docs[at] != one.docs
    return Matches(one.docs[kept], one.scores[kept])


def any_of(parts: Sequence[Matches], count: int) -> Matches:
    """Documents in any of the parts, scores added."""
    held = [part for part in parts if len(part.docs)]
    if len(held) <= 1:
        return held[0] if held else NOTHING
    docs = np.concatenate([part.docs for part in held])
    scores = np.concatenate([part.scores for part in held])
    if len(docs) * 8 < count:
        unique, place = np.unique(docs, return_inverse=True)
        return Matches(unique, np.bincount(place, scores).astype(np.float64, copy=False))
    seen = np.zeros(count, np.bool_)
    seen[docs] = True
    found = np.flatnonzero(seen).astype(np.int32)
    return Matches(found, np.bincount(docs, scores, count)[found].astype(np.float64, copy=False))


def best(matches: Matches, limit: int) -> Matches:
    """The best scores, highest first; equal scores stand in the order of the documents, as Whoosh has them."""
    docs, scores = matches
    if limit < len(docs):
        least = np.partition(scores, len(scores) - limit)[len(scores) - limit]
        kept = np.flatnonzero(scores >= least)
        docs, scores = docs[kept], scores[kept]
    order = np.lexsort((docs, -scores))[:limit]
    return Matches(docs[order], scores[order])


def in_phrase(keys: Sequence[NDArray[np.int64]], slop: int = 1) -> NDArray[np.int64]:
    """The keys (document << 16 | place) of the last words of a phrase, given the sorted keys of each word.

    With slop 1 each word stands right after the one before it; with more, at most that many places after.
    """
    reached = keys[0]
    for following in keys[1:]:
        steps = [_shared(reached + step, following) for step in range(1, slop + 1)]
        reached = steps[0] if slop == 1 else np.unique(np.concatenate(steps))
    return reached


def _shared(one: NDArray[Any], other: NDArray[Any]) -> NDArray[Any]:
    """Values in both of two sorted arrays."""
    short, long = (one, other) if len(one) <= len(other) else (other, one)
    if not len(short):
        return short
    at = np.searchsorted(long, short)
    at[at == len(long)] = 0
    kept: NDArray[Any] = short[long[at] == short]
    return kept
