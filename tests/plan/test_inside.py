"""Shortest ways inside a room, against closed forms and against a fine grid."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from archive.plan import premises
from archive.plan.inside import Mark, Opening, free_floor, inward, stretches
from archive.plan.premises import Outline
from tests.plan.houses import box, grid_metres, lines, on_a_grid

ELL: Outline = ((0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10))
PILLAR = box(4, 4, 6, 6)
SPACING = 0.25


def metres(
    outline: Outline, start: premises.Point, finish: premises.Point, *obstacles: Outline, half_m: float = 0.0
) -> float:
    """How far it is between two spots; infinite without a way."""
    marks = (Mark("start", start, 0.5), Mark("finish", finish, 0.5))
    found = stretches(outline, obstacles, (), marks, half_m)
    return found["start", "finish"].metres if found else math.inf


def test_a_wall_of_machines_leaves_no_way() -> None:
    """From one part of the floor to another that is cut off there is none."""
    assert metres(box(0, 0, 10, 10), (1, 5), (9, 5), box(4, 0, 6, 10)) == math.inf


def test_a_spot_too_deep_inside_a_machine_has_no_way() -> None:
    """Beyond the distance that its mark allows one does not stand instead."""
    assert metres(box(0, 0, 10, 10), (1, 5), (7, 5), box(5, 3, 9, 7)) == math.inf


@pytest.mark.parametrize("half_m", [0.0, 0.25, 0.375])
def test_a_straight_room_is_walked_straight(half_m: float) -> None:
    """The distance is that of the two spots."""
    assert metres(box(0, 0, 10, 4), (1, 1), (9, 3), half_m=half_m) == pytest.approx(math.hypot(8, 2))


@pytest.mark.parametrize("half_m", [0.0, 0.25, 0.375])
def test_an_l_shape_is_walked_by_its_inner_corner(half_m: float) -> None:
    """Two straight lines that meet at the corner, or off it by half the body's breadth on both sides."""
    corner = (4 - half_m, 4 - half_m)
    closed_form = math.dist((9, 2), corner) + math.dist(corner, (2, 9))
    assert metres(ELL, (9, 2), (2, 9), half_m=half_m) == pytest.approx(closed_form)


@pytest.mark.parametrize("half_m", [0.0, 0.25, 0.375])
def test_a_square_pillar_is_walked_round(half_m: float) -> None:
    """Along one side of the pillar, and straight to its corners."""
    near, far = (4 - half_m, 4 - half_m), (6 + half_m, 4 - half_m)
    closed_form = math.dist((1, 5), near) + math.dist(near, far) + math.dist(far, (9, 5))
    assert metres(box(0, 0, 10, 10), (1, 5), (9, 5), PILLAR, half_m=half_m) == pytest.approx(closed_form)


def test_a_jutting_wall_and_a_machine_between_which_one_passes() -> None:
    """A gap of 60 cm lets a person through and not a wheelchair; one of 80 cm both."""
    room = box(0, 0, 10, 10)

    def through(gap: float, half_m: float) -> bool:
        walls = box(4, 0, 6, 5 - gap / 2), box(4, 5 + gap / 2, 6, 10)
        return metres(room, (1, 5), (9, 5), *walls, half_m=half_m) < math.inf

    assert [through(gap, half_m) for gap in (0.6, 0.8) for half_m in (0.25, 0.375)] == [True, False, True, True]


def test_a_mark_on_a_machine_is_told_from_beside_it() -> None:
    """One stands at the nearest free spot: here the edge, a body's half away from it."""
    found = stretches(box(0, 0, 10, 10), (box(4, 0, 6, 3),), (), (Mark("a", (5, 2.8), 2), Mark("b", (5, 9), 2)), 0.25)
    assert found["a", "b"].points == ((5, 3.25), (5, 9))
    assert found["a", "b"].metres == pytest.approx(5.75)


def test_one_does_not_stand_in_a_pocket_behind_a_machine() -> None:
    """The nearest free spot that cannot be reached from the door is no place to stand."""
    room, wall = box(0, 0, 10, 10), box(4, 0, 4.4, 10)
    marks = (Mark("door", (0, 5), 0.5), Mark("station", (4.1, 5), 2, joins=False))
    found = stretches(room, (wall, box(4.6, 0, 5, 10)), (Opening((0, 5), 1),), marks, 0.05)
    assert found["door", "station"].points[-1] == pytest.approx((3.95, 5))


@pytest.mark.parametrize("off", [-0.2, 0.0, 0.2])
@pytest.mark.parametrize("half_m", [0.0, 0.25, 0.375])
def test_a_doorway_is_reached_at_its_middle(off: float, half_m: float) -> None:
    """Whether it is drawn on the room's edge, or a little inside or outside of it, as walls have a width."""
    marks = (Mark("door", (10 + off, 2), 0.4), Mark("a", (3, 2), 1))
    found = stretches(box(0, 0, 10, 4), (), (Opening((10 + off, 2), 0.8),), marks, half_m)
    assert found["a", "door"].points[-1] == (10 + off, 2)
    assert found["a", "door"].metres == pytest.approx(7 + off)


@pytest.mark.parametrize(
    ("at", "direction"), [((10, 2), (-1, 0)), ((0, 2), (1, 0)), ((5, 0), (0, 1)), ((5, 4), (0, -1))]
)
def test_a_doorway_leads_straight_into_its_room(at: premises.Point, direction: premises.Point) -> None:
    """Whichever wall it is in, and whichever way round the room is drawn."""
    room = box(0, 0, 10, 4)
    assert inward(room, at) == pytest.approx(direction)
    assert inward(room[::-1], at) == pytest.approx(direction)


@st.composite
def furnished(draw: st.DrawFn) -> tuple[Outline, list[Outline]]:
    """A room, straight or like an L, with up to five machines, some of them askew."""
    outline = draw(st.sampled_from([box(0, 0, 8, 8), ELL]))
    whole = st.integers(0, 7)
    obstacles: list[Outline] = []
    for _ in range(draw(st.integers(0, 5))):
        x, y, wide, deep = draw(whole), draw(whole), draw(st.integers(1, 3)), draw(st.integers(1, 3))
        shapes = [box(x, y, x + wide, y + deep), ((x, y), (x + wide, y + 1), (x, y + deep))]
        obstacles.append(draw(st.sampled_from(shapes)))
    return outline, obstacles


SPOTS = st.tuples(st.integers(0, 16), st.integers(0, 16)).map(lambda spot: (spot[0] / 2, spot[1] / 2))


@settings(max_examples=40, deadline=None)
@given(furnished(), SPOTS, SPOTS)
def test_the_shortest_way_against_a_fine_grid(
    room: tuple[Outline, list[Outline]], start: premises.Point, finish: premises.Point
) -> None:
    """No way on the grid is shorter, the shortest on it is within 8 %, and the way found can really be walked.

    A way on the grid is a way over the free floor, so the true shortest is no longer. What was found lies on the free
    floor, so it is no shorter than the true shortest. The corners lie on the grid.
    """
    outline, obstacles = room
    whole = free_floor(outline, obstacles, (), 0.0)
    parts = shapely.get_parts(whole)
    part = next((part for part in parts if part.covers(Point(start)) and part.covers(Point(finish))), None)
    assume(part is not None and math.dist(start, finish) >= 1)
    assert part is not None
    assume(sum(other.covers(Point(spot)) for other in parts for spot in (start, finish)) == 2)
    marks = (Mark("start", start, 0), Mark("finish", finish, 0))
    way = stretches(outline, tuple(obstacles), (), marks, 0.0)["start", "finish"]
    on_grid = grid_metres(on_a_grid(part, SPACING), start, finish)
    assert all(part.buffer(1e-5).covers(line) for line in lines(way.points))
    assert way.metres == pytest.approx(LineString(way.points).length)
    assert way.metres <= on_grid + 1e-6
    assert on_grid <= way.metres * 1.08 + 1e-6


@settings(max_examples=40, deadline=None)
@given(furnished(), SPOTS, SPOTS, st.sampled_from([0.25, 0.375]))
def test_a_body_keeps_off_walls_and_machines(
    room: tuple[Outline, list[Outline]], start: premises.Point, finish: premises.Point, half_m: float
) -> None:
    """Along the whole way its middle is half its breadth away from everything, and no way is shorter than a point's."""
    outline, obstacles = room
    marks = (Mark("start", start, 1), Mark("finish", finish, 1))
    found = stretches(outline, tuple(obstacles), (), marks, half_m)
    assume(("start", "finish") in found)
    way = found["start", "finish"]
    line = LineString(way.points)
    things = [Polygon(obstacle) for obstacle in obstacles]
    assert all(line.distance(thing) >= half_m - 1e-5 for thing in [*things, Polygon(outline).exterior])
    assert way.metres >= math.dist(way.points[0], way.points[-1]) - 1e-6
