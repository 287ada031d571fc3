"""How long the planner takes for its proof, how near it comes where there is none, and the same by HiGHS beside it."""

from __future__ import annotations

import statistics
import time

import pytest

from archive.tours.planning.problem import Problem
from archive.tours.planning.solution import Solution
from archive.tours.planning.solving import solve
from tests.tours.planning.cases import works
from tests.tours.planning.second_formulation import best_by_milp
from tests.tours.planning.verifying import verify

pytestmark = pytest.mark.benchmark
SEEDS = range(20)
COMPARED = range(5)
LARGE = range(3)


def _row(seed: int, problem: Problem, found: Solution, more: str = "") -> str:
    wishes = [
        "order" if problem.before else "free",
        "voices" if problem.voice_every else "",
        "seats" if problem.seats_every else "",
    ]
    proof = "proven" if found.proven else f"gap {100 * found.gap:.1f} %"
    told = f"{found.value:7.2f} points  {proof:<11}{found.seconds:6.2f} s"
    return f"  {seed:>3}  {' '.join(filter(None, wishes)):<20}{told}  {more}"


def test_thirty_stations_ninety_tellings(capsys: pytest.CaptureFixture[str]) -> None:
    """Twenty seeded works of 30 stations: the median time to the end of the search, and how many are proven."""
    lines, seconds, proven = [], [], 0
    for seed in SEEDS:
        problem = works(seed)
        began = time.monotonic()
        found = solve(problem)
        seconds.append(time.monotonic() - began)
        proven += found.proven
        assert found.fits
        assert verify(problem, found) == []
        lines.append(_row(seed, problem, found))
    told = f"  30 stations, 90 tellings: median {statistics.median(seconds):.2f} s, {proven} of {len(lines)} proven"
    with capsys.disabled():
        print("\n" + "\n".join([*lines, told]))


def test_against_the_second_formulation(capsys: pytest.CaptureFixture[str]) -> None:
    """The same works by HiGHS in the same run, with a limit of 60 s each: never worth more than the planner's bound."""
    lines = []
    for seed in COMPARED:
        problem = works(seed, 15)
        found = solve(problem)
        other = best_by_milp(problem, seconds=60)
        ratio = other.seconds / max(found.seconds, 0.001)
        assert other.value <= found.bound + 0.01
        proof = "proven" if other.proven else f"bound {other.bound:.2f}"
        lines.append(
            _row(seed, problem, found, f"HiGHS {other.value:.2f} {proof} {other.seconds:.1f} s, x {ratio:.1f}")
        )
    with capsys.disabled():
        print("\n  15 stations, 45 tellings, against HiGHS\n" + "\n".join(lines))


def test_sixty_stations(capsys: pytest.CaptureFixture[str]) -> None:
    """Works of 60 stations and 180 tellings: the best found in 10 s, with the bound."""
    lines = []
    for seed in LARGE:
        problem = works(seed, 60)
        found = solve(problem, seconds=10)
        assert found.seconds < 13
        assert not found.fits or verify(problem, found) == []
        lines.append(_row(seed, problem, found, f"bound {found.bound:.2f}"))
    with capsys.disabled():
        print("\n  60 stations, 180 tellings\n" + "\n".join(lines))
