"""The whole index as it stood after one commit: its segments laid end to end, its statistics, its masks."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Hashable, Iterable
from functools import cached_property
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from archive.search.arrays import NOTHING, Mask, Matches, Scores
from archive.search.postings import Kept, Posting, SegmentArrays
from archive.search.seen import Seen
from archive.search.vocabulary import Vocabulary
from archive.search.words import stems_of

_MASKS_KEPT = 256
_SEEN_KEPT = 64
_SCORES_KEPT = 48 << 20


class Leaf(NamedTuple):
    """One segment in its place: its reader, its arrays, the number of its first document."""

    reader: Any
    arrays: SegmentArrays
    base: int


class Snapshot:
    """A reader and what is worked out from it. Documents are numbered as Whoosh numbers them.

    `entered` counts the questions that still read it; a retired one is closed by the last to leave.
    """

    def __init__(self, reader: Any, known: dict[str, SegmentArrays], kept: Kept) -> None:
        self._reader, self._kept = reader, kept
        with kept.lock:
            self.leaves = [
                Leaf(part, known.get(part.segment().segment_id()) or SegmentArrays(part, kept), base)
                for part, base in reader.leaf_readers()
                if part.doc_count_all()
            ]
        self.count = sum(leaf.arrays.count for leaf in self.leaves)
        self.alive = self._alive()
        self._scored = Kept(_SCORES_KEPT)
        self._seen: OrderedDict[Hashable, Seen] = OrderedDict()
        self._vocabularies: dict[str, Vocabulary] = {}
        self._masks: OrderedDict[Hashable, Mask] = OrderedDict()
        self._lock = threading.Lock()
        self._entered, self._retired, self._closed = 0, False, False

    # -- Its life

    def enter(self) -> None:
        """Keep the files open while a question is answered."""
        with self._lock:
            self._entered += 1

    def leave(self) -> None:
        """The question is answered."""
        self._let_go(left=1, retired=False)

    def retire(self) -> None:
        """Close the files as soon as nobody reads them."""
        self._let_go(left=0, retired=True)

    def _let_go(self, *, left: int, retired: bool) -> None:
        with self._lock:
            self._entered -= left
            self._retired = self._retired or retired
            close = self._retired and not self._entered and not self._closed
            self._closed = self._closed or close
        if close:
            with self._kept.lock:
                self._reader.close()

    # -- Terms

    def posting(self, field: str, text: str) -> list[tuple[Leaf, Posting]]:
        """The posting lists of a term in the segments that have it."""
        found = ((leaf, leaf.arrays.posting(leaf.reader, field, text)) for leaf in self.leaves)
        return [(leaf, posting) for leaf, posting in found if len(posting.docs)]

    def weighed(self, field: str, text: str) -> Matches:
        """The documents of a term with its weight in each, closed and deleted ones among them."""
        parts = self.posting(field, text)
        if not parts:
            return NOTHING
        docs = joined([posting.docs + np.int32(leaf.base) for leaf, posting in parts])
        return Matches(docs, joined([posting.weights for _, posting in parts]))

    def scorable(self, field: str) -> bool:
        """Whether a field has lengths, so that its words can be scored."""
        return bool(self._reader.schema[field].scorable)

    def lengths(self, field: str) -> Scores:
        """The length of a field in each document, as coarse as Whoosh keeps it."""
        return joined([leaf.arrays.lengths(leaf.reader, field) for leaf in self.leaves])

    def places(self, field: str, text: str) -> NDArray[np.int64]:
        """The keys (document << 16 | place) of a term in all segments."""
        parts = [
            posting.places + (np.int64(leaf.base) << 16)
            for leaf, posting in self.posting(field, text)
            if posting.places is not None
        ]
        return joined(parts) if parts else np.empty(0, np.int64)

    # -- Words

    def vocabulary(self, field: str) -> Vocabulary:
        """All terms of a field."""
        if field not in self._vocabularies:
            held = [leaf.arrays.words(leaf.reader, field) for leaf in self.leaves]
            self._vocabularies[field] = Vocabulary(word for words in held for word in words)
        return self._vocabularies[field]

    def stored(self, field: str) -> list[Any]:
        """What is stored in a field by the documents that are alive."""
        with self._kept.lock:
            kept = [
                leaf.reader.stored_fields(int(doc)).get(field)
                for leaf in self.leaves
                for doc in np.flatnonzero(self._within(leaf, self.alive) & self._within(leaf, self._storing))
            ]
        return [value for value in kept if value is not None]

    @property
    def _storing(self) -> Mask:
        return self.having("kind", ["term"])

    # -- Masks and counts

    def seen_with(self, access: frozenset[str], closed: frozenset[int] = frozenset()) -> Seen:
        """The documents that a viewer with these keys may know of, without the segments closed since they were put."""
        name = ("access", access, closed)
        mask = self._mask(name, lambda: self._open_to(access, closed))
        with self._lock:
            if name not in self._seen:
                self._seen[name] = Seen(self, mask, name, self._scored)
                while len(self._seen) > _SEEN_KEPT:
                    self._seen.popitem(last=False)
            return self._seen[name]

    def _open_to(self, access: frozenset[str], closed: frozenset[int]) -> Mask:
        mask = self.having("access", access) & self.alive
        if closed:
            mask &= ~(np.isin(self.ids, list(closed)) & self.having("kind", ["segment"]))
        return mask

    def filtered(self, field: str, values: Iterable[str]) -> Mask:
        """The documents that have any of the values in a field of references; capitals do not matter."""
        wanted = frozenset(value.casefold() for value in values)
        return self._mask((field, wanted), lambda: self.having(field, self._as_written(field, wanted)))

    def having(self, field: str, values: Iterable[str]) -> Mask:
        """The documents that have any of exactly these values."""
        wanted = values if isinstance(values, frozenset) else frozenset(values)
        mask = np.zeros(self.count, np.bool_)
        for leaf in self.leaves:
            names, docs, codes = leaf.arrays.codes_of(leaf.reader, field)
            chosen = np.fromiter((name in wanted for name in names), np.bool_, len(names))
            mask[docs[chosen[codes]] + leaf.base] = True
        return mask

    def values(self, field: str) -> set[str]:
        """The values that any document has in a field of references, as they are written."""
        return {name for leaf in self.leaves for name in leaf.arrays.codes_of(leaf.reader, field).names}

    def counts(self, field: str, mask: Mask) -> dict[str, int]:
        """How many of the masked documents have each value of a field of references."""
        found: dict[str, int] = {}
        for leaf in self.leaves:
            names, docs, codes = leaf.arrays.codes_of(leaf.reader, field)
            held = np.bincount(codes[self._within(leaf, mask)[docs]], minlength=len(names))
            for code in np.flatnonzero(held):
                found[names[code]] = found.get(names[code], 0) + int(held[code])
        return found

    @cached_property
    def ids(self) -> NDArray[np.int64]:
        """The key of the record of each document."""
        return joined([leaf.arrays.ids for leaf in self.leaves]) if self.leaves else np.empty(0, np.int64)

    @cached_property
    def kinds(self) -> list[str]:
        """The kind of the record of each document."""
        kinds = [""] * self.count
        for leaf in self.leaves:
            names, docs, codes = leaf.arrays.codes_of(leaf.reader, "kind")
            for doc, code in zip(docs.tolist(), codes.tolist(), strict=True):
                kinds[doc + leaf.base] = names[code]
        return kinds

    @cached_property
    def thesaurus(self) -> dict[tuple[str, ...], list[tuple[str, ...]]]:
        """The stems of each way to say a term, with the stems of the other ways."""
        others: dict[tuple[str, ...], list[tuple[str, ...]]] = {}
        for ways in self.stored("term_words"):
            stems = list(dict.fromkeys(tuple(stems_of(way)) for way in ways))
            for way in filter(None, stems):
                held = others.setdefault(way, [])
                held.extend(other for other in stems if other and other != way and other not in held)
        return others

    def _mask(self, key: Hashable, make: Any) -> Mask:
        with self._lock:
            if key in self._masks:
                self._masks.move_to_end(key)
                return self._masks[key]
        mask: Mask = make()
        with self._lock:
            self._masks[key] = mask
            while len(self._masks) > _MASKS_KEPT:
                self._masks.popitem(last=False)
        return mask

    def _as_written(self, field: str, wanted: frozenset[str]) -> frozenset[str]:
        return frozenset(name for name in self.values(field) if name.casefold() in wanted)

    @staticmethod
    def _within(leaf: Leaf, mask: Mask) -> Mask:
        return mask[leaf.base : leaf.base + leaf.arrays.count]

    def _alive(self) -> Mask:
        alive = np.ones(self.count, np.bool_)
        for leaf in self.leaves:
            gone = list(leaf.reader.segment().deleted_docs())
            alive[np.array(gone, np.int64) + leaf.base] = False
        return alive


def joined(parts: list[NDArray[Any]]) -> NDArray[Any]:
    """Arrays laid end to end; a single one is not copied."""
    return parts[0] if len(parts) == 1 else np.concatenate(parts)
