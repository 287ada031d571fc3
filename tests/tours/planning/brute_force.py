"""The best tour of a small problem, by trying every one."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from archive.tours.planning.problem import Problem
from archive.tours.planning.worth import points
from tests.tours.planning.verifying import Round, faults, walked, worth


def best_worth(problem: Problem) -> float | None:
    """What the best tour is worth in points; None where there is none."""
    worths = [worth(problem, one) for one in _rounds(problem) if not faults(problem, one)]
    return points(max(worths)) if worths else None


def _rounds(problem: Problem) -> Iterator[Round]:
    """Every order of every set of stations, every choice of tellings, the waits that they need."""
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
    """The round with the shortest wait at each stop after which all there begins in its hours, if there is one."""
    clock, before, round_ = 0, problem.start, []
    for station, refs in zip(order, told, strict=True):
        clock += walked(problem, before, station)
        wait = next((wait for wait in range(problem.tenths + 1) if _in_hours(problem, refs, clock + wait)), None)
        if wait is None:
            return
        round_.append((station, refs, wait))
        clock += wait + sum(problem.choice[ref].tenths for ref in refs)
        before = station
    yield round_


def _in_hours(problem: Problem, refs: tuple[str, ...], clock: int) -> bool:
    for one in (problem.choice[ref] for ref in refs):
        if one.windows and not any(start <= clock <= end for start, end in one.windows):
            return False
        clock += one.tenths
    return True
