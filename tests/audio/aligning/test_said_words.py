"""Typed lines as the words that a voice says."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.aligning.numbers import number, ordinal, year
from archive.audio.aligning.words import words_of


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("In 1952 we had 112 men.", "in nineteen fifty two we had one hundred and twelve men"),
        ("the '50s, the 1960s and '44", "the fifties the nineteen sixties and forty four"),
        ("1900, 1904, 2006", "nineteen hundred nineteen oh four two thousand and six"),
        ("£3 10s 6d a week", "three pounds ten shillings six pence a week"),
        ("7/6 a gross, 1/- each", "seven and six a gross one shilling each"),
        ("£2.50 or £1,250", "two pounds fifty or one thousand two hundred and fifty pounds"),
        ("3/4 inch, 5/16 and 2½", "three quarters inch five sixteenths and two and a half"),
        ("0.5 mm at 700°C", "nought point five millimetres at seven hundred degrees centigrade"),
        ("8-12 a minute, 90%", "eight to twelve a minute ninety per cent"),
        ("Mr. Pell, No. 3 stamp. I said no.", "mister pell number three stamp i said no"),
        ("the BBC and I.C.I.", "the b b c and i c i"),
        ("at 6.30 a.m. on the 22nd", "at six thirty a m on the twenty second"),
        ("(laughs) aye [inaudible] [unclear: the tup]", "aye the tup"),
        ("I was (so they said) late", "i was so they said late"),
        ("It’s the café’s", "it's the cafe's"),
        ("— … ?!", ""),
    ],
)
def test_figures_money_and_short_forms_are_said_out(typed: str, said: str) -> None:
    """What a typist writes short, a voice says in words."""
    assert " ".join(words_of(typed, frozenset())) == said


def test_capitals_that_are_a_word_are_not_spelt_out() -> None:
    """A short name in capitals is a word where the dictionary has it."""
    assert words_of("NELL", frozenset({"nell"})) == ["nell"]


@given(st.text(max_size=200))
def test_any_text_gives_plain_words(text: str) -> None:
    """Whatever was typed, the words are small letters of the alphabet and apostrophes, and none is empty."""
    for word in words_of(text, frozenset()):
        assert word
        assert word.isascii()
        assert all(sign.isalpha() or sign == "'" for sign in word), word
        assert word == word.lower()


@given(st.integers(0, 10**15))
def test_every_number_can_be_said(value: int) -> None:
    """Numbers, years and ordinals never fail."""
    for said in (number(value), year(value), ordinal(value)):
        assert said
        assert all(word.isalpha() for word in said)
