"""The best times for a day's departures, with their proof; the same every time for the same day."""

from __future__ import annotations

import itertools
import time
from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from archive.tours.day.clashes import unmendable
from archive.tours.day.problem import TENTHS, DayProblem, Going, Run, barred_gaps
from archive.values.dayclock import DAY_MINUTES

SEED = 1
SECONDS = 20.0
# One departure moved weighs more than every minute that all can wait.
_MOVED = DAY_MINUTES * 40

Told = Callable[[float, float], None]
Asked = Callable[[], bool]


@dataclass(frozen=True)
class DayPlan:
    """The minute at which each departure leaves. Empty: nothing fits, or, where not `proven`, nothing was found yet."""

    times: Mapping[str, int]
    value: float = 0.0
    bound: float = 0.0
    proven: bool = True
    seconds: float = 0.0
    moved: tuple[str, ...] = field(default=())

    @property
    def fits(self) -> bool:
        """Whether there are times for all."""
        return bool(self.times)


def worth_of(problem: DayProblem, times: Mapping[str, int]) -> int:
    """What is made as small as can be: departures moved first, then the minutes moved or waited."""
    moved = [going for going in problem.goings if going.leaves not in (None, times[going.ref])]
    return _MOVED * len(moved) + sum(going.cost(times[going.ref]) for going in problem.goings)


def solve_day(
    problem: DayProblem,
    *,
    seconds: float = SECONDS,
    progress: Told | None = None,
    stop: Asked | None = None,
    only: str = "",
) -> DayPlan:
    """The times that move the fewest departures and let the others leave as early as they can.

    With `only`, the cost of that departure alone counts. `stop` ends the search at once.
    """
    began = time.monotonic()
    if not problem.goings or unmendable(problem):
        return DayPlan({}, seconds=time.monotonic() - began)
    from ortools.sat.python import cp_model

    model = _model(problem, only)
    solver = _solver(seconds)
    status = solver.solve(model.cp, _Watch(progress, stop) if progress or stop else None)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    times = {ref: int(solver.value(leaving)) for ref, leaving in model.leaving.items()} if found else {}
    return DayPlan(
        times=times,
        value=solver.objective_value if found else 0.0,
        bound=solver.best_objective_bound if found else 0.0,
        proven=status in (cp_model.OPTIMAL, cp_model.INFEASIBLE),
        seconds=time.monotonic() - began,
        moved=tuple(one.ref for one in problem.goings if found and one.leaves not in (None, times[one.ref])),
    )


def _solver(seconds: float) -> Any:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_time_in_seconds = seconds
    return solver


@dataclass(frozen=True)
class _Model:
    cp: Any
    leaving: dict[str, Any]


def _model(problem: DayProblem, only: str) -> _Model:
    from ortools.sat.python import cp_model

    cp = cp_model.CpModel()
    leaving = {one.ref: _leaving(cp, one, problem.rules.step) for one in problem.goings}
    for one, other in itertools.combinations(problem.goings, 2):
        gaps = barred_gaps(problem, one, other)
        if gaps:
            free = cp_model.Domain.from_intervals([list(gap) for gap in gaps]).complement()
            cp.add_linear_expression_in_domain(leaving[other.ref] - leaving[one.ref], free)
    _machines_once(cp, problem, leaving)
    _rooms_hold(cp, problem, leaving)
    cp.minimize(sum(_costs(cp, one, leaving[one.ref]) for one in problem.goings if only in ("", one.ref)))
    return _Model(cp, leaving)


def _leaving(cp: Any, going: Going, step: int) -> Any:
    from ortools.sat.python import cp_model

    return cp.new_int_var_from_domain(cp_model.Domain.from_values(going.times(step)), going.ref)


def _machines_once(cp: Any, problem: DayProblem, leaving: Mapping[str, Any]) -> None:
    """No machine is run twice at once; said once more for all that ask for it, which finds the proof sooner."""
    asked: dict[str, list[Any]] = defaultdict(list)
    for going in problem.goings:
        for run in _merged(going.runs):
            asked[run.machine].append(_interval(cp, leaving[going.ref], run.begins, run.ends))
    for intervals in asked.values():
        cp.add_no_overlap(intervals)


def _merged(runs: tuple[Run, ...]) -> list[Run]:
    """A group's own runs of one machine, those that overlap as one: warm while it is shown again."""
    merged: list[Run] = []
    for run in sorted(runs, key=lambda one: (one.machine, one.begins)):
        last = merged[-1] if merged else None
        if last and last.machine == run.machine and run.begins < last.ends:
            merged[-1] = Run(last.begins, max(last.ends, run.ends), run.machine, run.demonstration)
        else:
            merged.append(run)
    return merged


def _rooms_hold(cp: Any, problem: DayProblem, leaving: Mapping[str, Any]) -> None:
    """No room holds more than it may, however many groups meet in it."""
    stays: dict[str, list[tuple[Any, int]]] = defaultdict(list)
    for going in problem.goings:
        for stay in going.rooms:
            interval = _interval(cp, leaving[going.ref], stay.begins, stay.ends)
            stays[stay.room].append((interval, problem.fills(going, stay)))
    for room, filled in stays.items():
        cp.add_cumulative([interval for interval, _ in filled], [size for _, size in filled], problem.capacities[room])


def _interval(cp: Any, leaving: Any, begins: int, ends: int) -> Any:
    return cp.new_fixed_size_interval_var(TENTHS * leaving + begins, ends - begins, "")


def _costs(cp: Any, going: Going, leaving: Any) -> Any:
    if going.leaves is None:
        return leaving - going.earliest
    if going.fixed:
        return 0
    moved = cp.new_bool_var(f"{going.ref} moved")
    cp.add(leaving == going.leaves).only_enforce_if(~moved)
    shift = cp.new_int_var(0, DAY_MINUTES, f"{going.ref} shift")
    cp.add_abs_equality(shift, leaving - going.leaves)
    return _MOVED * moved + shift


def _Watch(progress: Told | None, stop: Asked | None) -> Any:  # noqa: N802
    from ortools.sat.python import cp_model

    class Watch(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            if progress:
                progress(self.objective_value, self.best_objective_bound)
            if stop and stop():
                self.stop_search()

    return Watch()
