"""What a volunteer is told on the way."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.plan.directions import plain_name, side, told_metres
from archive.plan.parties import Needs, Party
from archive.plan.premises import Climb, Doorway, Outline, PassageEnd, Point, Premises
from archive.plan.ways import Ways
from tests.plan.houses import box, one_room, two_floors

GROUP = Party(10, 0.9)


def told(premises: Premises, start: str, finish: str, needs: Needs | None = None) -> tuple[str, ...]:
    """The sentences of a way."""
    leg = Ways(premises).leg(start, finish, needs or Needs(), GROUP)
    assert leg is not None
    return leg.directions


def mirrored(premises: Premises) -> Premises:
    """The house as in a mirror: left and right exchanged."""

    def point(at: Point) -> Point:
        return 12 - at[0], at[1]

    def outline(points: Outline) -> Outline:
        return tuple(map(point, points))

    return replace(
        premises,
        rooms=tuple(
            replace(room, outline=outline(room.outline), obstacles=tuple(map(outline, room.obstacles)))
            for room in premises.rooms
        ),
        doors=tuple(replace(door, at=point(door.at)) for door in premises.doors),
        stations=tuple(replace(station, at=point(station.at)) for station in premises.stations),
        passages=tuple(
            replace(passage, ends=tuple(PassageEnd(end.room, point(end.at)) for end in passage.ends))
            for passage in premises.passages
        ),
    )


def test_a_low_narrow_doorway_with_a_step_is_told() -> None:
    """Left and right are those of one who has the anvil's wall at the back; what to mind is said at its door."""
    assert told(two_floors(), "a", "b") == (
        "With the anvil at your back, walk straight ahead for 4 metres. Go through the door to the east shop. "
        "Mind the step, 12 cm. Mind your head: the doorway is 1.7 m high. It is narrow, 70 cm: go one by one.",
        "Walk straight ahead for 4 metres to the bench.",
    )


def test_stairs_and_lift_are_told_with_their_steps_and_loads() -> None:
    """Which way, how many steps, and how often the lift must run for ten people."""
    assert told(two_floors(), "b", "c")[0] == (
        "With the bench at your back, take the main stair up, 20 steps: it is on your right, 2 metres away."
    )
    assert told(two_floors(), "c", "b", Needs(step_free=True)) == (
        "Walk 5 metres. Take the hoist lift down to the ground floor, in 3 loads.",
        "Walk 2 metres to the bench.",
    )


def test_a_ramp_and_a_low_stair_are_told() -> None:
    """How steep the ramp is and where it leads; how low the stair gets."""
    house = two_floors()
    ramp = Climb("ramp", "ramp", "Gate ramp", (PassageEnd("west", (5, 4)), PassageEnd("east", (7, 4))), 1)
    ramp = replace(ramp, rise_mm=125, length_m=1.5)
    stair = replace(house.passages[0], headroom_m=1.85)
    ramped = replace(house, doors=(), passages=(ramp, stair))
    first, second, _last = told(ramped, "a", "c")
    assert first.endswith("Take the gate ramp to the east shop, about 1 in 12.")
    assert second.endswith("20 steps. Mind your head: there are 1.85 m above you at the lowest.")


def test_a_sloping_doorway_is_told() -> None:
    """As one in so many."""
    house = two_floors()
    doors = (Doorway("far", ("west", "east"), (6, 1), 1.2, gradient_percent=5),)
    assert "The floor slopes there, about 1 in 20." in told(replace(house, doors=doors), "a", "b")[0]


def test_round_what_stands_in_the_way_one_turns_first() -> None:
    """The first turn is told, with the whole distance."""
    machine = box(4, 1, 8, 6)
    house = one_room(box(0, 0, 12, 8), machine, a=(2, 4), b=(10.1, 5))
    (sentence,) = told(house, "b", "a")
    assert sentence == (
        "With the station b at your back, turn right and walk 10 metres, round what stands there, to the station a."
    )


def test_in_a_mirror_left_and_right_change_places() -> None:
    """And nothing else does."""
    house = two_floors()
    changed = {"left": "right", "right": "left"}
    for start, finish in [("a", "b"), ("b", "a"), ("b", "c"), ("c", "a")]:
        for sentence, other in zip(told(house, start, finish), told(mirrored(house), start, finish), strict=True):
            words = [changed.get(word, word) for word in sentence.replace(",", " ,").replace(".", " .").split(" ")]
            assert " ".join(words).replace(" ,", ",").replace(" .", ".") == other


@pytest.mark.parametrize(
    ("toward", "where"),
    [((0, -1), "straight ahead"), ((1, 0), "on your right"), ((-1, 0), "on your left"), ((0, 1), "behind you")],
)
def test_the_four_sides_of_one_who_faces_up_the_drawing(toward: Point, where: str) -> None:
    """A drawing's y grows downwards."""
    assert side((0, -1), toward) == where


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Main stair", "the main stair"),
        ("Drop stamp No. 3", "the drop stamp No. 3"),
        ("Sallow Navigation room", "the Sallow Navigation room"),
        ("WC", "the WC"),
        ("Die sinker's bench", "the die sinker's bench"),
    ],
)
def test_names_within_a_sentence(name: str, plain: str) -> None:
    """A name of plain words begins small; one with more capitals is left as it is."""
    assert plain_name(name) == plain


@given(st.floats(0, 500))
def test_distances_are_told_roundly(metres: float) -> None:
    """Never more than half a metre off below twenty, nor two and a half beyond; at least one metre."""
    words = told_metres(metres).split()
    assert abs(int(words[0]) - max(metres, 0.5)) <= (0.5 if metres < 20 else 2.5)
    assert (words[1] == "metre") == (words[0] == "1")
