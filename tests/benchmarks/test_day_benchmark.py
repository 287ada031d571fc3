"""How long the times of a day take: twelve tours of ten stops, and a smaller day beside the second formulation."""

from __future__ import annotations

import statistics
import time

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from archive.tours.day.solving import solve_day
from tests.tours.day.days import random_day
from tests.tours.day.second import solve_by_milp
from tests.tours.day.verifying import broken_rules

SEEDS = range(10)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_full_day(benchmark: BenchmarkFixture, seed: int) -> None:
    """Twelve tours of ten stops by four guides: the time, the gap that is proven, and no rule broken."""
    problem = random_day(seed)
    plan = benchmark.pedantic(lambda: solve_day(problem), rounds=1)
    benchmark.extra_info["gap"] = (plan.value - plan.bound) / max(plan.value, 1)
    assert plan.fits
    assert broken_rules(problem, plan.times) == []


def test_beside_the_second_formulation(benchmark: BenchmarkFixture) -> None:
    """Six tours of six stops: the same values; the ratio of the times is told."""
    problems = [random_day(seed, tours=6, stops=6, window=120, guides=3) for seed in range(5)]
    plans = benchmark.pedantic(lambda: [solve_day(problem) for problem in problems], rounds=1)
    ratios, values = [], []
    for problem, plan in zip(problems, plans, strict=True):
        began = time.monotonic()
        values.append(solve_by_milp(problem).value)
        ratios.append((time.monotonic() - began) / plan.seconds)
    benchmark.extra_info["second over first"] = statistics.median(ratios)
    assert values == [plan.value if plan.fits else None for plan in plans]
