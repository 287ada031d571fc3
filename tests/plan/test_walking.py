"""Ways through the house, against distances that can be worked out by hand."""

from __future__ import annotations

import math

import pytest

from archive.plan.walking import House, Link, Spot


@pytest.fixture
def house() -> House:
    """Two rooms joined by a door at (4, 0), and a room above reached by stairs or a lift."""
    spots = [
        Spot("a", "ground", ("west",), 0, 3),
        Spot("door", "ground", ("west", "east"), 4, 0),
        Spot("b", "ground", ("east",), 8, 3),
        Spot("foot", "ground", ("east",), 8, 0),
        Spot("head", "upper", ("loft",), 0, 0),
        Spot("lift below", "ground", ("east",), 4, 8),
        Spot("lift above", "upper", ("loft",), 6, 8),
        Spot("c", "upper", ("loft",), 3, 4),
        Spot("island", "upper", ("cut off",), 9, 9),
    ]
    links = [Link("foot", "head", 5.0, "stairs"), Link("lift below", "lift above", 25.0, "lift")]
    return House(spots, links)


def test_where_there_is_no_way_none_is_given(house: House) -> None:
    """A room without doors, and a name that is not known, have no way."""
    assert house.way("a", "island") == []
    assert house.way("a", "nowhere") == []


def test_without_stairs_and_lift_the_floors_are_apart(house: House) -> None:
    """Leaving out both kinds of link leaves no way up."""
    assert house.way("a", "c", without=frozenset({"stairs", "lift"})) == []


def test_a_way_turns_at_the_door(house: House) -> None:
    """Two right-angled triangles of 3, 4 and 5 m."""
    way = house.way("a", "b")
    assert [spot.name for spot in way] == ["a", "door", "b"]
    assert house.metres(way) == pytest.approx(10.0)


def test_a_step_free_way_takes_the_lift(house: House) -> None:
    """The stairs are shorter, and are left out when they may not be used."""
    assert "foot" in [spot.name for spot in house.way("a", "c")]
    way = house.way("a", "c", without=frozenset({"stairs"}))
    assert [spot.name for spot in way] == ["a", "door", "lift below", "lift above", "c"]
    assert house.metres(way) == pytest.approx(5 + 8 + 25 + math.hypot(3, 4))
