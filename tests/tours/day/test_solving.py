"""The times of a day: the best there are, by three ways of finding them, and held to the rules by a fourth."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archive.tours.day.clashes import clashes
from archive.tours.day.problem import DayProblem, Going, Rules, Run
from archive.tours.day.solving import solve_day, worth_of
from tests.tours.day.days import going, random_day
from tests.tours.day.second import solve_by_milp
from tests.tours.day.verifying import broken_rules

ROOMS = ("hall", "shop")


@st.composite
def tiny_days(draw: st.DrawFn) -> DayProblem:
    """Up to three departures, two rooms, one machine and a handful of minutes."""
    return DayProblem(
        goings=tuple(draw(_departures(number)) for number in range(draw(st.integers(1, 3)))),
        capacities={room: draw(st.sampled_from([10, 15, 20])) for room in ROOMS},
        levels={("dm", f"st-{room}"): draw(st.sampled_from([70.0, 85.0])) for room in ROOMS},
        rules=Rules(pause=draw(st.sampled_from([0, 10])), step=5),
    )


@st.composite
def _departures(draw: st.DrawFn, number: int) -> Going:
    order = draw(st.permutations(ROOMS))
    earliest = draw(st.sampled_from([600, 610]))
    made = going(
        f"dp-{number}",
        [(room, draw(st.integers(3, 12))) for room in order],
        size=draw(st.sampled_from([6, 10])),
        guide=draw(st.sampled_from(["", "Ada", "Bea"])),
        earliest=earliest,
        latest=earliest + draw(st.sampled_from([0, 20, 30])),
        leaves=draw(st.none() | st.just(earliest)),
        fixed=draw(st.booleans()),
    )
    run = Run(-20, 30, "machine", "dm", "dm", 0)
    return replace(made, fixed=made.fixed and made.leaves is not None, runs=(run,) if draw(st.booleans()) else ())


def by_trying_all(problem: DayProblem) -> int | None:
    """The least cost of all times that break no rule."""
    refs = [one.ref for one in problem.goings]
    tried = itertools.product(*(one.times(problem.rules.step) for one in problem.goings))
    costs = [
        worth_of(problem, times)
        for minutes in tried
        if not broken_rules(problem, times := dict(zip(refs, minutes, strict=True)))
    ]
    return min(costs, default=None)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(tiny_days())
def test_never_worse_than_trying_everything(problem: DayProblem) -> None:
    """On tiny days: the same least cost, no rule broken, and nothing found only where there is nothing."""
    plan, least = solve_day(problem), by_trying_all(problem)
    assert plan.proven
    assert (worth_of(problem, plan.times) if plan.fits else None) == least
    if plan.fits:
        assert broken_rules(problem, plan.times) == []


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(tiny_days())
def test_what_breaks_is_what_the_verifier_finds(problem: DayProblem) -> None:
    """At the earliest times, the telling of clashes and the verifier agree on whether anything breaks."""
    times = {one.ref: one.times(5)[0] for one in problem.goings}
    assert bool(clashes(problem, times)) == bool(broken_rules(problem, times))


@pytest.mark.parametrize("seed", range(3))
def test_a_second_formulation_finds_the_same_optimum(seed: int) -> None:
    """A time-indexed model by another solver comes to the same value."""
    problem = random_day(seed, tours=5, stops=5, window=90, guides=2)
    plan = solve_day(problem)
    assert plan.proven
    assert solve_by_milp(problem).value == (plan.value if plan.fits else None)


def test_nothing_fits_where_two_fixed_departures_share_a_guide() -> None:
    """It is proven, and no times are given."""
    two = tuple(going(ref, [("hall", 20)], guide="Ada", leaves=600, fixed=True) for ref in ("one", "two"))
    plan = solve_day(DayProblem(two, {"hall": 50}))
    assert (plan.fits, plan.proven) == (False, True)


def test_a_group_larger_than_a_room_is_not_planned() -> None:
    """No time would mend it."""
    assert not solve_day(DayProblem((going("one", [("hall", 5)], size=9),), {"hall": 8})).fits


def test_a_day_too_loud_for_its_guide_is_not_planned() -> None:
    """Two hours at 95 dB(A) are 89 over eight hours; the same under a value that is not reached are planned."""
    loud = going("one", [("hall", 5)], guide="Ada", noise=((95.0, 2.0),))
    assert not solve_day(DayProblem((loud,), {"hall": 20}, rules=Rules(value_db=85))).fits
    assert solve_day(DayProblem((loud,), {"hall": 20}, rules=Rules(value_db=90))).fits


def test_fixed_departures_stay_and_the_others_give_way() -> None:
    """The one that has a time and is not fixed is moved only as far as it must be."""
    fixed = going("fixed", [("hall", 20)], size=15, leaves=600, fixed=True)
    loose = going("loose", [("hall", 20)], size=15, leaves=605)
    plan = solve_day(DayProblem((fixed, loose), {"hall": 20}))
    assert dict(plan.times) == {"fixed": 600, "loose": 620}
    assert plan.moved == ("loose",)


def test_what_has_a_time_is_not_moved_to_let_another_leave_earlier() -> None:
    """A new departure waits rather than move one that stands."""
    stands = going("stands", [("hall", 30)], size=15, leaves=540)
    new = going("new", [("hall", 10)], size=15)
    assert dict(solve_day(DayProblem((stands, new), {"hall": 20})).times) == {"stands": 540, "new": 570}


def test_three_groups_that_fit_two_by_two_do_not_meet() -> None:
    """A room for two groups never holds three."""
    three = tuple(going(ref, [("hall", 20)]) for ref in "abc")
    plan = solve_day(DayProblem(three, {"hall": 20}))
    assert sorted(plan.times.values()) == [540, 540, 560]


def test_two_groups_walk_through_a_room_that_could_not_hold_them_standing() -> None:
    """Walking in a line, a large group fills a room at most; two small ones pass together."""
    one, other = (going(ref, [("hall", 20)], size=6) for ref in ("one", "other"))
    walk = tuple(replace(stay, walking=True) for stay in one.rooms)
    alone = replace(one, size=30, rooms=walk)
    assert solve_day(DayProblem((alone,), {"hall": 12})).fits
    assert solve_day(DayProblem((one, other), {"hall": 12})).value == 0


def test_the_same_day_gives_the_same_times() -> None:
    """Twice the same, to the minute."""
    problem = random_day(4, tours=8, stops=6)
    assert solve_day(problem).times == solve_day(problem).times


def test_a_search_can_be_stopped() -> None:
    """Once asked to stop, it gives what it has and does not call it proven."""
    told: list[float] = []
    plan = solve_day(random_day(6), progress=lambda value, _bound: told.append(value), stop=lambda: True)
    assert told
    assert plan.fits
    assert not plan.proven
