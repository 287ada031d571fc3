"""What one kind of viewer sees of an index: scores are counted as though nothing else were in it.

How rare a word is and how long texts are on the whole is counted among the open documents alone, so that not even the
order of two hits tells of what is closed.
"""

from __future__ import annotations

import threading
from collections.abc import Hashable
from math import log
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from archive.search.arrays import NOTHING, Mask, Matches, Scores, any_of
from archive.search.postings import Kept

if TYPE_CHECKING:
    from archive.search.snapshot import Snapshot

K1, B = 1.2, 0.75
"""Whoosh's own settings of BM25F."""


class Seen:
    """The open documents of a snapshot. They keep the snapshot's numbers."""

    def __init__(self, snapshot: Snapshot, mask: Mask, name: Hashable, kept: Kept) -> None:
        self.mask = mask
        self.width = snapshot.count
        self._snapshot, self._name, self._kept = snapshot, name, kept
        self._open = int(np.count_nonzero(mask))
        self._norms: dict[str, Scores] = {}
        self._lock = threading.Lock()

    def scored(self, field: str, text: str) -> Matches:
        """The documents of a term, scored by Whoosh's BM25F where the field has lengths, else by weight."""
        found: Matches | None = self._kept.get((self._name, field, text))
        if found is None:
            found = self._kept.put((self._name, field, text), self._score(field, text))
        return found

    def scored_beginning(self, field: str, start: str) -> Matches:
        """The documents of all terms that begin so, scored as any of them."""
        found: Matches | None = self._kept.get((self._name, field, start, "*"))
        if found is None:
            words = self._snapshot.vocabulary(field).beginning(start)
            parts = any_of([self._score(field, word) for word in words], self.width)
            found = self._kept.put((self._name, field, start, "*"), parts)
        return found

    def places(self, field: str, text: str) -> NDArray[np.int64]:
        """The keys (document << 16 | place) of a term, closed documents not yet left out."""
        return self._snapshot.places(field, text)

    def _score(self, field: str, text: str) -> Matches:
        held = self._snapshot.weighed(field, text).where(self.mask)
        if not len(held.docs):
            return NOTHING
        if not self._snapshot.scorable(field):
            return held
        docs, tf = held
        # The order of the sums is Whoosh's, so that the last bit agrees.
        idf = log(self._open / (len(docs) + 1)) + 1
        return Matches(docs, idf * ((tf * (K1 + 1)) / (tf + self._length_norms(field)[docs])))

    def _length_norms(self, field: str) -> Scores:
        """What BM25 makes of the length of a field in each document."""
        with self._lock:
            if field not in self._norms:
                lengths = self._snapshot.lengths(field)
                mean = float(lengths[self.mask].sum()) / (self._open or 1) or 1.0
                self._norms[field] = K1 * ((1 - B) + B * lengths / mean)
            return self._norms[field]
