"""Searching as the faces do it: what is closed leaves no trace, what is open is found."""

from __future__ import annotations

import pytest

from archive.rights.decisions import Viewer
from archive.search.asking import find, suggest
from archive.search.gateway import SearchIndex
from archive.store.session import Store
from tests.search.works import GUIDE, READER, STRANGER, UNNAMED, VISITOR

Works = tuple[Store, SearchIndex]
CLOSED_WORDS = ["quatrefoil", "tourmaline", "spelter", *UNNAMED.split()]


@pytest.mark.parametrize("viewer", [READER, VISITOR, STRANGER, GUIDE])
@pytest.mark.parametrize("word", CLOSED_WORDS)
def test_closed_words_find_nothing(works: Works, viewer: Viewer, word: str) -> None:
    """A word that only closed records hold finds nothing, counts nothing, and is suggested to nobody."""
    for text in (word, f"{word[:5]}*", f"{word}~2", f'"{word}"'):
        page = find(*works, viewer, text)
        assert (page.total, page.hits) == (0, [])
        assert word.casefold() not in page.did_you_mean
        assert not any(page.facets.values())
    assert suggest(*works, viewer, word[:4]) == []
    assert word.casefold() not in find(*works, viewer, f"{word[:-1]}x").did_you_mean


def test_a_closed_interview_changes_no_count(works: Works) -> None:
    """Three narrators speak of the foreman, one of them under embargo: two are counted."""
    page = find(*works, READER, "foreman")
    assert page.total == 2
    assert page.facets["interview"] == {"A": 1, "B": 1}
    assert page.speakers == {"P-A": "Ada Birch", "P-B": "Bryn Marlowe"}
