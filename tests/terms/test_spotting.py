"""Words of the thesaurus in running text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.terms.spotting import Vocabulary

WORDS = [("die", 1), ("fly press", 2), ("press", 3), ("nealing", 4), ("annealing", 4), ("stamp's boy", 5), ("a (b)", 6)]


def found(text: str, **more: object) -> list[tuple[str, int]]:
    """The spotted words with their keys."""
    spots = Vocabulary(WORDS).spots(text, **more)  # type: ignore[arg-type]
    return [(text[spot.start : spot.end], spot.key) for spot in spots]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", []),
        ("A soldier studied diets.", []),
        ("half-die, die-cast", []),
        ("The die is cut.", [("die", 1)]),
        ("Dies wear.", [("Dies", 1)]),
        ("PRESSES", [("PRESSES", 3)]),
        ("a fly\n press and a press", [("fly\n press", 2), ("press", 3)]),
        ("nealing, that is annealing", [("nealing", 4)]),
        ("die, die, die", [("die", 1)]),
        ("the stamp's boy", [("stamp's boy", 5)]),
        ("a (b) c", [("a (b)", 6)]),
    ],
)
def test_whole_words_are_found_once_each(text: str, words: list[tuple[str, int]]) -> None:
    """Only whole words count, plurals too, the longest first, each meaning once and in any case."""
    assert found(text) == words


def test_what_was_explained_before_is_passed_over() -> None:
    """A meaning passed over is not found again; others are."""
    assert found("die and press", passed_over=[1]) == [("press", 3)]


def test_an_ill_fitting_word_leaves_its_meaning_for_a_later_one() -> None:
    """A word refused in its place does not use up its meaning."""
    fits = lambda word, _key: word != "nealing"  # noqa: E731
    assert found("nealing, that is annealing", fits=fits) == [("annealing", 4)]


def test_the_first_meaning_keeps_a_word() -> None:
    """Where two terms claim a word, the first given has it."""
    assert Vocabulary([("bed", 1), ("Bed", 2)]).spots("the bed")[0].key == 1


def test_no_words_find_nothing() -> None:
    """An empty thesaurus, or one of blanks, spots nothing."""
    assert Vocabulary([("", 1), ("  ", 2)]).spots("anything  at all") == []


@given(st.text(alphabet="die prs-fly.\n", max_size=60))
def test_spots_stand_in_order_and_apart(text: str) -> None:
    """Spots never overlap, never go backwards, and each meaning comes once."""
    spots = Vocabulary(WORDS).spots(text)
    edges = [edge for spot in spots for edge in (spot.start, spot.end)]
    assert edges == sorted(edges)
    assert len({spot.key for spot in spots}) == len(spots)
