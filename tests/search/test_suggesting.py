"""Suggestions, from what is open alone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from archive.search.distance import distance
from archive.search.document import Document
from archive.search.gateway import SearchIndex
from archive.search.vocabulary import Vocabulary

WORDS = st.text("abcde", min_size=1, max_size=6)


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SearchIndex]:
    """Words in open and in closed documents."""
    made = SearchIndex(tmp_path_factory.mktemp("index"))
    made.rebuild_from(
        [
            Document("segment", 1, "i1", "annealing annealed polishing"),
            Document("segment", 2, "i1", "annealing the strip"),
            Document("segment", 3, "i2", "annexed antimony polisher"),
        ],
        stamp=lambda: "1",
    )
    yield made
    made.close()


def test_only_open_words_are_suggested(index: SearchIndex) -> None:
    """A word of closed documents is neither a completion nor what was meant; for who may know it, it is both."""
    assert index.suggest("ann", frozenset({"i1"})) == ["annealing", "annealed"]
    assert index.suggest("ann", frozenset({"i2"})) == ["annexed"]
    assert index.ask("antimonny", frozenset({"i1"})).did_you_mean == ""
    assert index.ask("antimonny", frozenset({"i2"})).did_you_mean == "antimony"


def test_a_closed_word_is_as_unknown_as_any(index: SearchIndex) -> None:
    """A word that is right but closed is put right like a word that nobody ever said."""
    assert index.ask("polisher", frozenset({"i1"})).total == 1  # by its stem
    assert index.ask("antimony", frozenset({"i1"})).did_you_mean == ""


def test_the_rest_of_the_text_is_kept(index: SearchIndex) -> None:
    """Only the word that is wrong, or unfinished, changes."""
    assert index.ask("Strip anealling", frozenset({"i1"})).did_you_mean == "Strip annealing"
    assert index.suggest("strip po", frozenset({"i1"})) == ["strip polishing"]


def test_nothing_is_suggested_for_a_word_that_is_done(index: SearchIndex) -> None:
    """A space after the last word, a single letter, or nothing at all ask for no completion."""
    assert [index.suggest(text, frozenset({"i1"})) for text in ("ann ", "a", "", "!")] == [[], [], [], []]


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("press", "press", 0),
        ("press", "perss", 1),
        ("press", "pres", 1),
        ("press", "dress", 1),
        ("press", "dresses", 3),
    ],
)
def test_distance(one: str, other: str, apart: int) -> None:
    """One edit is a letter wrong, missing, too many, or two changed about."""
    assert distance(one, other, 3) == apart


@given(WORDS, WORDS)
@example("bc", "caa")
def test_distance_is_the_same_both_ways(one: str, other: str) -> None:
    """It measures no direction, and stops counting above the most."""
    assert distance(one, other, 9) == distance(other, one, 9)
    assert distance(one, other, 1) == min(distance(one, other, 9), 2)


@given(st.lists(WORDS, max_size=12), WORDS, st.integers(0, 2))
def test_near_words_are_just_those_within_reach(words: list[str], word: str, most: int) -> None:
    """Sorting out words by their letters first loses none."""
    expected = sorted({other for other in words if distance(word, other, most) <= most})
    assert [other for _, other in Vocabulary(words).near(word, most)] == expected


@given(st.lists(WORDS, max_size=12), WORDS)
def test_words_that_begin_so(words: list[str], start: str) -> None:
    """They are just those that do, in order."""
    assert Vocabulary(words).beginning(start) == sorted({word for word in words if word.startswith(start)})
