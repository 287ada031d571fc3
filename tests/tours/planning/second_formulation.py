"""The planner's problem a second time, as a mixed-integer programme for HiGHS, written down from the rules alone.

It differs from the solver's model: what flows along the ways keeps the round in one piece and carries the clock, the
order is kept by the clock, and diminishing return is a sum of steps that fill up of themselves.
"""

from __future__ import annotations

import time
from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from archive.tours.planning.problem import Problem
from archive.tours.planning.worth import IDLE, SLOPES, points, worth_of

OUT, BACK, PARTING = "out", "back", "parting"
Row = dict[int, float]


@dataclass(frozen=True)
class ByMilp:
    """What HiGHS found."""

    value: float
    bound: float
    proven: bool
    seconds: float


@dataclass
class _Programme:
    """Columns and rows as they come."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    gain: Row = field(default_factory=dict)
    rows: list[tuple[Row, float, float]] = field(default_factory=list)

    def column(self, high: float, *, whole: bool = False, low: float = 0.0) -> int:
        self.low.append(low)
        self.high.append(high)
        self.whole.append(int(whole))
        return len(self.low) - 1

    def flag(self) -> int:
        return self.column(1, whole=True)

    def row(self, terms: list[tuple[int, float]], low: float = -np.inf, high: float = np.inf) -> None:
        summed: Row = defaultdict(float)
        for column, factor in terms:
            summed[column] += factor
        self.rows.append((dict(summed), low, high))


def best_by_milp(problem: Problem, *, seconds: float = 60.0) -> ByMilp:
    """What the best tour is worth."""
    began = time.monotonic()
    programme = _written(problem)
    width = len(programme.low)
    data = [
        (number, column, factor) for number, (row, _, _) in enumerate(programme.rows) for column, factor in row.items()
    ]
    at, across, factors = zip(*data, strict=True)
    matrix = csr_array((factors, (at, across)), shape=(len(programme.rows), width))
    limits = LinearConstraint(matrix, [low for _, low, _ in programme.rows], [high for _, _, high in programme.rows])
    costs = np.zeros(width)
    for column, factor in programme.gain.items():
        costs[column] = -factor
    answer = milp(
        costs,
        constraints=limits,
        bounds=Bounds(programme.low, programme.high),
        integrality=programme.whole,
        options={"time_limit": seconds, "mip_rel_gap": 1e-6},
    )
    value = points(round(-answer.fun)) if answer.x is not None else 0.0
    bound = points(-answer.mip_dual_bound) if answer.mip_dual_bound is not None else np.inf
    return ByMilp(value, bound, answer.status == 0, time.monotonic() - began)


def _written(problem: Problem) -> _Programme:
    to = _Programme()
    horizon = float(problem.tenths)
    nodes = [place.ref for place in problem.places]
    first, last = problem.start, problem.finish
    if first and first == last:
        nodes, last = [*nodes, PARTING], PARTING
    visit = {node: to.flag() for node in nodes}
    told = {one.ref: to.flag() for one in problem.choices}
    spot = {node: problem.start if node == PARTING else node for node in nodes}
    arcs, walks = {}, {}
    for one in [OUT, *nodes]:
        for other in [*nodes, BACK]:
            steps = _steps(problem, one, other, spot)
            ends = (one == OUT and first and other != first) or (other == BACK and last and one != last)
            if one == other or (one, other) == (OUT, BACK) or ends or steps is None:
                continue
            if (last and one == last and other != BACK) or (first and other == first and one != OUT):
                continue
            arcs[one, other], walks[one, other] = to.flag(), steps
    into = {node: [pair for pair in arcs if pair[1] == node] for node in nodes}
    out = {node: [pair for pair in arcs if pair[0] == node] for node in nodes}
    to.row([(arcs[pair], 1) for pair in arcs if pair[0] == OUT], 1, 1)
    mine = {node: [one for one in problem.choices if one.station == node] for node in nodes}
    for node in nodes:
        to.row([*((arcs[pair], 1) for pair in into[node]), (visit[node], -1)], 0, 0)
        to.row([*((arcs[pair], 1) for pair in out[node]), (visit[node], -1)], 0, 0)
        for one in mine[node]:
            to.row([(told[one.ref], 1), (visit[node], -1)], high=0)
        if node != PARTING and (node not in problem.ends or node in problem.must_stations):
            to.row([*((told[one.ref], 1) for one in mine[node]), (visit[node], -1)], low=0)
        if node in problem.must_stations or node in problem.pinned or node in (first, last):
            to.row([(visit[node], 1)], low=1)
    for ref in problem.must_tellings:
        to.row([(told[ref], 1)], low=1)
    to.row(
        [(told[one.ref], one.noise) for one in problem.choices] or [(visit[nodes[0]], 0)],
        high=min(problem.noise_left, problem.guide_noise_left),
    )
    # The clock as it leaves each node, carried by the way that is taken, and one more on each way: no round by itself.
    clock = {pair: to.column(horizon) for pair in arcs}
    count = {pair: to.column(len(nodes)) for pair in arcs}
    begin, wait = {}, {}
    for pair, arc in arcs.items():
        to.row([(clock[pair], 1), (arc, -(horizon if pair[0] != OUT else 0))], high=0)
        to.row([(count[pair], 1), (arc, -len(nodes))], high=0)
    for node in nodes:
        begin[node] = to.column(horizon)
        wait[node] = to.column(horizon if any(one.windows for one in mine[node]) else 0)
        to.row([(wait[node], 1), (visit[node], -horizon)], high=0)
        came = [(clock[pair], -1.0) for pair in into[node]] + [(arcs[pair], -float(walks[pair])) for pair in into[node]]
        to.row([(begin[node], 1), (wait[node], -1), *came], 0, 0)
        goes = [(clock[pair], 1.0) for pair in out[node]]
        to.row([*goes, (begin[node], -1), *((told[one.ref], -one.tenths) for one in mine[node])], 0, 0)
        to.row(
            [*((count[pair], 1) for pair in out[node]), *((count[pair], -1) for pair in into[node]), (visit[node], -1)],
            0,
            0,
        )
    _ordered(to, problem, visit, begin, horizon)
    _timed(to, problem, told, begin, mine, wait, horizon)
    for every, has in ((problem.voice_every, "voice"), (problem.seats_every, "seat")):
        if every is not None:
            _every(to, problem, every, has, (nodes, spot, arcs, walks, into, out, told, visit, wait, mine))
    _gained(to, problem, told, arcs, walks, wait)
    return to


def _steps(problem: Problem, one: str, other: str, spot: dict[str, str | None]) -> int | None:
    if one == OUT or other == BACK:
        return 0
    here, there = str(spot[one]), str(spot[other])
    return 0 if here == there else problem.walks.get((here, there))


def _ordered(to: _Programme, problem: Problem, visit: dict[str, int], begin: dict[str, int], horizon: float) -> None:
    """Where both are visited, the later begins later; ties are parted by the rank of the stop in the round."""
    rank = {node: to.column(len(visit)) for node in visit}
    pins = list(zip(problem.pinned, problem.pinned[1:], strict=False))
    size = len(visit) + 1
    for earlier, later in {*problem.before, *pins}:
        both = [(visit[earlier], -size), (visit[later], -size)]
        to.row([(rank[later], 1), (rank[earlier], -1), *both], low=1 - 2 * size)
    to.ranks = rank  # type: ignore[attr-defined]


def _timed(
    to: _Programme,
    problem: Problem,
    told: dict[str, int],
    begin: dict[str, int],
    mine: dict[str, list],  # type: ignore[type-arg]
    wait: dict[str, int],
    horizon: float,
) -> None:
    """Hours are kept to, and nobody waits longer than until something begins."""
    opening: dict[str, list[int]] = {one.station: [] for one in problem.choices if one.windows}
    for one in problem.choices:
        if not one.windows:
            continue
        order = sorted(mine[one.station], key=lambda other: (other.order, other.ref))
        before = [(told[other.ref], float(other.tenths)) for other in order[: order.index(one)]]
        hours = [to.flag() for _ in one.windows]
        to.row([*((hour, 1) for hour in hours), (told[one.ref], -1)], 0, 0)
        for hour, (start, end) in zip(hours, one.windows, strict=True):
            to.row([(begin[one.station], 1), *before, (hour, -start)], low=0)
            to.row([(begin[one.station], 1), *before, (hour, 2 * horizon - end)], high=2 * horizon)
            at_once = to.flag()
            to.row([(hour, 1), (at_once, -1)], low=0)
            to.row([(begin[one.station], 1), *before, (at_once, 2 * horizon - start)], high=2 * horizon)
            opening[one.station].append(at_once)
    for station, flags in opening.items():
        to.row([(wait[station], 1), *((flag, -horizon) for flag in flags)], high=0)


def _every(to: _Programme, problem: Problem, every: int, what: str, parts) -> None:  # type: ignore[no-untyped-def]
    """The time since the last one, carried along the ways."""
    nodes, spot, arcs, walks, into, out, told, visit, wait, mine = parts
    since = {pair: to.column(every) for pair in arcs}
    large = float(every + problem.tenths)
    for pair, arc in arcs.items():
        to.row([(since[pair], 1), (arc, walks[pair] - every if pair[1] != BACK else -every)], high=0)
    for node in nodes:
        if what == "seat":
            if problem.place[spot[node]].seats:
                has: list[tuple[int, float]] = [(visit[node], large)]
            else:
                has = []
        else:
            has = [(told[one.ref], large) for one in mine[node] if one.is_voice]
        came = [(since[pair], -1.0) for pair in into[node]] + [(arcs[pair], -float(walks[pair])) for pair in into[node]]
        spent = [*came, (wait[node], -1.0)]
        to.row([*spent], low=-every)
        goes = [(since[pair], 1.0) for pair in out[node]]
        to.row([*goes, *spent, *((told[one.ref], -float(one.tenths)) for one in mine[node]), *has], low=0)


def _gained(
    to: _Programme,
    problem: Problem,
    told: dict[str, int],
    arcs: dict[tuple[str, str], int],
    walks: dict[tuple[str, str], int],
    wait: dict[str, int],
) -> None:
    worth = worth_of(problem)
    for rule in worth.themes:
        steps = [to.column(rule.step), to.column(rule.step), to.column(sum(rule.grains.values()))]
        to.row([*((step, 1) for step in steps), *((told[ref], -count) for ref, count in rule.grains.items())], 0, 0)
        for slope, step in zip(SLOPES, steps, strict=True):
            to.gain[step] = rule.weight * slope
    for ref, count in worth.plain.items():
        to.gain[told[ref]] = to.gain.get(told[ref], 0) + count
    for pair, arc in arcs.items():
        to.gain[arc] = -IDLE * walks[pair]
    for column in wait.values():
        to.gain[column] = -IDLE
    # The rank of a stop goes up by one along each way that is taken.
    rank = to.ranks  # type: ignore[attr-defined]
    size = len(wait) + 1
    for (one, other), arc in arcs.items():
        if one != OUT and other != BACK:
            to.row([(rank[other], 1), (rank[one], -1), (arc, -size)], low=1 - size)
