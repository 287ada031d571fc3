"""The problem as the solver sees it: one round through the stations that are visited, and the clock along it.

Node 0 is the street: the round leaves it for the start and comes back from the finish. A station that is both start
and finish has a second node for the parting. The sum of all walks, waits and tellings stays within the tour's time;
that plain sum is what makes the proof quick. A clock along the round is added only where a wish needs one: an order,
hours, or something that must come every so often.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field
from typing import Any

from archive.tours.planning.problem import Choice, Problem
from archive.tours.planning.strands import closure, contradicts, strands_of
from archive.tours.planning.worth import IDLE, SLOPES, worth_of

PARTING = "parting"


@dataclass
class Model:
    """A model and the variables by which its answer is read."""

    problem: Problem
    cp: Any
    visit: dict[str, Any] = field(default_factory=dict)
    told: dict[str, Any] = field(default_factory=dict)
    arcs: dict[tuple[str, str], Any] = field(default_factory=dict)
    begin: dict[str, Any] = field(default_factory=dict)
    waits: dict[str, Any] = field(default_factory=dict)
    objective: Any = None

    def told_at(self, node: str) -> Any:
        """The tenths told at a node."""
        return sum(one.tenths * self.told[one.ref] for one in self.choices(node))

    def choices(self, node: str) -> tuple[Choice, ...]:
        """What may be told at a node."""
        return self.problem.by_station.get(node, ())


STREET = ""


def model_of(problem: Problem) -> Model:
    """The whole model."""
    from ortools.sat.python import cp_model

    model = Model(problem, cp_model.CpModel())
    _round(model)
    _tellings(model)
    _order(model)
    if any(one.timed for one in problem.choices):
        _clock(model)
        _hours(model)
    _every(model, problem.voice_every, {one.ref for one in problem.choices if one.is_voice})
    _every(model, problem.seats_every, None)
    _time(model)
    _worth(model)
    return model


def walk(problem: Problem, start: str, finish: str) -> int | None:
    """The tenths from node to node; None where there is no way."""
    one, other = (problem.start if node == PARTING else node for node in (start, finish))
    if STREET in (one, other):
        return 0
    return 0 if one == other else problem.walks.get((str(one), str(other)))


def _round(model: Model) -> None:
    """One round from the street through all nodes that are visited."""
    problem, cp = model.problem, model.cp
    nodes = [place.ref for place in problem.places]
    first, last = problem.start, problem.finish
    if first and first == last:
        nodes.append(PARTING)
        last = PARTING
    number = {STREET: 0} | {node: position + 1 for position, node in enumerate(nodes)}
    literals = []
    for node in nodes:
        model.visit[node] = cp.new_bool_var(f"visit {node}")
        literals.append((number[node], number[node], ~model.visit[node]))
        if node in (first, last) or node in problem.must_stations or node in problem.pinned:
            cp.add(model.visit[node] == 1)
    later = {(after, earlier) for earlier, after in problem.before}
    for one in (STREET, *nodes):
        for other in (STREET, *nodes):
            if one == other or not _may_follow(problem, one, other, (first, last)) or (one, other) in later:
                continue
            arc = cp.new_bool_var(f"{one} to {other}")
            model.arcs[one, other] = arc
            literals.append((number[one], number[other], arc))
    cp.add_circuit(literals)


def _may_follow(problem: Problem, one: str, other: str, ends: tuple[str | None, str | None]) -> bool:
    first, last = ends
    if one == STREET:
        return other != STREET and (first is None or other == first)
    if other == STREET:
        return last is None or one == last
    return one != last and other != first and walk(problem, one, other) is not None


def _tellings(model: Model) -> None:
    """A telling is told only where the group stands, and nobody stops where nothing is told."""
    problem, cp = model.problem, model.cp
    for place in problem.places:
        mine = [cp.new_bool_var(one.ref) for one in model.choices(place.ref)]
        model.told |= dict(zip((one.ref for one in model.choices(place.ref)), mine, strict=True))
        for told in mine:
            cp.add_implication(told, model.visit[place.ref])
        if place.ref not in problem.ends or place.ref in problem.must_stations:
            cp.add_bool_or([*mine, ~model.visit[place.ref]])
    for ref in problem.must_tellings:
        cp.add(model.told[ref] == 1)
    _better_first(model)
    loud = [one for one in problem.choices if one.noise]
    if loud:
        most = min(problem.noise_left, problem.guide_noise_left)
        cp.add(sum(one.noise * model.told[one.ref] for one in loud) <= max(0, most))


def _better_first(model: Model) -> None:
    """Of two tellings at a station that take the same time, the one that is in no way better is not told alone.

    That takes nothing away from the best tour, since the two could be exchanged; it spares the solver the comparing.
    """
    problem, worth = model.problem, worth_of(model.problem)
    gives = {
        one.ref: (*(rule.grains.get(one.ref, 0) for rule in worth.themes), worth.plain.get(one.ref, 0), one.is_voice)
        for one in problem.choices
    }
    for place in problem.places:
        plain = [one for one in model.choices(place.ref) if not one.timed and not one.noise]
        for better, other in itertools.permutations(plain, 2):
            if better.tenths != other.tenths or other.ref in problem.must_tellings:
                continue
            pairs = list(zip(gives[better.ref], gives[other.ref], strict=True))
            first = better.ref < other.ref or gives[better.ref] != gives[other.ref]
            if first and all(one >= two for one, two in pairs):
                model.cp.add_implication(model.told[other.ref], model.told[better.ref])


def _clock(model: Model) -> None:
    """When each stop begins: after the stop before it, the walk, and a wait where something has its hours."""
    problem, cp = model.problem, model.cp
    for node in model.visit:
        model.begin[node] = cp.new_int_var(0, problem.tenths, f"begin {node}")
        if any(one.timed for one in model.choices(node)):
            model.waits[node] = cp.new_int_var(0, problem.tenths, f"wait {node}")
            cp.add(model.waits[node] == 0).only_enforce_if(~model.visit[node])
    for (one, other), arc in model.arcs.items():
        if other == STREET:
            continue
        before = 0 if one == STREET else model.begin[one] + model.told_at(one)
        steps = walk(problem, one, other) or 0
        cp.add(model.begin[other] == before + steps + model.waits.get(other, 0)).only_enforce_if(arc)


def _order(model: Model) -> None:
    """How far the tour has come along each strand of the order never goes back."""
    order = closure(set(model.problem.before) | set(itertools.pairwise(model.problem.pinned)))
    if contradicts(order):
        model.cp.add_bool_or([])
        return
    for number, strand in enumerate(strands_of(model.visit, order)):
        gone = {
            node: model.cp.new_int_var(strand.least[node], strand.most[node], f"strand {number} {node}")
            for node in model.visit
        }
        for (one, other), arc in model.arcs.items():
            if STREET not in (one, other):
                model.cp.add(gone[one] <= gone[other]).only_enforce_if(arc)


def _hours(model: Model) -> None:
    """What has its hours begins within one of them; the tellings before it at the same stop come first.

    Nobody waits longer than until something begins, as `waiting.py` says: where a voice or a seat is wished every so
    often, a longer wait at a stop that has one would hide a gap that comes later.
    """
    cp, prompt = model.cp, bool(model.problem.voice_every or model.problem.seats_every)
    opening: dict[str, list[Any]] = {node: [] for node in model.waits}
    for one in model.problem.choices:
        if not one.timed:
            continue
        here = model.choices(one.station)
        before = sum(other.tenths * model.told[other.ref] for other in here[: here.index(one)])
        begins = model.begin[one.station] + before
        within = []
        for number, (start, end) in enumerate(one.windows):
            chosen = cp.new_bool_var(f"{one.ref} hour {number}")
            cp.add(begins >= start).only_enforce_if(chosen)
            cp.add(begins <= end).only_enforce_if(chosen)
            within.append(chosen)
            if prompt:
                at_once = cp.new_bool_var(f"{one.ref} as hour {number} begins")
                cp.add_implication(at_once, chosen)
                cp.add(begins <= start).only_enforce_if(at_once)
                opening[one.station].append(at_once)
        cp.add(sum(within) == model.told[one.ref])
    for node, mine in opening.items():
        if prompt:
            cp.add(model.waits[node] == 0).only_enforce_if([~one for one in mine])


def _every(model: Model, every: int | None, voices: set[str] | None) -> None:
    """A voice (or, without `voices`, a seat) at least every so often: between stops that have it, and to the end.

    The whole stop counts as having it. `since` is the time from the last one to the leaving of a stop.
    """
    if every is None:
        return
    cp, problem = model.cp, model.problem
    has = {node: _has(model, node, voices) for node in model.visit}
    since = {node: cp.new_int_var(0, every, f"since {node}") for node in model.visit}
    for (one, other), arc in model.arcs.items():
        if other == STREET:
            continue
        arrived = (0 if one == STREET else since[one]) + (walk(problem, one, other) or 0) + model.waits.get(other, 0)
        cp.add(arrived <= every).only_enforce_if(arc)
        if not (isinstance(has[other], int) and has[other]):
            cp.add(since[other] >= arrived + model.told_at(other)).only_enforce_if(arc, *_unless(has[other]))


def _unless(has: Any) -> list[Any]:
    return [] if isinstance(has, int) else [~has]


def _has(model: Model, node: str, voices: set[str] | None) -> Any:
    """Whether a stop has it: 0, 1 or a variable."""
    if voices is None:
        place = model.problem.place.get(model.problem.start or "" if node == PARTING else node)
        return int(place is not None and place.seats)
    mine = [model.told[one.ref] for one in model.choices(node) if one.ref in voices]
    if not mine:
        return 0
    has = model.cp.new_bool_var(f"voice at {node}")
    model.cp.add_max_equality(has, mine)
    return has


def _idle(model: Model) -> Any:
    """The tenths walked and waited."""
    walked = [(walk(model.problem, *pair), arc) for pair, arc in model.arcs.items()]
    return sum(steps * arc for steps, arc in walked if steps) + sum(model.waits.values())


def _time(model: Model) -> None:
    """Everything together stays within the tour's time."""
    told = sum(one.tenths * model.told[one.ref] for one in model.problem.choices)
    model.cp.add(told + _idle(model) <= model.problem.tenths)


def _worth(model: Model) -> None:
    """The rule of `worth.py`: each theme's minutes are cut into steps that count less and less."""
    cp, worth = model.cp, worth_of(model.problem)
    parts = []
    for rule in worth.themes:
        total = sum(rule.grains.values())
        steps = [cp.new_int_var(0, min(rule.step, total), f"{rule.theme} {number}") for number in (1, 2)]
        steps.append(cp.new_int_var(0, total, f"{rule.theme} 3"))
        cp.add(sum(steps) == sum(count * model.told[ref] for ref, count in rule.grains.items()))
        parts += [rule.weight * slope * step for slope, step in zip(SLOPES, steps, strict=True)]
    parts += [count * model.told[ref] for ref, count in worth.plain.items()]
    model.objective = sum(parts) - IDLE * _idle(model)
    cp.maximize(model.objective)
