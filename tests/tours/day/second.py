"""The day once more, as a time-indexed model for another solver: a yes or no for each departure and minute."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from archive.tours.day.problem import DayProblem, Going, InRoom
from archive.values.dayclock import DAY_MINUTES
from tests.tours.day.verifying import broken_rules


@dataclass(frozen=True)
class Second:
    """What the other solver found: the value, None where nothing fits."""

    value: float | None


def solve_by_milp(problem: DayProblem, moved: int = DAY_MINUTES * 40) -> Second:
    """The same optimum: pairs that break a rule exclude each other, and each room holds at every coming of a group."""
    choices = [(one, at) for one in problem.goings for at in one.times(problem.rules.step)]
    rows: list[tuple[dict[int, float], float, float]] = []
    for one in problem.goings:
        rows.append(({n: 1.0 for n, (who, _) in enumerate(choices) if who is one}, 1.0, 1.0))
    rows += [({a: 1.0, b: 1.0}, 0.0, 1.0) for a, b in _excluded(problem, choices)]
    rows += _rooms(problem, choices)
    cells = [(r, n, value) for r, (row, _, _) in enumerate(rows) for n, value in row.items()]
    where = ([r for r, _, _ in cells], [n for _, n, _ in cells])
    matrix = csr_array(([value for *_, value in cells], where), shape=(len(rows), len(choices)))
    bounds = LinearConstraint(matrix, [low for _, low, _ in rows], [high for _, _, high in rows])
    answer = milp(
        np.asarray([_cost(one, at, moved) for one, at in choices], dtype=float),
        constraints=bounds,
        integrality=np.ones(len(choices)),
        bounds=Bounds(0, 1),
    )
    return Second(round(answer.fun) if answer.x is not None else None)


def _cost(one: Going, at: int, moved: int) -> int:
    if one.leaves is None:
        return at - one.earliest
    return 0 if at == one.leaves else moved + abs(at - one.leaves)


def _excluded(problem: DayProblem, choices: list[tuple[Going, int]]) -> list[tuple[int, int]]:
    """Pairs of a departure at a minute and another at another that break a rule; it depends on their gap alone."""
    gaps: dict[tuple[str, str, int], bool] = {}
    found = []
    for (a, (one, at)), (b, (other, then)) in itertools.combinations(enumerate(choices), 2):
        if one is other:
            continue
        key = one.ref, other.ref, then - at
        if key not in gaps:
            alone = problem.only(frozenset({one.ref, other.ref}))
            held = broken_rules(alone, {one.ref: at, other.ref: then})
            gaps[key] = any("window" not in words and "fixed" not in words for words in held)
        if gaps[key]:
            found.append((a, b))
    return found


def _rooms(problem: DayProblem, choices: list[tuple[Going, int]]) -> list[tuple[dict[int, float], float, float]]:
    rows = []
    for room, holds in problem.capacities.items():
        stays = [(n, one, at, stay) for n, (one, at) in enumerate(choices) for stay in one.rooms if stay.room == room]
        for moment in sorted({at * 10 + stay.begins for _, _, at, stay in stays}):
            row = {n: float(_size(one, stay, holds)) for n, one, at, stay in stays if _in(stay, moment - at * 10)}
            if len(row) > 2 and sum(row.values()) > holds:
                rows.append((row, 0.0, float(holds)))
    return rows


def _in(stay: InRoom, clock: int) -> bool:
    return stay.begins <= clock < stay.ends


def _size(one: Going, stay: InRoom, holds: int) -> int:
    return min(one.size, holds) if stay.walking else one.size
