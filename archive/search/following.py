"""Follows the records: after each commit, what was touched is indexed anew."""

from __future__ import annotations

import logging
from collections import defaultdict
from collections.abc import Collection, Iterator
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import LemelError
from archive.search import indexing_queries as queries
from archive.search import touched_queries
from archive.search.document import KINDS, Document, key_of
from archive.search.documents import Only, documents
from archive.search.gateway import Gone, SearchIndex
from archive.store.history import WHOLE_LOAD
from archive.store.session import Store
from archive.store.touched import Touched

# Rows that belong to a record which is a document, by the column that leads to it.
_PARTS = {
    "object_process": ("object_id", "object"),
    "picture": ("object_id", "object"),
    "process_section": ("process_id", "process"),
    "control": ("hazard_id", "hazard"),
}
_log = logging.getLogger(__name__)

_INTERVIEW_WIDE = frozenset({"interview", "agreement", "permission"})


def follow(store: Store, index: SearchIndex) -> None:
    """Keep the index in step with every commit made through this store from now on.

    A load of a whole folder is left to its caller, who rebuilds once at its end.
    """

    def touched(records: frozenset[Touched], notes: dict[str, Any]) -> None:
        if notes.get(WHOLE_LOAD) or index.stamp is None:
            return
        try:
            update(store, index, records)
        except (LemelError, OSError):
            # The records are safely committed; the index's stamp now tells that it is behind.
            _log.exception("The search index could not follow a change. Run lemel reindex.")

    store.after_commit(touched)


def update(store: Store, index: SearchIndex, records: Collection[Touched]) -> None:
    """Index anew, in one commit, whatever the touched records stand in."""
    indexed = [record for record in records if record.table in queries.INDEXED]
    if not indexed:
        return
    with store.session() as session:
        only = _standing_in(session, indexed)
        gone = _gone(session, indexed, only)
        index.put(_latest(session, only), gone=gone, stamp=lambda: _fresh_stamp(session))


def _latest(session: Session, only: Only) -> Iterator[Document]:
    yield from documents(session, only)


def _fresh_stamp(session: Session) -> str:
    """Called when the right to write is had: another process may have changed the records since we asked."""
    session.rollback()
    session.expire_all()
    return queries.stamp(session)


def _standing_in(session: Session, records: Collection[Touched]) -> Only:
    """The interviews and records whose documents the touched records stand in."""
    by_table: defaultdict[str, set[int]] = defaultdict(set)
    parents: defaultdict[str, set[int]] = defaultdict(set)
    for record in records:
        by_table[record.table].add(record.id)
        for column, key in record.belongs:
            parents[f"{record.table}.{column}"].add(key)
    others = {kind: set(by_table[kind]) for kind in KINDS if kind not in ("segment", "clip")}
    for table, (column, kind) in _PARTS.items():
        others[kind] |= parents[f"{table}.{column}"]
    for kind, keys in touched_queries.named_in(session, by_table).items():
        others[kind] |= keys
    interviews = touched_queries.interviews_touched(session, by_table, parents)
    if any(record.table in _INTERVIEW_WIDE for record in records):
        narrators = touched_queries.narrators_of(session, interviews)
        others["person"] |= narrators
        interviews |= touched_queries.interviews_of_people(session, narrators)
    return Only(frozenset(interviews), {kind: frozenset(keys) for kind, keys in others.items()})


def _gone(session: Session, records: Collection[Touched], only: Only) -> list[Gone]:
    """The old documents: all of each interview, and those of the records by themselves."""
    refs = {interview.ref for interview in queries.interviews(session, only.interviews)}
    refs |= {record.ref for record in records if record.table == "interview"}
    keys = [("key", key_of(kind, key)) for kind, held in only.others.items() for key in held]
    return [*(("interview", ref) for ref in refs), *keys]
