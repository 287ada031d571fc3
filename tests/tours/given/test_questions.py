"""Questions that recur are put together, others are not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.tours.given.questions import Asked, recurring, stems


def asked(*texts: str) -> list[Asked]:
    """Questions asked one day after the other."""
    return [Asked(text, "st-press", f"2026-11-{day:02d}") for day, text in enumerate(texts, 1)]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("How loud was the stamp?", "Was the stamp really that loud?"),
        ("Did women run the presses?", "Women running a press?"),
        ("What did a button cost?", "How much did the buttons cost?"),
    ],
)
def test_the_same_question_in_other_words_is_one(one: str, other: str) -> None:
    """Little words and the ends of words make no difference."""
    groups = recurring(asked(one, other))
    assert [len(group.asked) for group in groups] == [2]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("How loud was the stamp?", "How heavy was the stamp?  Was it lifted by rope?"),
        ("What did a button cost?", "Who opened the works?"),
        ("Was it cold?", "Why?"),
    ],
)
def test_other_questions_stay_apart(one: str, other: str) -> None:
    """A shared word alone does not make them one."""
    assert len(recurring(asked(one, other))) == 2


def test_the_most_asked_comes_first_with_the_words_to_search_for() -> None:
    """The shortest wording stands for all, and what is asked of the search are its carrying words."""
    groups = recurring(asked("Who was Mr Dunmore?", "How loud was the drop stamp?", "Was the drop stamp loud?", " "))
    assert [len(group.asked) for group in groups] == [2, 1]
    assert groups[0].search == "drop stamp loud"
    assert groups[0].stations == ("st-press",)


@given(st.lists(st.text(max_size=40), max_size=12))
def test_every_question_is_in_one_group(texts: list[str]) -> None:
    """Nothing that was asked is lost or counted twice, whatever was typed; the order of hand-in changes nothing."""
    rows = asked(*texts[:28])
    groups = recurring(rows)
    kept = sorted(one.text for group in groups for one in group.asked)
    assert kept == sorted(text for text in texts if text.strip())
    assert recurring(reversed(rows)) == groups


def test_a_question_of_little_words_still_has_some() -> None:
    """ "Why?" is asked with its only word."""
    assert stems("Why?") == {"why"}
