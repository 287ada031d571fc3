"""The array executor against Whoosh's own searcher: the same totals, the same scores, the same order.

Whoosh is given an index of the open documents alone: so the scores tell nothing of what is closed either.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from whoosh import query
from whoosh.index import FileIndex
from whoosh.util.numeric import byte_to_length, length_to_byte

from archive.search.arrays import best
from archive.search.document import Document
from archive.search.executor import matches
from archive.search.folder import IndexFolder, SyncedStorage
from archive.search.gateway import SearchIndex
from archive.search.schema import TITLE_BOOST, make_schema
from archive.search.snapshot import Snapshot

VOCABULARY = [
    first + middle + last for first in "bdfgklm" for middle in ("a", "o", "u", "al", "en") for last in "dkmrt"
]
SHARE = 1 / np.arange(2, len(VOCABULARY) + 2)
ACCESS = ("open", "i1", "i2", "i3")
TOP = 20


# Lengths that Whoosh keeps to the word; of others it keeps a near one, and then its mean and ours part a little.
EXACT = {length for length in range(1, 50) if byte_to_length(length_to_byte(length)) == length}


def _drawn(chance: np.random.Generator) -> list[str]:
    return [str(word) for word in chance.choice(VOCABULARY, size=int(chance.integers(3, 40)), p=SHARE / SHARE.sum())]


def _document(number: int, chance: np.random.Generator) -> Document:
    words, title = _drawn(chance), _drawn(chance)[:4] if number % 5 == 0 else []
    while not {len(words), len(title) or 1, len({*words, *title})} <= EXACT:
        words = _drawn(chance)
    return Document("segment", number, ACCESS[number % 4], " ".join(words), " ".join(title))


@dataclass(frozen=True)
class Pair:
    """Our snapshot of a collection, and for any set of keys a Whoosh index of just what they open."""

    snapshot: Snapshot
    documents: dict[int, Document]
    folder: Path

    def ours(self, asked: Any, access: frozenset[str]) -> tuple[int, list[tuple[float, int]]]:
        """Total, and the best scores with the records' keys."""
        seen = self.snapshot.seen_with(access)
        found = matches(seen, asked).where(seen.mask)
        top = best(found, TOP)
        keys = self.snapshot.ids[top.docs].tolist()
        return len(found.docs), list(zip(top.scores.round(9).tolist(), keys, strict=True))

    def whooshs(self, asked: Any, access: frozenset[str]) -> tuple[int, list[tuple[float, int]]]:
        """The same from Whoosh's own searcher, of an index in which nothing else ever was; beginnings spelt out.

        Documents that equal the last score are all fetched, since Whoosh adds in another order from segment to segment.
        """
        place = IndexFolder(self._index_of(access)).present()
        assert place is not None
        with FileIndex(SyncedStorage(place), schema=make_schema()).searcher() as searcher:
            spelt = asked.simplify(searcher.reader()) if isinstance(asked, query.Prefix) else asked
            results = searcher.search(spelt, limit=None, optimize=False)
            if results.is_empty():
                return 0, []
            keyed = searcher.reader().column_reader("id")
            ranked = sorted((-round(score, 9), doc) for score, doc in results.top_n)
            return len(ranked), [(-score, int(keyed[doc])) for score, doc in ranked[:TOP]]

    def _index_of(self, access: frozenset[str]) -> Path:
        place = self.folder / ("-".join(sorted(access)) or "nothing")
        if not place.exists():
            index = SearchIndex(place)
            kept = (document for document in self.documents.values() if document.access in access)
            index.rebuild_from(kept, stamp=lambda: "1")
            index.close()
        return place


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Pair]:
    """A collection after Zipf's law in several segments with deletions; what is closed is in it, too."""
    folder = tmp_path_factory.mktemp("zipf")
    chance = np.random.default_rng(7)
    documents = {number: _document(number, chance) for number in range(600)}
    index = SearchIndex(folder / "whole")
    index.rebuild_from(documents.values(), stamp=lambda: "1")
    for first in (600, 640, 30):  # the last replaces documents, so that some are deleted
        new = [_document(number, chance) for number in range(first, first + 40)]
        index.put(new, stamp=lambda: "2")
        for document in new:  # in the order in which the index has them
            documents.pop(document.id, None)
            documents[document.id] = document
    with index._present() as snapshot:
        assert len(snapshot.leaves) > 1
        yield Pair(snapshot, documents, folder / "open")
    index.close()


def _agree(both: Pair, asked: Any, access: frozenset[str] = frozenset(ACCESS)) -> None:
    total, ours = both.ours(asked, access)
    whooshs_total, whooshs = both.whooshs(asked, access)
    assert total == whooshs_total
    assert [key for _, key in ours] == [key for _, key in whooshs]
    assert [score for score, _ in ours] == pytest.approx([score for score, _ in whooshs], abs=2e-9)


def _word(number: int) -> Any:
    return query.Term("text", VOCABULARY[number])


CLASSES = {
    "common word": _word(0),
    "rare word": _word(150),
    "unknown word": query.Term("text", "zzz"),
    "two words": query.And([_word(0), _word(3)]),
    "three words": query.And([_word(0), _word(1), _word(2)]),
    "any of three": query.Or([_word(0), _word(20), _word(90)]),
    "phrase": query.Phrase("text", [VOCABULARY[0], VOCABULARY[1]]),
    "phrase of three": query.Phrase("text", [VOCABULARY[0], VOCABULARY[1], VOCABULARY[0]]),
    "phrase with gaps": query.Phrase("text", [VOCABULARY[0], VOCABULARY[2]], slop=4),
    "prefix": query.Prefix("words", "ba"),
    "long prefix": query.Prefix("words", "bald"),
    "with not": query.And([_word(0), query.Not(_word(1))]),
    "brackets": query.And([query.Or([_word(4), _word(5)]), query.Or([_word(0), _word(6)])]),
    "boosted": query.Or([_word(8), query.Term("text", VOCABULARY[2], boost=0.4)]),
    "title counts for more": query.Or([_word(9), query.Term("title", VOCABULARY[9], boost=TITLE_BOOST)]),
    "references": query.And([_word(0), query.Term("kind", "segment")]),
    "everything": query.Every(),
}


@pytest.mark.parametrize("asked", CLASSES.values(), ids=CLASSES.keys())
@pytest.mark.parametrize("access", [ACCESS, ACCESS[:1], ACCESS[1:3], ("nobody",)])
def test_every_class_agrees_with_whoosh(both: Pair, asked: Any, access: tuple[str, ...]) -> None:
    """Every class of question gives Whoosh's own totals, scores and order, whatever is open."""
    _agree(both, asked, frozenset(access))


_leaves = st.integers(0, len(VOCABULARY) - 1).map(_word) | st.lists(st.integers(0, 12), min_size=2, max_size=3).map(
    lambda numbers: query.Phrase("text", [VOCABULARY[number] for number in numbers])
)
_trees = st.recursive(
    _leaves,
    lambda parts: (
        st.builds(query.And, st.lists(parts, min_size=2, max_size=3, unique_by=hash))
        | st.builds(query.Or, st.lists(parts, min_size=2, max_size=3, unique_by=hash))
        | st.builds(lambda one, other: query.And([one, query.Not(other)]), parts, parts)
    ),
    max_leaves=6,
)


@given(_trees, st.sets(st.sampled_from(ACCESS), min_size=1))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_question_agrees_with_whoosh(both: Pair, asked: Any, access: set[str]) -> None:
    """So does any tree of words, phrases, AND, OR and NOT."""
    _agree(both, asked, frozenset(access))


def test_no_access_at_all_opens_nothing(both: Pair) -> None:
    """An empty set of keys is no key: Whoosh's own filter would open everything here."""
    assert both.ours(query.Every(), frozenset()) == (0, [])
