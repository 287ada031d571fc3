"""The planner finds the best tour: against every tour of small problems, and against a second formulation."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from archive.tours.judging import Standing, troubles
from archive.tours.model import DEPTHS, THEMES
from archive.tours.planning.problem import Choice, Clash, Place, Problem
from archive.tours.planning.solution import Solution
from archive.tours.planning.solving import fits, solve
from archive.tours.planning.strands import closure
from tests.tours.planning.brute_force import best_worth
from tests.tours.planning.cases import works
from tests.tours.planning.second_formulation import best_by_milp
from tests.tours.planning.verifying import verify


@some.composite
def small_problems(draw: some.DrawFn) -> Problem:
    """Up to four stations with up to two tellings, and any mixture of wishes."""
    count = draw(some.integers(1, 4))
    refs = [f"s{number}" for number in range(count)]
    tenths = draw(some.integers(6, 20))
    choices = tuple(
        _choice(draw, f"{ref}-{number}", number, tenths, timed=place < 2 and number == 0)
        for place, ref in enumerate(refs)
        for number in range(draw(some.integers(0, 2)))
    )
    pairs = [(one, other) for one in refs for other in refs if one != other]
    kept = [pair for pair in pairs if draw(some.integers(0, 9))]
    order = closure(pair for pair in zip(refs, refs[1:], strict=False) if draw(some.booleans()))
    end = some.sampled_from([None, *refs])
    told = [one.ref for one in choices]
    return Problem(
        tenths=tenths,
        places=tuple(Place(ref, seats=draw(some.booleans())) for ref in refs),
        choices=choices,
        walks={pair: draw(some.integers(0, 6)) for pair in kept},
        start=draw(end),
        finish=draw(end),
        weights=draw(some.dictionaries(some.sampled_from(THEMES[:3]), some.integers(1, 3), max_size=2)),
        depth=draw(some.sampled_from([None, *DEPTHS])),
        before=order if draw(some.booleans()) else frozenset(),
        must_stations=frozenset(draw(some.lists(some.sampled_from(refs), max_size=1))),
        must_tellings=frozenset(draw(some.lists(some.sampled_from(told), max_size=1)) if told else ()),
        pinned=tuple(draw(some.lists(some.sampled_from(refs), max_size=2, unique=True))),
        voice_every=draw(some.none() | some.integers(4, 20)),
        seats_every=draw(some.none() | some.integers(4, 20)),
        noise_left=draw(some.integers(0, 20)),
    )


def _choice(draw: some.DrawFn, ref: str, order: int, tenths: int, *, timed: bool) -> Choice:
    start = draw(some.integers(0, tenths))
    timed = timed and draw(some.booleans())
    return Choice(
        ref=ref,
        station=ref.split("-")[0],
        kind="talk",
        tenths=draw(some.integers(1, 9)),
        themes=tuple(draw(some.lists(some.sampled_from(THEMES[:4]), max_size=2, unique=True))),
        depth=draw(some.sampled_from(DEPTHS)),
        is_voice=draw(some.booleans()),
        noise=draw(some.integers(0, 15)) if timed else 0,
        windows=((start, start + draw(some.integers(0, 5))),) if timed else (),
        order=order,
    )


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(small_problems())
def test_never_worse_and_never_wrong(problem: Problem) -> None:
    """On small problems the tour keeps to everything, is worth what the best of all tours is, and is proven.

    And what is found is never called broken when it is looked at as a tour that stands.
    """
    best = best_worth(problem)
    found = solve(problem)
    assert found.proven
    assert found.fits == (best is not None)
    assert fits(problem) == found.fits
    if found.fits:
        assert verify(problem, found) == []
        assert found.value == best
        assert troubles(problem, as_it_stands(found), {}) == ()


def as_it_stands(found: Solution) -> list[Standing]:
    """What the planner found, as it stands on the bench."""
    return [Standing(position, stop.station, stop.tellings) for position, stop in enumerate(found.stops)]


def test_nobody_waits_longer_so_that_a_gap_is_hidden() -> None:
    """Waiting before the voice, so that there is less to wait for the machine after it, is nothing that a group does.

    The voice ends after a minute, and the machine runs from the tenth to the eleventh: ten minutes without a voice.
    """
    voice = Choice("a", "a", "clip", 10, is_voice=True, windows=((0, 100),))
    machine = Choice("b", "b", "demonstration", 10, windows=((100, 100),))
    walks = {("a", "b"): 0, ("b", "a"): 0}
    problem = Problem(120, (Place("a"), Place("b")), (voice, machine), walks, start="a", voice_every=100)
    problem = replace(problem, must_tellings=frozenset({"b"}))
    assert solve(problem).tellings == {"a", "b"}
    assert not fits(replace(problem, voice_every=99))


@pytest.mark.parametrize("seed", range(4))
def test_the_same_optimum_by_a_second_formulation(seed: int) -> None:
    """HiGHS, given the problem as a mixed-integer programme, finds the same worth."""
    problem = works(seed, 8, minutes=20)
    found = solve(problem, seconds=60)
    assert verify(problem, found) == []
    assert found.proven
    assert found.value == pytest.approx(best_by_milp(problem).value)


def test_the_same_tour_every_time() -> None:
    """For the same problem the very same tour comes out."""
    problem = works(3, 10, minutes=20)
    first, second = solve(problem), solve(problem)
    assert first.proven
    assert first.stops == second.stops


def test_with_a_clash_nothing_is_looked_for() -> None:
    """Where a wish cannot be met by any tour, that is the answer, and it is proven."""
    problem = replace(works(1, 6), clashes=(Clash("start", "it is closed"),))
    assert solve(problem).proven
    assert not solve(problem).fits
    assert fits(problem) is False


def test_it_stops_when_asked() -> None:
    """A stop that is asked ends the search long before its time."""
    found = solve(works(2, 60), seconds=30, stop=lambda: True)
    assert found.seconds < 10


def test_it_tells_how_far_it_is() -> None:
    """Each better tour is told with the bound, and never more than the bound."""
    told: list[tuple[float, float]] = []
    solve(works(3, 10, minutes=20), progress=lambda best, bound: told.append((best, bound)))
    assert told
    assert all(best <= bound + 0.001 for best, bound in told)
