"""Answers a Whoosh query tree from arrays, with the scores that Whoosh's own matchers would give."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from whoosh import query

from archive.search.arrays import NOTHING, Matches, any_of, both, every, in_phrase, without
from archive.search.seen import Seen

_WIDEST_SLOP = 50


def matches(seen: Seen, asked: Any) -> Matches:
    """The documents that match a query; where words are excluded, closed ones are not yet left out."""
    if asked is query.NullQuery:
        return NOTHING
    return _ANSWERS[type(asked)](seen, asked)


def _term(seen: Seen, asked: Any) -> Matches:
    return seen.scored(asked.fieldname, asked.text).times(asked.boost)


def _prefix(seen: Seen, asked: Any) -> Matches:
    return seen.scored_beginning(asked.fieldname, asked.text).times(asked.boost)


def _phrase(seen: Seen, asked: Any) -> Matches:
    """Documents with all the words, scored as all of them together, kept where they stand in order."""
    held = [seen.scored(asked.fieldname, word) for word in asked.words]
    together = _all_of(held)
    if not len(together.docs):
        return NOTHING
    keys = [seen.places(asked.fieldname, word) for word in asked.words]
    standing = np.zeros(seen.width, np.bool_)
    standing[in_phrase(keys, min(asked.slop, _WIDEST_SLOP)) >> 16] = True
    return together.where(standing).times(asked.boost)


def _and(seen: Seen, asked: Any) -> Matches:
    wanted = [matches(seen, part) for part in asked if not isinstance(part, query.Not)]
    found = _all_of(wanted) if wanted else every(seen.width)
    for part in asked:
        if isinstance(part, query.Not):
            found = without(found, matches(seen, part.query))
            # Whoosh scores the absence of a word as 1.
            found = Matches(found.docs, found.scores + 1.0) if wanted else found
    return found.times(asked.boost)


def _or(seen: Seen, asked: Any) -> Matches:
    return any_of([matches(seen, part) for part in asked], seen.width).times(asked.boost)


def _not(seen: Seen, asked: Any) -> Matches:
    return without(every(seen.width), matches(seen, asked.query))


def _every(seen: Seen, asked: Any) -> Matches:
    return every(seen.width).times(asked.boost)


def _all_of(parts: list[Matches]) -> Matches:
    """The rarest first, so that little is left to search for the common ones."""
    ordered = sorted(parts, key=lambda part: len(part.docs))
    found = ordered[0]
    for part in ordered[1:]:
        found = both(found, part)
    return found


_ANSWERS: dict[type, Callable[[Seen, Any], Matches]] = {
    query.Term: _term,
    query.Prefix: _prefix,
    query.Phrase: _phrase,
    query.And: _and,
    query.Or: _or,
    query.Not: _not,
    query.Every: _every,
}
