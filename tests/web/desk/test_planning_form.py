"""The form of wishes: nothing typed is lost, and what it asks is what the planner reads."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from werkzeug.datastructures import MultiDict

from archive.errors import Unacceptable
from archive.tours.model import AUDIENCES, DEPTHS, THEMES
from archive.tours.wishes import Wishes, read_wishes
from archive.web.desk.planning.filled import filled_form, filled_with, wishes_asked

DAY = dt.date(2026, 11, 25)
CLOCKS = st.integers(0, 24 * 60 - 1)
REFS = st.lists(st.sampled_from(["st-gate", "st-rolls", "st-clip"]), unique=True).map(tuple)
WINDOWS = st.lists(st.tuples(CLOCKS, CLOCKS).filter(lambda ends: ends[0] < ends[1]), max_size=3).map(tuple)
WISHES = st.builds(
    Wishes,
    date=st.dates(dt.date(2000, 1, 1), dt.date(2100, 1, 1)),
    minutes=st.integers(10, 900).map(lambda halves: halves / 2),
    group_size=st.integers(1, 500),
    starts_at=CLOCKS,
    start=st.sampled_from([None, "st-gate"]),
    finish=st.sampled_from([None, "st-cards"]),
    audience=st.sampled_from(["", *AUDIENCES]),
    depth=st.sampled_from([None, *DEPTHS]),
    themes=st.dictionaries(st.sampled_from(THEMES), st.integers(1, 3)),
    must_stations=REFS,
    must_tellings=REFS,
    step_free=st.booleans(),
    captions=st.booleans(),
    seats_every=st.sampled_from([None, 15, 22.5]),
    voice_every=st.sampled_from([None, 12]),
    follow_the_metal=st.booleans(),
    demonstrations=st.booleans(),
    demonstration_windows=WINDOWS,
    closed_rooms=REFS,
    guide=st.sampled_from(["", "jory"]),
)


def faults_in(form: dict[str, str]) -> set[str]:
    """The fields at fault in a form that is otherwise as it opens."""
    usual = {name: values for name, values in filled_with(Wishes(date=DAY)).values.items() if values}
    filled = filled_form(MultiDict({**usual, **{name: (text,) for name, text in form.items()}}))
    with pytest.raises(Unacceptable) as refused:
        read_wishes(wishes_asked(filled))
    return {fault.where for fault in refused.value.faults}


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("date", ""),
        ("date", "tomorrow"),
        ("minutes", "three"),
        ("minutes", "0"),
        ("minutes", "nan"),
        ("group_size", "-4"),
        ("starts_at", "25:00"),
        ("audience", "dogs"),
        ("depth", "deep"),
        ("seats_every", "often"),
        ("demonstration_windows", "in the morning"),
        ("demonstration_windows", "11:30 to 11:00"),
    ],
)
def test_what_cannot_be_meant_is_told_at_its_field(field: str, text: str) -> None:
    """The planner's own reading finds it, under the name that the form's field has."""
    assert field in faults_in({field: text})


@pytest.mark.parametrize("weight", ["4", "-1", "x", "999999999999"])
def test_a_weight_that_is_none_is_told_at_the_themes(weight: str) -> None:
    """From 0 to 3."""
    assert faults_in({"theme-metal": weight}) == {"themes"}


def test_a_reference_that_cannot_be_one_is_told() -> None:
    """Even where the form offers no such field."""
    assert faults_in({"station-../etc": "must"}) == {"must_stations"}


def test_all_faults_are_told_at_once() -> None:
    """Not one after the other."""
    assert {"date", "minutes", "group_size"} <= faults_in({"date": "?", "minutes": "?", "group_size": "?"})


def test_nothing_typed_is_lost() -> None:
    """What stands in the form stands in it again, faults or not."""
    filled = filled_form(
        MultiDict([("minutes", " three "), ("closed_rooms", "press-shop"), ("closed_rooms", "landing")])
    )
    assert filled.one("minutes") == "three"
    assert filled.has("closed_rooms", "press-shop")
    assert filled.has("closed_rooms", "landing")


@given(WISHES)
def test_a_form_filled_with_wishes_asks_for_the_same_wishes(wishes: Wishes) -> None:
    """There and back again, for any wishes."""
    assert read_wishes(wishes_asked(filled_with(wishes))) == wishes
