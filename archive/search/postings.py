"""One segment of the index as arrays: posting lists are decoded once and kept; nothing decoded ever changes.

It reads inside Whoosh's reader, so the version of Whoosh is pinned. Whoosh's files are not safe to read from two
threads at once: whoever decodes holds the lock.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Hashable
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from whoosh.codec.whoosh3 import LENGTHS_COLUMN
from whoosh.util.numeric import byte_to_length

from archive.search.arrays import Docs, Scores

_LENGTHS = np.array([byte_to_length(code) for code in range(256)], np.float64)


class Posting(NamedTuple):
    """The documents of one term, the weight of the term in each, and its places (document << 16 | place), if kept."""

    docs: Docs
    weights: Scores
    places: NDArray[np.int64] | None


EMPTY = Posting(np.empty(0, np.int32), np.empty(0, np.float64), np.empty(0, np.int64))


class Kept:
    """The most recently used tuples of arrays, up to a number of bytes."""

    def __init__(self, limit: int) -> None:
        self.limit = limit
        self.lock = threading.RLock()
        self._held: OrderedDict[Hashable, Any] = OrderedDict()
        self._size = 0

    def get(self, key: Hashable) -> Any:
        """What is kept under the key, which is thereby the most recently used; None if it is not there."""
        with self.lock:
            held = self._held.get(key)
            if held is not None:
                self._held.move_to_end(key)
            return held

    def put(self, key: Hashable, arrays: Any) -> Any:
        """Keep a tuple of arrays, and let go of the least recently used."""
        with self.lock:
            if key not in self._held:
                self._held[key] = arrays
                self._size += _size(arrays)
            while self._size > self.limit and len(self._held) > 1:
                _, gone = self._held.popitem(last=False)
                self._size -= _size(gone)
        return arrays


def _size(arrays: Any) -> int:
    """How many bytes a tuple of arrays takes, with what it costs to keep it at all."""
    return 400 + sum(int(part.nbytes) for part in arrays if part is not None)


class SegmentArrays:
    """What has been decoded of one segment. The reader is passed in, since a newer commit opens a new one."""

    def __init__(self, reader: Any, kept: Kept) -> None:
        self.name: str = reader.segment().segment_id()
        self.count: int = reader.doc_count_all()
        self._kept = kept
        self._lengths: dict[str, Scores] = {}
        self._words: dict[str, list[str]] = {}
        with kept.lock:
            self.ids = _column(reader, "id", ">u4", self.count).astype(np.int64)
            self.codes = {"access": self._coded(reader, "access")}

    def posting(self, reader: Any, field: str, text: str) -> Posting:
        """The decoded posting list of a term; an empty one where the segment has no such term."""
        key = (self.name, field, text)
        posting: Posting | None = self._kept.get(key)
        if posting is None:
            with self._kept.lock:
                posting = self._kept.put(key, _decoded(reader, field, text))
        return posting

    def lengths(self, reader: Any, field: str) -> Scores:
        """The length of a field in each document, as coarse as Whoosh keeps it."""
        if field not in self._lengths:
            with self._kept.lock:
                self._lengths[field] = _LENGTHS[_column(reader, f"_{field}_len", "u1", self.count)]
        return self._lengths[field]

    def words(self, reader: Any, field: str) -> list[str]:
        """All terms of a field in order."""
        if field not in self._words:
            with self._kept.lock:
                self._words[field] = [text.decode() for text in reader.lexicon(field)]
        return self._words[field]

    def codes_of(self, reader: Any, field: str) -> Codes:
        """The values of a field of references as whole numbers, with the documents that have them."""
        if field not in self.codes:
            with self._kept.lock:
                self.codes[field] = self._coded(reader, field)
        return self.codes[field]

    def _coded(self, reader: Any, field: str) -> Codes:
        names = [text.decode() for text in reader.lexicon(field)]
        docs = [_decoded(reader, field, name).docs for name in names]
        if not docs:
            return Codes([], np.empty(0, np.int32), np.empty(0, np.int32))
        codes = np.repeat(np.arange(len(docs), dtype=np.int32), [len(part) for part in docs])
        return Codes(names, np.concatenate(docs), codes)


class Codes(NamedTuple):
    """The distinct values of a field, and pairs of document and number of value."""

    names: list[str]
    docs: Docs
    codes: NDArray[np.int32]


def _decoded(reader: Any, field: str, text: str) -> Posting:
    """Read one posting list block by block, as Whoosh's matcher would posting by posting."""
    if (field, text) not in reader:
        return EMPTY
    # Not reader.postings(): that leaves out deleted documents, one by one; ours are left out at the end, all at once.
    matcher = reader._terms.matcher(field, text.encode(), reader.schema[field].format)
    docs: list[NDArray[Any]] = []
    weights: list[NDArray[Any]] = []
    values: list[bytes] = []
    while not matcher._atend:
        matcher._read_data()
        ids, held, block = matcher._data
        docs.append(np.cumsum(np.array(ids, np.int32)))
        weights.append(np.full(len(ids), 1.0 if held is None else held))
        values.extend(block or ())
        matcher._next_block()
    all_docs = np.concatenate(docs).astype(np.int32)
    return Posting(all_docs, np.concatenate(weights), _places(all_docs, values) if values else None)


def _places(docs: Docs, values: list[bytes]) -> NDArray[np.int64]:
    """The keys of all places of a term, sorted by document and place."""
    counts = np.fromiter((len(value) for value in values), np.int64, len(values)) >> 1
    return (np.repeat(docs.astype(np.int64), counts) << 16) | np.frombuffer(b"".join(values), np.uint16)


def _column(reader: Any, name: str, form: str, count: int) -> NDArray[Any]:
    """A column of numbers at once; documents without a value have 0."""
    perdoc, column = reader._perdoc, LENGTHS_COLUMN if form == "u1" else reader.schema[name].column_type
    whole = np.zeros(count, form)
    if perdoc.has_column(name):
        values = perdoc.column_reader(name, column)
        read = np.frombuffer(values._dbfile.get(values._basepos, values._count * values._fixedlen), form)
        whole[: len(read)] = read
    return whole
