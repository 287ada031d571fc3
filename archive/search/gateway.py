"""The index as the rest of Lemel knows it: put, remove, ask, suggest, rebuild. Whoosh could be replaced behind it."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np
from whoosh.index import FileIndex

from archive.errors import NotReady
from archive.search import indexing_queries as queries
from archive.search.arrays import Mask, Matches, best
from archive.search.document import Document
from archive.search.documents import documents
from archive.search.executor import matches
from archive.search.folder import IndexFolder, SyncedStorage, write_synced
from archive.search.parsing import Wanted, understood
from archive.search.postings import Kept, SegmentArrays
from archive.search.schema import FACETS, FORMAT, make_codec, make_schema
from archive.search.snapshot import Snapshot
from archive.search.suggesting import completions, did_you_mean
from archive.store.session import Store

_POSTINGS_KEPT = 96 << 20
_WRITER_MB = 256
_TRIES = 5

Gone: TypeAlias = tuple[str, str]
"""A field and a value: every document that has it is taken out."""


@dataclass(frozen=True)
class Hit:
    """A record that was found, by kind and key. The score ranks; it is not for showing."""

    kind: str
    id: int
    score: float


@dataclass(frozen=True)
class Found:
    """The answer to a question, all of it worked out from what the asker may know of."""

    total: int
    hits: Sequence[Hit]
    facets: Mapping[str, Mapping[str, int]]
    did_you_mean: str
    took_ms: float
    wanted: Wanted


class SearchIndex:
    """The search index of one home. Safe to share between threads; notices what other processes commit."""

    def __init__(self, folder: Path) -> None:
        self._place = IndexFolder(folder)
        self._kept = Kept(_POSTINGS_KEPT)
        self._lock = threading.Lock()
        self._snapshot: Snapshot | None = None
        self._opened: tuple[Any, ...] = ()
        self._known: dict[str, SegmentArrays] = {}
        self._index: Any = None

    # -- Asking

    def ask(
        self,
        text: str,
        access: frozenset[str],
        filters: Mapping[str, Iterable[str]] | None = None,
        *,
        limit: int = 20,
        offset: int = 0,
        facets: Iterable[str] = (),
        closed: frozenset[int] = frozenset(),
    ) -> Found:
        """The best hits for a reader's words among the documents that the access keys open.

        `closed` are segments that were closed while, or since, the index was written.
        """
        began = time.perf_counter()
        with self._present() as snapshot:
            seen = snapshot.seen_with(access, closed)
            wanted = understood(snapshot, text)
            if wanted.empty and not filters:
                return Found(0, (), {}, "", _ms_since(began), wanted)
            allowed = self._filtered(snapshot, seen.mask, filters or {})
            found = matches(seen, wanted.query).where(allowed)
            top = best(found, offset + limit)
            return Found(
                total=len(found.docs),
                hits=_hits(snapshot, Matches(top.docs[offset:], top.scores[offset:])),
                facets=_facets(snapshot, found, facets),
                did_you_mean="" if len(found.docs) else did_you_mean(snapshot, text, seen),
                took_ms=_ms_since(began),
                wanted=wanted,
            )

    def suggest(
        self, text: str, access: frozenset[str], limit: int = 8, *, closed: frozenset[int] = frozenset()
    ) -> list[str]:
        """Ways to finish the last word, the commonest first, from what the access keys open."""
        with self._present() as snapshot:
            return completions(snapshot, text, snapshot.seen_with(access, closed), limit)

    @staticmethod
    def _filtered(snapshot: Snapshot, mask: Mask, filters: Mapping[str, Iterable[str]]) -> Mask:
        for field, values in filters.items():
            if field in FACETS:
                mask = mask & snapshot.filtered(field, values)
        return mask

    # -- Keeping

    def put(self, documents: Iterable[Document], *, gone: Iterable[Gone] = (), stamp: Callable[[], str]) -> None:
        """Add or replace documents and take out what is gone, in one commit.

        `documents` and `stamp` are read once the right to write is had, so that the last to write knows the latest.
        """
        with self._place.writing():
            place = self._in_use()
            told = stamp()
            new, old = list(documents), set(gone)
            if new or old:
                _write(place, new, old)
            _put_stamp(place, told)

    def remove(self, gone: Iterable[Gone], *, stamp: Callable[[], str]) -> None:
        """Take documents out, in one commit."""
        self.put((), gone=gone, stamp=stamp)

    def rebuild(self, store: Store) -> int:
        """Make the index anew from all records, beside the one in use, then swap; gives the number of documents."""
        with store.session() as session:
            return self.rebuild_from(documents(session), stamp=lambda: queries.stamp(session))

    def rebuild_from(self, documents: Iterable[Document], *, stamp: Callable[[], str]) -> int:
        """The same from documents that are already made up."""
        with self._place.writing():
            told = stamp()
            place = self._place.fresh()
            FileIndex.create(SyncedStorage(place), make_schema())
            count = _write(place, documents)
            _put_stamp(place, told)
            self._place.use(place)
        return count

    @property
    def stamp(self) -> str | None:
        """What the index was last told of the state of the records; None where there is no index that can be read."""
        place = self._place.present()
        if place is None:
            return None
        try:
            held = json.loads((place / "stamp").read_text("utf-8"))
        except FileNotFoundError:
            return None
        return str(held["stamp"]) if held["format"] == FORMAT else None

    def close(self) -> None:
        """Let go of the files."""
        with self._lock:
            if self._snapshot is not None:
                self._snapshot.retire()
            self._snapshot, self._opened, self._index = None, (), None

    def __del__(self) -> None:
        self.close()

    # -- Opening

    def _in_use(self) -> Path:
        place = self._place.present()
        if place is None or self.stamp is None:
            raise NotReady(f"There is no search index in {self._place.folder}. Run lemel reindex to make it.")
        return place

    @contextmanager
    def _present(self) -> Iterator[Snapshot]:
        """The newest snapshot; it stays open until the question is answered, whatever is committed meanwhile."""
        with self._lock:
            snapshot = self._newest()
            snapshot.enter()
        try:
            yield snapshot
        finally:
            snapshot.leave()

    def _newest(self, tries: int = _TRIES) -> Snapshot:
        """Opened anew only when something was committed or swapped."""
        try:
            return self._up_to_date()
        except FileNotFoundError:
            # The sub-folder was swapped between reading its name and opening it.
            if tries == 1:
                raise
            return self._newest(tries - 1)

    def _up_to_date(self) -> Snapshot:
        mark = self._place.mark()
        if self._index is None or self._opened[:1] != (mark,):
            self._index = FileIndex(SyncedStorage(self._in_use()), schema=make_schema())
        state = (mark, self._index.latest_generation())
        if self._snapshot is None or self._opened != state:
            older, self._snapshot = self._snapshot, Snapshot(self._index.reader(), self._known, self._kept)
            self._opened = state
            self._known = {leaf.arrays.name: leaf.arrays for leaf in self._snapshot.leaves}
            if older is not None:
                older.retire()
        return self._snapshot


def _write(place: Path, documents: Iterable[Document], gone: Iterable[Gone] = ()) -> int:
    """Delete and add in one commit; on any failure the index stays as it was and the lock is let go."""
    index = FileIndex(SyncedStorage(place), schema=make_schema())
    replacing = not index.is_empty()
    old = set(gone)
    count = 0
    writer = index.writer(codec=make_codec(), limitmb=_WRITER_MB)
    try:
        for document in documents:
            writer.add_document(**document.fields())
            count += 1
            if old.isdisjoint(("interview", ref) for ref in document.refs.get("interview", ())):
                old.add(("key", document.key))
        for field, value in sorted(old) if replacing else ():
            writer.delete_by_term(field, value)
        writer.commit()
    except BaseException:
        _abandon(writer)
        raise
    return count


def _abandon(writer: Any) -> None:
    """Close what a failed commit has open. Whoosh would keep its own lock, even when it can be cancelled no more."""
    try:
        if not writer.is_closed:
            writer.cancel()
    finally:
        if writer.writelock.fd is not None:
            writer.writelock.release()


def _put_stamp(place: Path, stamp: str) -> None:
    write_synced(place / "stamp", json.dumps({"format": FORMAT, "stamp": stamp}))


def _hits(snapshot: Snapshot, top: Matches) -> list[Hit]:
    docs, scores = top.docs.tolist(), top.scores.tolist()
    ids = snapshot.ids[top.docs].tolist()
    return [Hit(snapshot.kinds[doc], key, score) for doc, key, score in zip(docs, ids, scores, strict=True)]


def _facets(snapshot: Snapshot, found: Matches, fields: Iterable[str]) -> dict[str, dict[str, int]]:
    mask = np.zeros(snapshot.count, np.bool_)
    mask[found.docs] = True
    return {field: snapshot.counts(field, mask) for field in fields}


def _ms_since(began: float) -> float:
    return (time.perf_counter() - began) * 1000
