"""The best tour of a problem, with its proof; the same every time for the same problem.

It is looked for twice. First without the clock: that is quick, and no tour can be worth more. Often the tour found so
can be given by the clock as well, and then it is the best. The whole problem is solved from there, with that bound.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any

from archive.tours.planning.model import PARTING, STREET, Model, model_of, walk
from archive.tours.planning.problem import TENTHS, Problem
from archive.tours.planning.solution import PlannedStop, Solution
from archive.tours.planning.worth import IDLE, points
from archive.tours.waiting import shortest_wait

Told = Callable[[float, float], None]
Asked = Callable[[], bool]

SEED = 1
_LOOK_EVERY_S = 0.2
# The solver's own count of its work, which does not hang on the machine's load: where the time is not enough for a
# proof, the search ends here, so that it ends at the same tour again. The clock is the last resort.
_WORK_PER_SECOND = 0.8
_BRIEF_WORK = 0.4
# The easier problem must leave time to find a tour that can be given.
_EASIER_SHARE = 0.5
# How much of the model goes into linear programmes: none of it, or all.
LIGHT, FULL = 0, 2


@dataclass(frozen=True)
class _Found:
    """What one search gave: the model with its values (None: nothing), the bound, and whether that is proven."""

    model: Model
    values: Any
    bound: int
    proven: bool


@dataclass
class _Search:
    """The time that is left, and whom to tell."""

    seconds: float
    progress: Told | None
    stop: Asked | None
    began: float
    worked: float = 0.0
    stopped: bool = False

    @property
    def left(self) -> float:
        """Seconds left."""
        return max(0.05, self.seconds - (time.monotonic() - self.began))

    @property
    def left_work(self) -> float:
        """Work left, which does not hang on how fast it went so far."""
        return max(0.05, self.seconds * _WORK_PER_SECOND - self.worked)


def solve(
    problem: Problem, *, seconds: float = 10.0, progress: Told | None = None, stop: Asked | None = None
) -> Solution:
    """The tour that is worth most. Without stops nothing fits; where that is not proven, nothing was found in time.

    `progress` is told the best worth so far and the most that is still possible; `stop` ends the search early.
    """
    search = _Search(seconds, progress, stop, time.monotonic())
    if problem.clashes:
        return Solution((), 0.0, 0.0, proven=True, seconds=0.0)
    easier = _without_clock(problem)
    found = _searched(model_of(easier), search, share=_EASIER_SHARE if easier != problem else 1.0)
    if easier != problem and not search.stopped and (found.values is not None or not found.proven):
        found = _with_clock(problem, found, search)
    return _solution(found, time.monotonic() - search.began)


def fits(problem: Problem, *, seconds: float = 3.0) -> bool | None:
    """Whether there is any tour at all; None where that could not be found out in time."""
    from ortools.sat.python import cp_model

    if problem.clashes:
        return False
    model = model_of(problem)
    model.cp.clear_objective()
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = SEED
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model.cp)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return True
    return False if status == cp_model.INFEASIBLE else None


def _without_clock(problem: Problem) -> Problem:
    choices = tuple(replace(one, windows=()) if one.windows else one for one in problem.choices)
    return replace(problem, choices=choices, voice_every=None, seats_every=None)


def _with_clock(problem: Problem, easier: _Found, search: _Search) -> _Found:
    """The whole problem, worth no more than the easier one's answer: briefly without linear programmes, and with them.

    The brief search often finds a tour that is worth all that the easier one allows; the other proves what is not. They
    run side by side, and the brief one is waited for in any case, so that the answer does not hang on which is quicker.
    """
    settled = threading.Event()
    thorough = replace(search, stop=lambda: settled.is_set() or (search.stop is not None and search.stop()))
    with ThreadPoolExecutor(1) as pool:
        proving = pool.submit(_searched, _bounded(problem, easier), thorough)
        first = _searched(_bounded(problem, easier), search, LIGHT, work=_BRIEF_WORK)
        if first.proven or search.stopped:
            settled.set()
        second = proving.result()
    if first.proven or search.stopped:
        return first
    search.stopped = thorough.stopped
    best = max((second, first), key=_rank)
    if best.proven:
        return best
    return replace(best, bound=min([easier.bound, *(one.bound for one in (first, second) if one.values is not None)]))


def _rank(found: _Found) -> tuple[bool, bool, float]:
    """What is proven first, then what is worth more."""
    return found.proven, found.values is not None, found.values.objective_value if found.values is not None else 0.0


def _bounded(problem: Problem, easier: _Found) -> Model:
    """The whole model, worth no more than the easier problem's answer, which it starts from."""
    model = model_of(problem)
    model.cp.add(model.objective <= easier.bound)
    if easier.values is not None:
        for names, values in ((model.visit, easier.model.visit), (model.told, easier.model.told)):
            for name, variable in names.items():
                model.cp.add_hint(variable, int(easier.values.boolean_value(values[name])))
        for pair, arc in model.arcs.items():
            model.cp.add_hint(arc, int(easier.values.boolean_value(easier.model.arcs[pair])))
    return model


def _searched(
    model: Model, search: _Search, linear: int = FULL, *, work: float | None = None, share: float = 1.0
) -> _Found:
    """One search. One worker does the same every time, and with the whole linear programme it proves soonest here."""
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    parameters = solver.parameters
    parameters.random_seed = SEED
    parameters.num_workers = 1
    parameters.linearization_level = linear
    parameters.max_time_in_seconds = search.left * share
    parameters.max_deterministic_time = search.left_work * share if work is None else work
    with _stoppable(solver, search):
        status = solver.solve(model.cp, _listener(cp_model, search))
    search.worked += solver.response_proto.deterministic_time
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    bound = round(solver.best_objective_bound) if status != cp_model.INFEASIBLE else 0
    return _Found(model, solver if found else None, bound, status in (cp_model.OPTIMAL, cp_model.INFEASIBLE))


def _listener(cp_model: Any, search: _Search) -> Any:
    """What the solver tells of each better tour."""

    class Listener(cp_model.CpSolverSolutionCallback):  # type: ignore[misc]
        def on_solution_callback(self) -> None:
            if search.progress is not None:
                search.progress(points(self.objective_value), points(self.best_objective_bound))

    return Listener()


@contextmanager
def _stoppable(solver: Any, search: _Search) -> Any:
    """While it searches, ask every now and then whether to stop."""
    ended = threading.Event()

    def look(stop: Asked) -> None:
        while not ended.wait(_LOOK_EVERY_S):
            if stop():
                search.stopped = True
                solver.stop_search()
                return

    watcher = threading.Thread(target=look, args=(search.stop,), daemon=True) if search.stop else None
    if watcher is not None:
        watcher.start()
    try:
        yield
    finally:
        ended.set()
        if watcher is not None:
            watcher.join()


def _solution(found: _Found, took: float) -> Solution:
    if found.values is None:
        return Solution((), 0.0, 0.0 if found.proven else points(found.bound), proven=found.proven, seconds=took)
    stops = _stops(found.model, found.values)
    needless = sum(found.values.value(wait) for wait in found.model.waits.values()) - _waited(stops)
    value = points(round(found.values.objective_value) + IDLE * needless)
    bound = value if found.proven else points(found.bound)
    return Solution(stops=stops, value=value, bound=bound, proven=found.proven, seconds=took)


def _waited(stops: Iterable[PlannedStop]) -> int:
    return sum(round(stop.wait * TENTHS) for stop in stops)


def _stops(model: Model, values: Any) -> tuple[PlannedStop, ...]:
    """The round that was found, from the street on, with its clock; nobody waits longer, or earlier, than they must."""
    problem = model.problem
    following = {one: other for (one, other), arc in model.arcs.items() if values.boolean_value(arc)}
    stops: list[PlannedStop] = []
    clock, node = 0, STREET
    while following[node] != STREET:
        before, node = node, following[node]
        told = [one for one in model.choices(node) if values.boolean_value(model.told[one.ref])]
        arrive = clock + (walk(problem, before, node) or 0)
        wait = round(shortest_wait([(one.tenths, one.windows) for one in told], arrive) or 0)
        leave = arrive + wait + sum(one.tenths for one in told)
        stops.append(
            PlannedStop(
                station=str(problem.start) if node == PARTING else node,
                tellings=tuple(one.ref for one in told),
                walk=(arrive - clock) / TENTHS,
                arrive=arrive / TENTHS,
                wait=wait / TENTHS,
                leave=leave / TENTHS,
                pinned=node in problem.pinned,
            )
        )
        clock = leave
    return tuple(stops)
