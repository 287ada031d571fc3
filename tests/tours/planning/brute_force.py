"""The best tour of a small problem, by trying every one."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from archive.tours.planning.problem import Problem
from archive.tours.planning.worth import points
from tests.tours.planning.verifying import Round, faults, worth


def best_worth(problem: Problem) -> float | None:
    """What the best tour is worth in points; None where there is none."""
    worths = [worth(problem, one) for one in _rounds(problem) if not faults(problem, one)]
    return points(max(worths)) if worths else None


def _rounds(problem: Problem) -> Iterator[Round]:
    """Every order of every set of stations, every choice of tellings, every wait that could matter."""
    refs = [place.ref for place in problem.places]
    for count in range(1, len(refs) + 1):
        for order in itertools.permutations(refs, count):
            closed = [*order, problem.start] if problem.start and problem.start == problem.finish else [*order]
            if (problem.start and closed[0] != problem.start) or (problem.finish and closed[-1] != problem.finish):
                continue
            if len(closed) > len(order):
                yield from _filled(problem, tuple(map(str, closed)), parting=True)
            else:
                yield from _filled(problem, order, parting=False)


def _filled(problem: Problem, order: tuple[str, ...], *, parting: bool) -> Iterator[Round]:
    inner = order[:-1] if parting else order
    options = [_options(problem, station) for station in inner]
    for chosen in itertools.product(*options):
        told = [*chosen, ()] if parting else list(chosen)
        yield from _waited(problem, order, told)


def _options(problem: Problem, station: str) -> list[tuple[str, ...]]:
    mine = [one.ref for one in problem.by_station[station]]
    found = [kept for count in range(len(mine) + 1) for kept in itertools.combinations(mine, count)]
    return found if station in problem.ends else [one for one in found if one]


def _waited(problem: Problem, order: tuple[str, ...], told: list[tuple[str, ...]]) -> Iterator[Round]:
    """Waits only where something has its hours; any length, for a wait may be for what comes later."""
    spare = problem.tenths - sum(problem.choice[ref].tenths for refs in told for ref in refs)
    lengths = [
        range(max(0, spare) + 1) if any(problem.choice[ref].timed for ref in refs) else range(1) for refs in told
    ]
    for waits in itertools.product(*lengths):
        if sum(waits) <= max(0, spare):
            yield list(zip(order, told, waits, strict=True))
