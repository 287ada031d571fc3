"""Ways through the house, against distances that can be worked out by hand."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

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


def test_a_step_free_way_goes_round_a_step_in_a_doorway() -> None:
    """A doorway with a step is passed only when steps may be used."""
    spots = [
        Spot("a", "ground", ("west",), 0, 0),
        Spot("step", "ground", ("west", "east"), 4, 0, stepped=True),
        Spot("level", "ground", ("west", "east"), 4, 3),
        Spot("b", "ground", ("east",), 8, 0),
    ]
    house = House(spots, [])
    assert [spot.name for spot in house.way("a", "b")] == ["a", "step", "b"]
    assert [spot.name for spot in house.way("a", "b", without=frozenset({"step"}))] == ["a", "level", "b"]


def test_a_way_goes_round_a_corner_that_juts_into_the_room() -> None:
    """In a room like an L the two ends do not see each other; the line turns by the inner corner and stays inside."""
    outline = [(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)]
    spots = [Spot("a", "ground", ("ell",), 9, 2), Spot("b", "ground", ("ell",), 2, 9)]
    way = House(spots, [], {"ell": outline}).way("a", "b")
    assert len(way) == 3
    assert math.dist((way[1].x_m, way[1].y_m), (4, 4)) == pytest.approx(0.4 * math.sqrt(2))
    room = Polygon(outline)
    assert all(room.covers(LineString([(p.x_m, p.y_m), (q.x_m, q.y_m)])) for p, q in itertools.pairwise(way))


@given(st.lists(st.tuples(st.floats(0, 10), st.floats(0, 10)), min_size=2, max_size=2, unique=True))
def test_no_way_leaves_its_room(ends: list[tuple[float, float]]) -> None:
    """Between any two spots of a U-shaped room there is a way, and no leg of it goes through a wall."""
    room = Polygon([(0, 0), (10, 0), (10, 10), (7, 10), (7, 3), (3, 3), (3, 10), (0, 10)])
    assume(all(room.covers(Point(end)) for end in ends))
    spots = [Spot(name, "ground", ("u",), *end) for name, end in zip("ab", ends, strict=True)]
    way = House(spots, [], {"u": list(room.exterior.coords)[:-1]}).way("a", "b")
    assert way
    walls = room.buffer(0.301, join_style="mitre")
    assert all(walls.covers(LineString([(p.x_m, p.y_m), (q.x_m, q.y_m)])) for p, q in itertools.pairwise(way))
