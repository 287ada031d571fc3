"""Words that are spelt in two ways find each other, and no others."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.search.spelling import one_spelling
from archive.search.words import folded, plain, stems_of, stems_placed, words_of


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("colour", "color"),
        ("vapours", "vapors"),
        ("galvanised", "galvanized"),
        ("galvanisation", "galvanization"),
        ("centre", "center"),
        ("centred", "centered"),
        ("millimetres", "millimeters"),
        ("grey", "gray"),
        ("mouldings", "moldings"),
        ("ploughed", "plowed"),
        ("gauges", "gages"),
        ("sulphuric", "sulfuric"),
        ("aluminium", "aluminum"),
        ("enamelling", "enameling"),
        ("labelled", "labeled"),
        ("catalogue", "catalog"),
        ("analysed", "analyzed"),
        ("jewellery", "jewelry"),
        ("skilful", "skillful"),
        ("defence", "defense"),
        ("annealing", "annealed"),
        ("café", "cafe"),
        ("worker’s", "worker"),
        ("don't", "don’t"),
    ],
)
def test_both_spellings_have_one_stem(one: str, other: str) -> None:
    """The British and the American spelling, and endings and accents, fold together."""
    assert folded(plain(one)) == folded(plain(other))


@pytest.mark.parametrize(
    ("one", "other"),
    [("hour", "hor"), ("four", "for"), ("prize", "prise"), ("timer", "timre"), ("water", "watre"), ("filled", "filed")],
)
def test_different_words_stay_different(one: str, other: str) -> None:
    """A rule for spelling does not reach words that it is not about."""
    assert folded(one) != folded(other)


@given(st.text(st.characters(min_codepoint=97, max_codepoint=122), min_size=1, max_size=12))
def test_one_spelling_is_settled(word: str) -> None:
    """Spelling a word again changes nothing more."""
    once = one_spelling(word)
    assert one_spelling(once) == once


@given(st.text(max_size=200))
def test_words_stand_where_they_are_said_to(text: str) -> None:
    """Any text at all gives words in order, inside it, each with a stem."""
    words = words_of(text)
    assert all(word.stem and 0 <= word.start < word.end <= len(text) for word in words)
    assert all(one.end <= other.start for one, other in zip(words, words[1:], strict=False))


def test_a_hyphened_word_is_found_in_one_and_in_two() -> None:
    """fire-gilding is two words side by side, and one word as well."""
    assert list(stems_placed("the fire-gilding hearth")) == [
        ("the", 0),
        ("fire", 1),
        ("gild", 2),
        ("firegild", 1),
        ("hearth", 3),
    ]
    assert stems_of("TY.1984.12") == ["ty", "1984", "12"]
