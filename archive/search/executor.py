"""Answers a Whoosh query tree from arrays, with the scores that Whoosh's own matchers would give."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from whoosh import query

from archive.search.arrays import NOTHING, Matches, any_of, both, every, in_phrase, without
from archive.search.snapshot import Snapshot

_WIDEST_SLOP = 50


def matches(snapshot: Snapshot, asked: Any) -> Matches:
    """The documents that match a query, deleted and closed ones not yet left out."""
    if asked is query.NullQuery:
        return NOTHING
    return _ANSWERS[type(asked)](snapshot, asked)


def _term(snapshot: Snapshot, asked: Any) -> Matches:
    return snapshot.scored(asked.fieldname, asked.text).times(asked.boost)


def _prefix(snapshot: Snapshot, asked: Any) -> Matches:
    return snapshot.scored_beginning(asked.fieldname, asked.text).times(asked.boost)


def _phrase(snapshot: Snapshot, asked: Any) -> Matches:
    """Documents with all the words, scored as all of them together, kept where they stand in order."""
    held = [snapshot.scored(asked.fieldname, word) for word in asked.words]
    together = _all_of(held)
    if not len(together.docs):
        return NOTHING
    keys = [snapshot.places(asked.fieldname, word) for word in asked.words]
    standing = np.zeros(snapshot.count, np.bool_)
    standing[in_phrase(keys, min(asked.slop, _WIDEST_SLOP)) >> 16] = True
    return together.where(standing).times(asked.boost)


def _and(snapshot: Snapshot, asked: Any) -> Matches:
    wanted = [matches(snapshot, part) for part in asked if not isinstance(part, query.Not)]
    found = _all_of(wanted) if wanted else every(snapshot.count)
    for part in asked:
        if isinstance(part, query.Not):
            found = without(found, matches(snapshot, part.query))
            # Whoosh scores the absence of a word as 1.
            found = Matches(found.docs, found.scores + 1.0) if wanted else found
    return found.times(asked.boost)


def _or(snapshot: Snapshot, asked: Any) -> Matches:
    return any_of([matches(snapshot, part) for part in asked], snapshot.count).times(asked.boost)


def _not(snapshot: Snapshot, asked: Any) -> Matches:
    return without(every(snapshot.count), matches(snapshot, asked.query))


def _every(snapshot: Snapshot, asked: Any) -> Matches:
    return every(snapshot.count).times(asked.boost)


def _all_of(parts: list[Matches]) -> Matches:
    """The rarest first, so that little is left to search for the common ones."""
    ordered = sorted(parts, key=lambda part: len(part.docs))
    found = ordered[0]
    for part in ordered[1:]:
        found = both(found, part)
    return found


_ANSWERS: dict[type, Callable[[Snapshot, Any], Matches]] = {
    query.Term: _term,
    query.Prefix: _prefix,
    query.Phrase: _phrase,
    query.And: _and,
    query.Or: _or,
    query.Not: _not,
    query.Every: _every,
}
