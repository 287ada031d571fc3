"""Uncertain dates, against the published forms of EDTF (ISO 8601-2:2019) and the library that reads them."""

from __future__ import annotations

import datetime as dt

import pytest
from edtf import parse_edtf
from hypothesis import given
from hypothesis import strategies as st

from archive.values.dates import parse_date


@pytest.mark.parametrize("text", ["", "soon", "195u", "31 May 1952", "1952-13", "1952-02-30", "1971/1948", "Y170000"])
def test_what_is_no_date_is_refused_with_examples(text: str) -> None:
    """Drafts before 2019 (`195u`), words, impossible days and backward intervals are told how to write it."""
    with pytest.raises(ValueError, match="Write an EDTF date, such as 1952"):
        parse_date(text)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        # EDTF specification, Library of Congress, level 0 and 1 examples.
        ("1985-04-12", "1985-04-12", "1985-04-12"),
        ("1985-04", "1985-04-01", "1985-04-30"),
        ("1985", "1985-01-01", "1985-12-31"),
        ("1964/2008", "1964-01-01", "2008-12-31"),
        ("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"),
        ("201X", "2010-01-01", "2019-12-31"),
        ("20XX", "2000-01-01", "2099-12-31"),
        ("2004-XX", "2004-01-01", "2004-12-31"),
        ("1984?", "1984-01-01", "1984-12-31"),
        # The library's own published example of strict bounds.
        ("1979-08~", "1979-08-01", "1979-08-31"),
        ("1985-04-12/..", "1985-04-12", "9999-12-31"),
        ("../1985-04-12", "0001-01-01", "1985-04-12"),
    ],
)
def test_the_first_and_last_day_that_the_words_allow(text: str, first: str, last: str) -> None:
    """Each form of the standard has its bounds; an open end reaches as far as dates go."""
    date = parse_date(text)
    assert (date.first.isoformat(), date.last.isoformat(), date.text) == (first, last, text)


@pytest.mark.parametrize(
    ("text", "decades"),
    [("1952", (1950,)), ("1948/1971", (1940, 1950, 1960, 1970)), ("1944/..", (1940,)), ("../1950", (1950,))],
)
def test_decades_touched(text: str, decades: tuple[int, ...]) -> None:
    """An open end does not claim every decade to come."""
    assert parse_date(text).decades == decades


@given(st.dates(dt.date(1000, 1, 1), dt.date(2999, 12, 31)), st.sampled_from(["%Y", "%Y-%m", "%Y-%m-%d"]))
def test_bounds_are_the_librarys_own(day: dt.date, form: str) -> None:
    """For every plain date our bounds are those of the EDTF library, and the day lies within."""
    text = day.strftime(form)
    date, parsed = parse_date(text), parse_edtf(text)
    assert date.first.timetuple()[:3] == parsed.lower_strict()[:3]
    assert date.last.timetuple()[:3] == parsed.upper_strict()[:3]
    assert date.first <= day <= date.last
