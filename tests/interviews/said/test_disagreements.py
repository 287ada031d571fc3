"""Which figures contradict each other, and which lie far from their like."""

from __future__ import annotations

import math

import pytest

from archive.interviews.said.disagreements import Account, differ, disagreements, outliers
from archive.interviews.said.keywords import Rarity
from archive.interviews.said.spoken import Spoken

# Ten thousand lines' worth of other matters would make the words below rarer still; a hundred are enough.
_OTHERS = [{f"word{number}"} for number in range(100)]


def _told(number: int, narrator: int, figure: Spoken, *about: str) -> Account:
    return Account(number, figure, narrator, frozenset(about), frozenset(key for key in about if ":" in key))


def _year(low: float, high: float | None = None) -> Spoken:
    return Spoken("date", low, low if high is None else high, "year", 0, 1)


def _found(*accounts: Account) -> list[tuple[int, ...]]:
    rarity = Rarity([*_OTHERS, *(account.about for account in accounts)])
    return [tuple(each.number for each in one.accounts) for one in disagreements(accounts, rarity)]


def test_one_narrator_does_not_disagree_with_himself() -> None:
    """Only two people can disagree."""
    assert _found(_told(0, 1, _year(1952), "lift", "rope"), _told(1, 1, _year(1956), "lift", "rope")) == []


def test_one_shared_word_is_not_one_matter() -> None:
    """Two years in lines that share a single word are years of two things."""
    assert _found(_told(0, 1, _year(1952), "lift", "bell"), _told(1, 2, _year(1956), "lift", "rope")) == []


def test_kinds_and_units_do_not_mix() -> None:
    """A year and a rate, or a rate and a length, contradict nothing."""
    rate = Spoken("rate", 8, 12, "/min", 0, 1)
    length = Spoken("length", 20, 20, "ft", 0, 1)
    assert _found(_told(0, 1, rate, "lift", "rope"), _told(1, 2, length, "lift", "rope")) == []


def test_two_years_of_one_event_disagree() -> None:
    """Two narrators, one matter, two years; the same again from one of them is told once."""
    accounts = [
        _told(0, 1, _year(1952), "lift", "term:rope"),
        _told(1, 2, _year(1956), "lift", "term:rope"),
        _told(2, 2, _year(1956), "lift", "term:rope", "plate"),
    ]
    assert len(_found(*accounts)) == 1


@pytest.mark.parametrize(
    ("one", "other", "contradict"),
    [
        (_year(1952), _year(1956), True),
        (_year(1952), _year(1952), False),
        (_year(1921), _year(1956), False),
        (_year(1950, 1959), _year(1961), False),
        (_year(1952), _year(1950, math.inf), False),
        (Spoken("rate", 8, 12, "/min", 0, 1), Spoken("rate", 15, 15, "/min", 0, 1), True),
        (Spoken("rate", 8, 12, "/min", 0, 1), Spoken("rate", 600, 600, "/h", 0, 1), False),
        (Spoken("rate", 8, 12, "/min", 0, 1), Spoken("rate", 8000, 8000, "/min", 0, 1), False),
        (Spoken("money", 90, 90, "d/gross", 0, 1), Spoken("money", 84, 84, "d/gross", 0, 1), True),
        (Spoken("money", 90, 90, "d/gross", 0, 1), Spoken("money", 7.5, 7.5, "d/dozen", 0, 1), False),
    ],
)
def test_what_contradicts(one: Spoken, other: Spoken, contradict: bool) -> None:
    """Ends that meet agree, in whatever unit; what is far apart is of two things."""
    assert differ(one, other) is differ(other, one) is contradict


def test_a_figure_far_from_its_like_stands_out() -> None:
    """Nineteen pence among wages of shillings; and nothing, where all say about the same."""
    wages = [Spoken("money", 240 + 6 * step, 240 + 6 * step, "d/week", 0, 1) for step in range(8)]
    usual = [_told(number, number, wage, "term:wage") for number, wage in enumerate(wages)]
    assert outliers(usual) == []
    odd = _told(8, 8, Spoken("money", 19, 19, "d/week", 0, 1), "term:wage")
    (found,) = outliers([*usual, odd])
    assert (found.account, found.of) == (odd, 9)
    assert 240 <= found.middle.figure.value <= 282


def test_where_all_but_one_are_the_same_the_one_stands_out() -> None:
    """A median deviation of nothing does not hide it."""
    same = [_told(number, number, _year(1951), "term:book") for number in range(9)]
    (found,) = outliers([*same, _told(9, 9, _year(1851), "term:book")])
    assert found.account.number == 9


def test_few_figures_have_no_middle() -> None:
    """Five are too few to say that one is far off."""
    few = [_told(number, number, _year(1950 + number), "term:book") for number in range(4)]
    assert outliers([*few, _told(9, 9, _year(1700), "term:book")]) == []
