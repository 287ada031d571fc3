"""Figures in sentences, in digits and in words: what is none, what is one, and when two are the same."""

from __future__ import annotations

import pytest

from archive.tours.telling.figures import agree, claims, figures_in


@pytest.mark.parametrize(
    "text",
    [
        "Two doors and three lads.",
        "One of them is still here, and another was sold.",
        "These are figures of EH40 and of ASTM B36.",
        "An hour later she came back.",
        "",
    ],
)
def test_what_can_be_seen_is_no_figure(text: str) -> None:
    """Small counts of plain things, names with digits, and a lone hour."""
    assert figures_in(text) == ()


@pytest.mark.parametrize("text", ["Was it forty or fifty?", "Stand there for two minutes.", "Now count to 200."])
def test_questions_and_biddings_claim_nothing(text: str) -> None:
    """What is asked, or what listeners are to do, needs no evidence."""
    assert claims(text) == ()


@pytest.mark.parametrize(
    ("text", "value", "kind", "unit"),
    [
        ("28,000 small blanks", 28000, "count", ""),
        ("twenty-eight thousand small blanks", 28000, "count", ""),
        ("eleven hundred dies", 1100, "count", ""),
        ("a hundred and forty-four", 144, "count", ""),
        ("1951", 1951, "year", ""),
        ("nineteen fifty-one", 1951, "year", ""),
        ("fourteen kilonewtons", 14, "quantity", "kN"),
        ("0.9 mm thick", 0.9, "quantity", "mm"),
        ("one and a half grams", 1.5, "quantity", "g"),
        ("two point five metres", 2.5, "quantity", "m"),
        ("two thousandths of an inch", 0.002, "quantity", "in"),
        ("thirty-seven per cent", 37, "quantity", "%"),
        ("nine shillings and threepence", 111, "money", ""),
        ("9s 3d", 111, "money", ""),
        ("seven and sixpence", 90, "money", ""),
        ("half a crown", 30, "money", ""),
        ("a penny", 1, "money", ""),
        ("seven years", 7, "quantity", "year"),
    ],
)
def test_a_figure_is_read_in_digits_and_in_words(text: str, value: float, kind: str, unit: str) -> None:
    """Value, kind, and the symbol of its unit."""
    (figure,) = figures_in(text)
    assert (round(figure.value, 6), figure.kind, figure.unit) == (value, kind, unit)


def test_a_figure_is_told_back_as_it_stands() -> None:
    """With its hyphen, and without the full stop after it."""
    assert [one.written for one in figures_in("That took forty-seven minutes. Then in the 1950s, 12 kg.")] == [
        "forty-seven minutes",
        "1950s",
        "12 kg",
    ]


def test_both_ends_of_a_range_have_its_unit() -> None:
    """ "427 to 788 °C" are two temperatures."""
    assert [(one.value, one.unit) for one in figures_in("between 427 and 788 °C")] == [(427, "°C"), (788, "°C")]


@pytest.mark.parametrize(
    ("claim", "known", "same"),
    [
        ("14 kN", "15 kN", False),
        ("14 kN", "14 J", False),
        ("1951", "1952", False),
        ("in 1961", "in the 1950s", False),
        ("4s 6d", "4s 7d", False),
        ("47 strokes a minute", "52 strokes a minute", False),
        ("sixteen thousand blanks", "16,000", True),
        ("14 kN", "14,000 N", True),
        ("eighteen millimetres", "18 mm", True),
        ("in 1955", "in the 1950s", True),
        ("four and sixpence", "4/6", True),
        ("about 300 joules", "307 J", True),
        ("nearly six metres", "5.8 m", True),
        ("a hundred and twelve", "check 112", True),
    ],
)
def test_figures_agree_by_value_and_unit(claim: str, known: str, same: bool) -> None:
    """Units of one family are turned into each other; "about" leaves a twentieth."""
    assert agree(figures_in(claim)[0], figures_in(known)[0]) is same
