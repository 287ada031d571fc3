"""Figures of speech: what is none, what is one, and what it is worth."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.interviews.said.figures import figures_in
from tests.interviews.said.scoring import score
from tests.interviews.said.speaking import in_words

HELD_APART = Path(__file__).parent / "held_apart.tsv"
FRESH = Path(__file__).parent / "fresh.tsv"


@pytest.mark.parametrize(
    "text",
    [
        "It was one of those things.",
        "I worked on number three stamp, under No. 7 window.",
        "We knocked off at half past seven, or ten to eight, or five past.",
        "One day somebody came, and one of us went.",
        "At eight o'clock the shutter came down.",
        "Room twelve, chapter three, the number 42 bus.",
        "We were paid by the gross, or by the hundred.",
        "That was fifty-fifty, and two and two.",
        "On the twenty-second of March he died.",
        "We lived at 14 Cinder Row.",
        "A polisher's bob is of felt, and a bob wears down.",
        "She wore a crown of paper, and he had a second talk.",
        "Half asleep, half way up the stair.",
        "",
    ],
)
def test_what_is_no_figure_is_passed_over(text: str) -> None:
    """Labels, times of day, sayings, addresses, and words that only look like numbers."""
    assert figures_in(text) == ()


@pytest.mark.parametrize(
    ("text", "kind", "low", "high", "unit"),
    [
        ("We struck nine to eleven a minute.", "rate", 9, 11, "/min"),
        ("There were eight or a dozen men in the yard.", "quantity", 8, 12, ""),
        ("They made never less than forty.", "quantity", 40, math.inf, ""),
        ("They paid three and nine a dozen.", "money", 45, 45, "d/dozen"),
        ("It fetched eleven and six a gross.", "money", 138, 138, "d/gross"),
        ("Within three thou, he wanted it.", "length", 3, 3, "thou"),
        ("It was nineteen-thirty-four.", "date", 1934, 1934, "year"),
        ("My father came in nineteen oh eight.", "date", 1908, 1908, "year"),
        ("He gave half a crown for it.", "money", 30, 30, "d"),
        ("The door is five foot eight.", "length", 5 + 8 / 12, 5 + 8 / 12, "ft"),
        ("That was the late thirties.", "date", 1935, 1939, "year"),
        ("He was in his early forties.", "age", 40, 44, "year"),
        ("I was seventeen.", "age", 17, 17, "year"),
        ("A girl of fifteen could do it.", "age", 15, 15, "year"),
        ("Fifty-three I went in the plating shop.", "date", 1953, 1953, "year"),
        ("From nineteen thirty-six to forty-one.", "date", 1936, 1941, "year"),
        ("The tup weighed sixty pound.", "weight", 60, 60, "lb"),
        ("He drew six pound ten a week.", "money", 1560, 1560, "d/week"),
        ("It was £2 10s.", "money", 600, 600, "d"),
        ("Six or seven hundred degrees centigrade.", "temperature", 600, 700, "°C"),
        ("The dynamo gave eight volts.", "power", 8, 8, "V"),
        ("Ninety-eight decibels, they said.", "power", 98, 98, "dB"),
        ("An hour and a half.", "duration", 1.5, 1.5, "h"),
        ("We waited a fortnight.", "duration", 2, 2, "week"),
        ("Upwards of thirty women.", "quantity", 30, math.inf, ""),
        ("No more than five of them.", "quantity", -math.inf, 5, ""),
        ("It never lifted more than a ton.", "weight", -math.inf, 1, "ton"),
        ("Thirty-odd gross.", "quantity", 30, 39, "gross"),
        ("Twice a year.", "rate", 2, 2, "/year"),
        ("A 3/8 inch bolt.", "length", 0.375, 0.375, "in"),
        ("Two thousand five hundred revs.", "rate", 2500, 2500, "/min"),
    ],
)
def test_a_figure_has_kind_ends_and_unit(text: str, kind: str, low: float, high: float, unit: str) -> None:
    """In digits or in words, with the unit understood and the interval kept."""
    (figure,) = figures_in(text)
    assert (figure.kind, figure.unit) == (kind, unit)
    assert (figure.low, figure.high) == pytest.approx((low, high))


def test_a_figure_keeps_the_words_it_stands_in() -> None:
    """Its place in the line is that of its words, whatever stands around."""
    text = "Well, eight-and-twenty shillings a week, that was, in 1938."
    assert [text[one.start : one.end] for one in figures_in(text)] == ["eight-and-twenty shillings a week", "1938"]


@given(st.integers(min_value=13, max_value=999_999))
def test_a_number_comes_back_from_its_words(number: int) -> None:
    """Number to words to number, counted in things."""
    (figure,) = figures_in(f"There were {in_words(number)} buttons.")
    assert (figure.low, figure.high, figure.kind) == (number, number, "quantity")


@given(st.integers(min_value=1500, max_value=1999).filter(lambda year: year % 100))
def test_a_year_comes_back_from_its_words(year: int) -> None:
    """Nineteen oh six, nineteen ten, nineteen fifty-one."""
    century, rest = divmod(year, 100)
    said = f"{in_words(century)} {'oh ' if rest < 10 else ''}{in_words(rest)}"
    (figure,) = figures_in(f"It came in {said}.")
    assert (figure.kind, figure.low) == ("date", year)


@given(st.integers(min_value=1, max_value=19), st.integers(min_value=1, max_value=11))
def test_shillings_and_pence_come_back_from_their_words(shillings: int, pence: int) -> None:
    """The price of a gross, as it was said."""
    (figure,) = figures_in(f"It paid {in_words(shillings)} and {in_words(pence)} a gross.")
    assert (figure.kind, figure.low, figure.unit) == ("money", shillings * 12 + pence, "d/gross")


@given(st.text(alphabet="aeno tw-fivhundrlgs0123456789£/.,½", max_size=60))
def test_any_text_is_read(text: str) -> None:
    """No text breaks the recogniser, and what it finds lies in the text, in order."""
    found = figures_in(text)
    assert all(0 <= one.start < one.end <= len(text) and one.low <= one.high for one in found)
    assert [one.start for one in found] == sorted(one.start for one in found)


def test_sentences_held_apart_are_read() -> None:
    """A floor on 175 lines written by someone else, and unread while the rules were written.

    First run: precision 0.765, recall 0.770 of 161 figures. The faults it showed were then mended (0.969 and 0.975), so
    that the set holds the rules where they stand now, and no longer measures them.
    """
    result, _differing = score(HELD_APART)
    assert result.precision >= 0.95
    assert result.recall >= 0.95


def test_fresh_sentences_are_read_as_well_as_the_first_time() -> None:
    """A floor on 165 lines, at what the first run gave; two rules were mended since ("ten or a dozen", "never fewer").

    First run: 132 figures right, 32 false, 19 missed (precision 0.805, recall 0.874 of 151 figures). The lines were
    written, and committed, by someone who had not read the rules. Whoever mends a rule against one more of them must
    say so here: with each, the set measures less.
    """
    result, _differing = score(FRESH)
    assert result.precision >= 0.80
    assert result.recall >= 0.87
