"""The array executor against Whoosh's own searcher: the same totals, the same scores, the same order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from whoosh import query
from whoosh.index import FileIndex

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


def _document(number: int, chance: np.random.Generator) -> Document:
    words = chance.choice(VOCABULARY, size=int(chance.integers(3, 40)), p=SHARE / SHARE.sum())
    title = chance.choice(VOCABULARY, size=int(chance.integers(1, 5))) if number % 5 == 0 else []
    return Document("segment", number, ACCESS[number % 4], " ".join(words), " ".join(title))


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Snapshot, Any]]:
    """A collection after Zipf's law in several segments with deletions, read by us and by Whoosh."""
    folder = tmp_path_factory.mktemp("zipf")
    chance = np.random.default_rng(7)
    index = SearchIndex(folder)
    index.rebuild_from((_document(number, chance) for number in range(600)), stamp=lambda: "1")
    for first in (600, 640, 30):  # the last replaces documents, so that some are deleted
        index.put([_document(number, chance) for number in range(first, first + 40)], stamp=lambda: "2")
    place = IndexFolder(folder).present()
    assert place is not None
    with FileIndex(SyncedStorage(place), schema=make_schema()).searcher() as searcher:
        assert len(searcher.leaf_searchers()) > 1
        with index._present() as snapshot:
            yield snapshot, searcher
    index.close()


def _ours(snapshot: Snapshot, asked: Any, access: frozenset[str]) -> tuple[int, list[tuple[float, int]]]:
    found = matches(snapshot, asked).where(snapshot.open_to(access))
    top = best(found, TOP)
    return len(found.docs), list(zip(top.scores.round(9).tolist(), top.docs.tolist(), strict=True))


def _whooshs(searcher: Any, asked: Any, access: frozenset[str]) -> tuple[int, list[tuple[float, int]]]:
    """The same question put to Whoosh, with the access clause in the question and beginnings spelt out.

    Documents that equal the last score are all fetched, since Whoosh adds in another order from segment to segment.
    """
    opened = query.Or([query.Term("access", key) for key in sorted(access)])
    spelt = asked.simplify(searcher.reader()) if isinstance(asked, query.Prefix) else asked
    results = searcher.search(query.Require(spelt, opened), limit=None, optimize=False)
    ranked = sorted(((-round(score, 9), doc) for score, doc in results.top_n))
    return len(ranked), [(-score, doc) for score, doc in ranked[:TOP]]


def _agree(both: tuple[Snapshot, Any], asked: Any, access: frozenset[str] = frozenset(ACCESS)) -> None:
    snapshot, searcher = both
    total, ours = _ours(snapshot, asked, access)
    whooshs_total, whooshs = _whooshs(searcher, asked, access)
    assert total == whooshs_total
    assert [doc for _, doc in ours] == [doc for _, doc in whooshs]
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
def test_every_class_agrees_with_whoosh(both: tuple[Snapshot, Any], asked: Any, access: tuple[str, ...]) -> None:
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
def test_any_question_agrees_with_whoosh(both: tuple[Snapshot, Any], asked: Any, access: set[str]) -> None:
    """So does any tree of words, phrases, AND, OR and NOT."""
    _agree(both, asked, frozenset(access))


def test_no_access_at_all_opens_nothing(both: tuple[Snapshot, Any]) -> None:
    """An empty set of keys is no key: Whoosh's own filter would open everything here."""
    assert _ours(both[0], query.Every(), frozenset()) == (0, [])
