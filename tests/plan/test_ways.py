"""Ways through the house for parties with needs, and what is out of use, against figures worked out by hand."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.plan import pace
from archive.plan.parties import Needs, Party, carries, lets_through
from archive.plan.premises import Climb, Doorway, PassageEnd, Premises
from archive.plan.ways import Spot, Ways, ways_of
from archive.store.session import Store
from archive.terms.model import Term
from tests.plan.houses import box, one_room, two_floors

ONE, GROUP, ANY = Party(1, 0.9), Party(10, 0.9), Needs()
TODAY = dt.date(2026, 11, 25)
ENDS = (PassageEnd("a", (0, 0)), PassageEnd("b", (3, 4)))


def closing(*places: tuple[str, str]) -> Ways:
    """The small house with places out of use."""
    return Ways(replace(two_floors(), closed=frozenset(places)))


def walked(ways: Ways, start: str, finish: str, needs: Needs = ANY, party: Party = ONE) -> float:
    """How far a way is; infinite without one."""
    leg = ways.leg(start, finish, needs, party)
    return leg.metres if leg else math.inf


def test_to_what_is_not_there_no_way_leads() -> None:
    """Neither to a station that the plan has not, nor from it."""
    ways = Ways(two_floors())
    assert ways.leg("a", "nowhere", ANY, ONE) is None
    assert ways.leg("nowhere", "a", ANY, ONE) is None
    assert ways.minutes(["nowhere", "a"], ANY, ONE) == {}
    assert ways.why_not("a", "nowhere", ANY, ONE) == "the plan has no way there"


@pytest.mark.parametrize(
    ("needs", "why"),
    [
        (Needs(step_free=True, no_lift=True), "it needs stairs, a step or a steep slope"),
        (Needs(quiet=True), "it leads into a noisy room"),
        (Needs(narrow=True), ""),
    ],
)
def test_why_there_is_no_way_is_told(needs: Needs, why: str) -> None:
    """By the need that stands in the way."""
    ways = Ways(replace(two_floors(), noisy=frozenset({"loft"})))
    assert ways.why_not("a", "c", needs, ONE) == why


@pytest.mark.parametrize(
    "place",
    [
        *[("room", "loft"), ("station", "c"), ("station", "a"), ("room", "west"), ("room", "east")],
    ],
)
def test_a_place_out_of_use_is_not_gone_to(place: tuple[str, str]) -> None:
    """A room is neither gone to nor through, a station neither left nor reached; the reason is told."""
    ways = closing(place)
    assert ways.leg("a", "c", ANY, ONE) is None
    assert ways.why_not("a", "c", ANY, ONE) == "a door, passage, room or station on the way is out of use"


def test_doors_and_passages_out_of_use_are_not_used() -> None:
    """The way takes the other door, and the lift in place of the stair; with neither there is none."""
    by_far = 2 * math.hypot(4, 3)
    assert walked(closing(), "a", "b") == pytest.approx(8)
    assert walked(closing(("door", "near")), "a", "b") == pytest.approx(by_far)
    assert walked(closing(("door", "near"), ("door", "far")), "a", "b") == math.inf
    up = closing(("passage", "stair")).leg("b", "c", ANY, ONE)
    assert up
    assert up.metres == pytest.approx(math.hypot(1, 2) + math.hypot(5, 2))
    assert walked(closing(("passage", "stair"), ("passage", "lift")), "b", "c") == math.inf


def test_a_station_out_of_use_is_kept_off() -> None:
    """The way from one to another goes round the spot of a third that is out of use between them."""
    premises = one_room(box(0, 0, 10, 4), a=(1, 2), b=(9, 2), c=(5, 2))
    assert walked(Ways(premises), "a", "b") == pytest.approx(8)
    off, half = 0.3, 0.25
    round_it = 2 * (math.hypot(4 - off - half, off + half) + off + half)
    assert walked(Ways(replace(premises, closed=frozenset({("station", "c")}))), "a", "b") == pytest.approx(round_it)


def test_a_one_way_door_is_gone_through_one_way() -> None:
    """There by the door on the straight line, back by the other."""
    ways = Ways(two_floors())
    assert walked(ways, "a", "b") == pytest.approx(8)
    assert walked(ways, "b", "a") == pytest.approx(10)
    minutes = ways.minutes(["a", "b"], ANY, ONE)
    assert minutes == pytest.approx({("a", "b"): 8 / 0.9 / 60, ("b", "a"): 10 / 0.9 / 60})


@pytest.mark.parametrize("needs", [Needs(step_free=True), Needs(narrow=True)])
def test_a_wheelchair_takes_the_wide_level_door(needs: Needs) -> None:
    """The near one has a step, and is 70 cm wide."""
    assert walked(Ways(two_floors()), "a", "b", needs) == pytest.approx(10, rel=0.01)


def test_step_free_and_without_lift() -> None:
    """Up by lift without steps, by the stair without the lift, and not at all without both."""
    ways = Ways(two_floors())
    lift = ways.leg("b", "c", Needs(step_free=True), ONE)
    stair = ways.leg("b", "c", Needs(no_lift=True), ONE)
    assert lift
    assert lift.minutes == pytest.approx((lift.metres / 0.9 + 60) / 60)
    assert stair
    assert stair.metres > lift.metres
    assert walked(ways, "b", "c", Needs(step_free=True, no_lift=True)) == math.inf


def test_a_quiet_way_keeps_out_of_noisy_rooms() -> None:
    """It goes round by rooms that are quiet, even if that is longer; into a noisy room none leads."""
    rooms = two_floors().rooms
    premises = Premises(
        levels=two_floors().levels,
        rooms=(
            replace(rooms[0], ref="hall", outline=box(0, 0, 4, 9)),
            replace(rooms[0], ref="loud", outline=box(4, 4, 8, 9)),
            replace(rooms[0], ref="yard", outline=box(4, 0, 8, 4)),
            replace(rooms[0], ref="shop", outline=box(8, 0, 12, 9)),
        ),
        doors=(
            Doorway("1", ("hall", "loud"), (4, 6), 1),
            Doorway("2", ("loud", "shop"), (8, 6), 1),
            Doorway("3", ("hall", "yard"), (4, 2), 1),
            Doorway("4", ("yard", "shop"), (8, 2), 1),
        ),
        stations=tuple(
            replace(two_floors().stations[0], ref=ref, room=room, at=at)
            for ref, room, at in [("a", "hall", (2, 6)), ("b", "shop", (10, 6)), ("c", "loud", (6, 6))]
        ),
        noisy=frozenset({"loud"}),
    )
    ways = Ways(premises)
    assert walked(ways, "a", "b") == pytest.approx(8)
    assert walked(ways, "a", "b", Needs(quiet=True)) == pytest.approx(4 + 2 * math.hypot(2, 4), rel=0.01)
    assert walked(ways, "a", "c", Needs(quiet=True)) == math.inf


def test_an_offset_door_is_gone_through_at_its_middle() -> None:
    """From corner to corner of two rooms: two straight lines that meet in the doorway, for a body of any breadth."""
    premises = two_floors()
    stations = (replace(premises.stations[0], at=(1, 7)), replace(premises.stations[1], at=(11, 7)))
    house = replace(premises, doors=premises.doors[1:], stations=stations)
    closed_form = 2 * math.hypot(5, 6)
    assert walked(Ways(house, half_m=0), "a", "b") == pytest.approx(closed_form)
    leg = Ways(house, half_m=0).leg("a", "b", ANY, ONE)
    assert leg
    assert leg.spots == (Spot("ground", 1, 7), Spot("ground", 6, 1), Spot("ground", 11, 7))
    assert walked(Ways(house), "a", "b") == pytest.approx(closed_form, rel=0.02)


def test_where_one_stands_already_the_way_is_nothing() -> None:
    """No metres, no minutes, one sentence."""
    leg = Ways(two_floors()).leg("a", "a", ANY, GROUP)
    assert leg
    assert (leg.metres, leg.minutes, leg.directions) == (0, 0, ("You are at the anvil.",))


@pytest.mark.parametrize(
    ("door", "needs", "through"),
    [
        (Doorway("d", ("a", "b"), (0, 0), 0.74), Needs(narrow=True), False),
        (Doorway("d", ("a", "b"), (0, 0), 0.75), Needs(narrow=True), True),
        (Doorway("d", ("a", "b"), (0, 0), 0.39), Needs(), False),
        (Doorway("d", ("a", "b"), (0, 0), 1, step_mm=16), Needs(step_free=True), False),
        (Doorway("d", ("a", "b"), (0, 0), 1, step_mm=15), Needs(step_free=True), True),
        (Doorway("d", ("a", "b"), (0, 0), 1, gradient_percent=9), Needs(step_free=True), False),
        (Doorway("d", ("a", "b"), (0, 0), 1, gradient_percent=8.3), Needs(step_free=True), True),
        (Doorway("d", ("a", "b"), (0, 0), 1, gradient_percent=30, step_mm=200), Needs(narrow=True), True),
    ],
)
def test_whom_a_door_lets_through(door: Doorway, needs: Needs, through: bool) -> None:
    """By its width, its step and its slope."""
    assert lets_through(door, needs) is through


@pytest.mark.parametrize(
    ("passage", "needs", "used"),
    [
        (Climb("p", "stairs", "Stair", ENDS, 1, steps=9), Needs(step_free=True), False),
        (Climb("p", "stairs", "Stair", ENDS, 0.7, steps=9), Needs(narrow=True), False),
        (Climb("p", "lift", "Lift", ENDS, 0.7), Needs(narrow=True), False),
        (Climb("p", "lift", "Lift", ENDS, 1), Needs(no_lift=True), False),
        (Climb("p", "lift", "Lift", ENDS, 1), Needs(step_free=True), True),
        (Climb("p", "ramp", "Ramp", ENDS, 1, rise_mm=125, length_m=1.5), Needs(step_free=True), True),
        (Climb("p", "ramp", "Ramp", ENDS, 1, rise_mm=150, length_m=1.5), Needs(step_free=True), False),
        (Climb("p", "ramp", "Ramp", ENDS, 1, rise_mm=150, length_m=1.5), Needs(no_lift=True), True),
    ],
)
def test_whom_a_passage_carries(passage: Climb, needs: Needs, used: bool) -> None:
    """By its kind, its width and its slope."""
    assert carries(passage, needs) is used


def test_stairs_take_longer_than_level_ground() -> None:
    """20 steps of 150 mm rise and 250 mm going, at 5/7 of the pace on the level."""
    stair = Climb("p", "stairs", "Stair", ENDS, 1, steps=20, rise_mm=150)
    metres = pace.climb_metres(stair, 5.0)
    assert metres == pytest.approx(20 * math.hypot(0.15, 0.25))
    assert pace.climb_seconds(stair, metres, 10, 0.9) == pytest.approx(metres / 0.9 * 1.4)


@pytest.mark.parametrize(("size", "loads"), [(1, 1), (4, 1), (5, 2), (14, 4), (16, 4)])
def test_a_lift_takes_a_group_in_loads(size: int, loads: int) -> None:
    """Each load needs the whole cycle, and nothing is walked."""
    lift = Climb("p", "lift", "Lift", ENDS, 1, capacity=4, cycle_s=70)
    assert pace.lift_loads(lift, size) == loads
    assert pace.climb_metres(lift, 5.0) == 0
    assert pace.climb_seconds(lift, 0, size, 0.9) == loads * 70


def test_a_ramp_is_as_long_as_told_or_as_drawn() -> None:
    """The plan's length counts, else the distance of its ends."""
    ramp = Climb("p", "ramp", "Ramp", ENDS, 1, length_m=6)
    assert pace.climb_metres(ramp, 5.0) == 6
    assert pace.climb_metres(replace(ramp, length_m=0), 5.0) == 5


def test_a_group_waits_for_its_last() -> None:
    """Nine come after the first through a doorway of 1.2 m: 1.32 people a second through each metre of 0.9 m."""
    ways = Ways(two_floors())
    one, ten = (ways.minutes(["b", "a"], ANY, party)["b", "a"] for party in (ONE, GROUP))
    assert ten - one == pytest.approx(9 / (1.32 * 0.9) / 60)


@settings(deadline=None, max_examples=25)
@given(st.booleans(), st.booleans(), st.booleans(), st.integers(1, 30), st.floats(0.4, 1.5))
def test_needs_never_make_a_way_quicker_and_legs_agree_with_the_table(
    step_free: bool, narrow: bool, no_lift: bool, size: int, pace_m_per_s: float
) -> None:
    """Who can do less takes as long or longer; a leg's minutes are those of the table."""
    ways, party = Ways(two_floors()), Party(size, pace_m_per_s)
    needs = Needs(step_free=step_free, narrow=narrow, no_lift=no_lift)
    free, bound = ways.minutes("abc", ANY, party), ways.minutes("abc", needs, party)
    waits = pace.tail_seconds(size, 0.7) / 60
    assert set(bound) <= set(free)
    assert all(bound[pair] >= free[pair] - waits - 1e-9 for pair in bound)
    for (start, finish), minutes in bound.items():
        leg = ways.leg(start, finish, needs, party)
        assert leg
        assert leg.minutes == pytest.approx(minutes)


def test_the_house_is_kept_until_the_plan_or_what_is_out_of_use_changes(home: Store) -> None:
    """A new word in the thesaurus leaves the graph as it is; a place put out of use on that day makes another."""
    with home.session() as session:
        before = ways_of(session, TODAY)
    with home.changing("tests") as session:
        session.add(Term(ref="t-new", preferred="swarf", language="en-GB", meaning="", other_words=[]))
    with home.session() as session:
        assert ways_of(session, TODAY) is before
        assert ways_of(session, TODAY, noisy_rooms=frozenset({"shop"})) is not before


def test_every_station_of_the_demo_has_ways(demo_home: Store) -> None:
    """Everywhere on foot; without steps and by wheelchair widths everywhere but the cellar and the tool room."""
    with demo_home.session() as session:
        ways = ways_of(session, TODAY)
    refs = {pair[0] for pair in ways.minutes(_demo_stations(demo_home), ANY, GROUP)}
    assert refs == set(_demo_stations(demo_home))
    level = Needs(step_free=True, narrow=True)
    reached = {finish for start, finish in ways.minutes(refs, level, GROUP) if start == "st-gate"} | {"st-gate"}
    assert refs - reached == {"st-die-rack", "st-dust-box", "st-scales", "st-sinking", "st-forge"}
    assert ways.why_not("st-gate", "st-dust-box", Needs(narrow=True), GROUP) == (
        "the way is too narrow for a wheelchair or a pushchair"
    )


def _demo_stations(store: Store) -> list[str]:
    from archive.plan.queries import stations

    with store.session() as session:
        return [station.ref for station in stations(session)]
