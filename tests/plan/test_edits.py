"""Places put out of use, and back."""

from __future__ import annotations

import datetime as dt

import pytest

from archive.errors import NotFound, Unacceptable
from archive.plan.edits import back_in_use, put_out_of_use
from archive.plan.places import places
from archive.plan.queries import out_of_use, out_of_use_on
from archive.plan.ways import Needs, Party, ways_of
from archive.store.session import Store

DAY = dt.date(2026, 11, 25)
NEXT, LATER = DAY + dt.timedelta(days=1), DAY + dt.timedelta(days=9)
WHY = "The lock is being mended."


@pytest.mark.parametrize(
    ("kind", "place", "until", "why", "says"),
    [
        ("", "", None, WHY, "No place is chosen"),
        ("roof", "hall", None, WHY, "'roof' is no kind of place. It may be door, passage, room, station"),
        ("door", "hall", None, WHY, "The plan has no door 'hall'"),
        ("room", "hall", None, " ", "The reason is missing"),
        ("room", "hall", None, "x" * 301, "The reason has 301 letters"),
        ("room", "hall", DAY - dt.timedelta(days=1), WHY, "before it begins"),
    ],
)
def test_what_cannot_be_is_refused(
    home: Store, kind: str, place: str, until: dt.date | None, why: str, says: str
) -> None:
    """With what was given and what to do; nothing is stored."""
    with home.changing("tests") as session, pytest.raises(Unacceptable, match=says):
        put_out_of_use(session, kind, place, DAY, until, why)
    with home.session() as session:
        assert out_of_use(session) == []


def test_a_place_is_out_of_use_once_at_a_time(home: Store) -> None:
    """Days that overlap are refused; days before and after are taken."""
    with home.changing("tests") as session:
        put_out_of_use(session, "door", "d-shop", NEXT, LATER, WHY)
        for first, last in [(DAY, NEXT), (DAY, None), (LATER, LATER)]:
            with pytest.raises(Unacceptable, match="out of use already from 2026-11-26 until 2026-12-04"):
                put_out_of_use(session, "door", "d-shop", first, last, WHY)
        put_out_of_use(session, "door", "d-shop", DAY, DAY, WHY)
        put_out_of_use(session, "door", "d-shop", LATER + dt.timedelta(days=1), None, WHY)


def test_it_lasts_from_its_first_day_to_its_last(home: Store) -> None:
    """Both included; without a last day it goes on."""
    with home.changing("tests") as session:
        put_out_of_use(session, "door", "d-shop", NEXT, LATER, WHY)
        put_out_of_use(session, "passage", "lift", NEXT, None, WHY)
    days = [DAY, NEXT, LATER, LATER + dt.timedelta(days=1)]
    with home.session() as session:
        found = [{row.place for row in out_of_use_on(session, day)} for day in days]
    assert found == [set(), {"d-shop", "lift"}, {"d-shop", "lift"}, {"lift"}]


def test_a_place_that_is_not_there_cannot_come_back(home: Store) -> None:
    """An entry that nobody made is not found."""
    with home.changing("tests") as session, pytest.raises(NotFound):
        back_in_use(session, 77, DAY)


def test_back_in_use_ends_it_the_day_before(home: Store) -> None:
    """What began before stays written down; what begins on that day or later is taken away; what is over is left."""
    with home.changing("tests") as session:
        begun = put_out_of_use(session, "room", "shop", DAY, None, WHY)
        later = put_out_of_use(session, "room", "loft", NEXT, None, WHY)
        back_in_use(session, begun.id, NEXT)
        back_in_use(session, later.id, NEXT)
        back_in_use(session, begun.id, LATER)
    with home.session() as session:
        (row,) = out_of_use(session)
        assert (row.place, row.from_day, row.until_day) == ("shop", DAY, DAY)


def test_ways_follow_at_once(home: Store) -> None:
    """The one door closed, there is no way on that day; back in use, there is; and on another day there always was."""
    party, needs = Party(1, 0.9), Needs()

    def minutes(day: dt.date) -> float:
        with home.session() as session:
            return ways_of(session, day).minutes(["st-door", "st-press"], needs, party).get(("st-door", "st-press"), 0)

    before = minutes(DAY)
    with home.changing("tests") as session:
        key = put_out_of_use(session, "door", "d-shop", DAY, DAY, WHY).id
    assert before > 0
    assert (minutes(DAY), minutes(NEXT)) == (0, before)
    with home.changing("tests") as session:
        back_in_use(session, key, DAY)
    assert minutes(DAY) == before


def test_every_place_has_a_name_of_its_own(demo_home: Store) -> None:
    """Each kind's names differ, so that one can be chosen by its name; doors are named by the rooms that they join."""
    with demo_home.session() as session:
        known = places(session)
    assert len({(place.kind, place.name) for place in known}) == len(known) == len({place.key for place in known})
    assert "Cart passage to Press shop" in {place.name for place in known}
