"""Whether a figure written in words follows from a result."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.reckoners.following import answer_told, strays
from archive.reckoners.registry import reckon

ROLL = ("metal/cold-reduction", {"before": "1.43 mm", "after": "0.90 mm", "form": "strip"})
ANNEAL = ("metal/anneal-window", {"alloy": "C22000"})
SHIFT = ("output/shift-output", {"pieces": "28000", "hours": "10 h"})
WAGE = ("output/piece-wages", {"pieces": "16000", "rate": "1d", "per": "gross", "paid_for": "whole"})
GROSS = ("output/gross", {"pieces": "28000"})


@pytest.mark.parametrize(
    ("asked", "figure", "lost"),
    [
        (ROLL, "38 % thinner", ("38",)),
        (ROLL, "37.2 % thinner and 36.9 % more", ("36.9",)),
        (ROLL, "37.5 kg", ("37.5",)),
        (ROLL, "half soft", ("half soft",)),
        (ANNEAL, "427 to 789 °C", ("789",)),
        (ANNEAL, "427 to 788 °F", ("427", "788")),
        (SHIFT, "about 50 a minute", ("50",)),
        (SHIFT, "47 a second", ("47",)),
        (WAGE, "9s 4d", ("9s 4d",)),
        (WAGE, "9s 3½d", ("9s 3½d",)),
        (GROSS, "1d", ("1",)),
        (GROSS, "", ("",)),
    ],
)
def test_what_strays_is_named(asked: tuple[str, dict[str, str]], figure: str, lost: tuple[str, ...]) -> None:
    """A number beyond its printed digits, in another unit, or words that the answer does not say."""
    assert strays(figure, reckon(*asked)) == lost


@pytest.mark.parametrize(
    ("asked", "figure"),
    [
        (ROLL, "37 % thinner, four gauge numbers: hard"),
        (ROLL, "37.1 %"),
        (ROLL, "from 1.43 mm to 0.90 mm is 37 % thinner"),
        (ROLL, "hard"),
        (ANNEAL, "427 to 788 °C"),
        (ANNEAL, "801 to 1450 °F"),
        (SHIFT, "about 47 a minute"),
        (SHIFT, "46.7 a minute"),
        (WAGE, "9s 3d, for 111 lots"),
        (WAGE, "£0.463 today"),
        (GROSS, "194 gross and 64"),
        (GROSS, "28,000 are 194 gross and 64"),
    ],
)
def test_what_follows(asked: tuple[str, dict[str, str]], figure: str) -> None:
    """Printed digits, other units of the family, what was given said again, sums of money, and words."""
    assert strays(figure, reckon(*asked)) == ()


def test_a_range_holds_all_that_is_in_it() -> None:
    """Where the inputs are only about known, any figure within the answer's range follows, and none beyond."""
    result = reckon("output/shift-output", {"pieces": "about 28000", "hours": "10 h"})
    value = result.value("rate")
    assert strays("45 a minute", result) == ()
    assert strays(f"{value.high + 1:.0f} a minute", result) != ()


def test_about_goes_no_farther_than_a_twentieth() -> None:
    """After "about" a round hundred may be off by its roundness, but never by more than five in the hundred."""
    result = reckon(*ANNEAL)
    assert strays("about 790 °C", result) == ()
    assert strays("790 °C", result) == ("790",)
    assert strays("about 400 °C", result) == ("400",)


@settings(deadline=None)
@given(st.integers(1, 10**7))
def test_the_answer_follows_from_itself(pieces: int) -> None:
    """Each figure, told as the answer tells it, follows."""
    result = reckon("output/gross", {"pieces": pieces})
    for value in result.values:
        assert strays(answer_told(result), result) == (), value.output.title
