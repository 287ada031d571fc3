"""A log handed in: what is wrong with it is told with its place, what is right is kept once."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.store.session import Store
from archive.tours.given.edits import take_in
from archive.tours.given.handed import TAKEN_BACK, read_log
from archive.tours.given.planned import from_data
from archive.tours.given.queries import outing_by_key
from archive.tours.given.timing import real_tour
from tests.tours.given.logs import KEY, entry, log, whole_walk


@pytest.mark.parametrize(
    ("changed", "where"),
    [
        ({"key": "short"}, "outing.key"),
        ({"tour": "../x"}, "outing.tour"),
        ({"given_on": "yesterday"}, "outing.given_on"),
        ({"group_size": 0}, "outing.group_size"),
        ({"group_size": True}, "outing.group_size"),
        ({"planned": "none"}, "outing.planned"),
        ({"note": "x" * 3000}, "outing.note"),
        ({"planned": [{"station": "st-door", "walk": -1, "tellings": []}]}, "outing.planned[0].walk"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(changed: dict[str, Any], where: str) -> None:
    """Each fault names the place in the log and what is allowed there."""
    with pytest.raises(Unacceptable) as refused:
        read_log(log(**changed))
    assert where in {fault.where for fault in refused.value.faults}
    assert all(fault.allowed for fault in refused.value.faults)


@pytest.mark.parametrize(
    "line",
    [
        entry("s", 0, "danced"),
        entry("s", 0, "note", text="x" * 2001),
        entry("s", 0, "note", station="st door"),
        {**entry("s", 0, "note"), "at": "2026-11-25T10:30:00"},
        {**entry("s", 0, "note"), "key": "f" * 24 + ".s.0"},
        "no",
    ],
)
def test_a_wrong_line_is_told(line: Any) -> None:
    """A kind that is none, words without end, a moment without its zone, a line of another outing."""
    with pytest.raises(Unacceptable) as refused:
        read_log(log(line))
    assert all(fault.where.startswith("entries[0]") for fault in refused.value.faults)


@given(
    st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(max_size=8),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.sampled_from(["outing", "entries", "key", "planned", "tellings"]), inner, max_size=4)
        ),
    )
)
def test_nothing_that_is_sent_breaks_the_reader(data: Any) -> None:
    """Whatever JSON comes, it is refused in words."""
    with pytest.raises(Unacceptable):
        read_log(data)


def test_a_log_is_kept_once(home: Store) -> None:
    """Handed in twice, in parts and over each other, it is one outing with each line once."""
    every = whole_walk()
    parts = [{**every, "entries": every["entries"][:3]}, every, {**every, "entries": every["entries"][2:]}, every]
    for part in parts:
        with home.changing("guide") as session:
            take_in(session, read_log(part), None)
    with home.session() as session:
        kept = outing_by_key(session, KEY)
        assert kept is not None
        assert kept.tour is not None
        assert sorted(line.key for line in kept.entries) == sorted(line["key"] for line in every["entries"])
        real = real_tour(from_data(kept.planned), kept.entries)
    assert real.minutes == pytest.approx(10.1)
    assert [stop.minutes for stop in real.stops] == [2.0, 4.5, 1.5]
    assert [stop.walked for stop in real.stops] == pytest.approx([0.0, 0.6, 1.5])


@pytest.mark.parametrize("back_first", [True, False])
def test_what_was_taken_back_stays_so(home: Store, back_first: bool) -> None:
    """In whatever order the two hand-ins come; the words are gone."""
    said = log(entry("n", 1, "note", text="A slip"))
    back = log({**entry("n", 1, "note"), "taken_back": True})
    for part in (back, said) if back_first else (said, back):
        with home.changing("guide") as session:
            take_in(session, read_log(part), None)
    with home.session() as session:
        kept = outing_by_key(session, KEY)
        assert kept is not None
        assert [(line.kind, line.text) for line in kept.entries] == [(TAKEN_BACK, "")]


def test_a_tour_that_is_gone_loses_no_log(home: Store) -> None:
    """The outing is kept without its tour."""
    with home.changing("guide") as session:
        kept = take_in(session, read_log(log(tour="t-gone")), None)
        assert kept.tour_id is None
