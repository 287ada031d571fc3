"""Uncertain dates as people read them."""

from __future__ import annotations

import pytest

from archive.values.date_words import date_in_words


@pytest.mark.parametrize(
    ("edtf", "words"),
    [
        ("1952", "1952"),
        ("1952~", "about 1952"),
        ("1952?", "perhaps 1952"),
        ("1952%", "perhaps about 1952"),
        ("195X", "the 1950s"),
        ("19XX", "the 1900s"),
        ("1931-04", "April 1931"),
        ("1931-21", "spring 1931"),
        ("1998-10-14", "14 October 1998"),
        ("1998-10-XX", "October 1998"),
        ("1948/1971", "1948 to 1971"),
        ("191X/1968", "the 1910s to 1968"),
        ("1944/..", "from 1944"),
        ("../1944", "until 1944"),
    ],
)
def test_each_form_has_its_words(edtf: str, words: str) -> None:
    """Every form of EDTF that a collection uses is read as a person would say it."""
    assert date_in_words(edtf) == words


def test_an_unknown_form_is_shown_as_written() -> None:
    """A form of a higher level is not guessed at."""
    assert date_in_words("{1960,1961}") == "{1960,1961}"
