"""Whether a tour keeps to everything its problem asks, worked out stop by stop without the solver's model."""

from __future__ import annotations

import itertools

from archive.tours.planning.problem import TENTHS, Problem
from archive.tours.planning.solution import Solution
from archive.tours.planning.worth import points, worth_of

Round = list[tuple[str, tuple[str, ...], int]]


def verify(problem: Problem, solution: Solution) -> list[str]:
    """Everything wrong with a solution; its clock and its worth are reckoned again."""
    round_ = [(stop.station, stop.tellings, round(stop.wait * TENTHS)) for stop in solution.stops]
    wrong = faults(problem, round_)
    clock, before = 0, problem.start
    for stop in solution.stops:
        walk = walked(problem, before, stop.station)
        clock += walk
        wrong += [] if round(stop.arrive * TENTHS) == clock else [f"arrives at {stop.arrive}, not {clock / TENTHS}"]
        clock += round(stop.wait * TENTHS) + sum(problem.choice[ref].tenths for ref in stop.tellings)
        wrong += [] if round(stop.leave * TENTHS) == clock else [f"leaves at {stop.leave}, not {clock / TENTHS}"]
        before = stop.station
    value = points(worth(problem, round_))
    return wrong if value == solution.value else [*wrong, f"is worth {value}, not {solution.value}"]


def worth(problem: Problem, round_: Round) -> int:
    """What a round is worth, by the rule alone."""
    told = [ref for _, refs, _ in round_ for ref in refs]
    return worth_of(problem).of(told, _idle(problem, round_))


def faults(problem: Problem, round_: Round) -> list[str]:
    """Everything that a round breaks."""
    stations = [station for station, _, _ in round_]
    told = [ref for _, refs, _ in round_ for ref in refs]
    wrong = []
    if problem.start and stations[:1] != [problem.start]:
        wrong.append("starts elsewhere")
    if problem.finish and stations[-1:] != [problem.finish]:
        wrong.append("ends elsewhere")
    inner = stations[:-1] if problem.start and problem.start == problem.finish else stations
    if len(inner) != len(set(inner)) or len(told) != len(set(told)):
        wrong.append("comes or tells twice")
    must = problem.must_stations | set(problem.pinned)
    if problem.must_tellings - set(told) or must - set(stations):
        wrong.append("leaves out what must be")
    if [one for one in inner if one in problem.pinned] != list(problem.pinned) and not wrong:
        wrong.append("changes the order of what is pinned")
    for station, refs, _ in round_[: len(inner)]:
        if not refs and (station not in problem.ends or station in problem.must_stations):
            wrong.append(f"tells nothing at {station}")
        wrong += [f"{ref} is not told at {station}" for ref in refs if problem.choice[ref].station != station]
    for one, other in itertools.combinations(inner, 2):
        if (other, one) in problem.before:
            wrong.append(f"{one} comes before {other}")
    for one, other in itertools.pairwise(stations):
        if one != other and (one, other) not in problem.walks:
            wrong.append(f"no way from {one} to {other}")
    noise = sum(problem.choice[ref].noise for ref in told)
    if noise > min(problem.noise_left, problem.guide_noise_left):
        wrong.append("too loud")
    return wrong or _clock_faults(problem, round_)


def _clock_faults(problem: Problem, round_: Round) -> list[str]:
    wrong, clock, before = [], 0, problem.start
    last = {"voice": 0, "seat": 0}
    every = {"voice": problem.voice_every, "seat": problem.seats_every}
    for station, refs, wait in round_:
        clock += walked(problem, before, station) + wait
        has = {"voice": any(problem.choice[ref].is_voice for ref in refs), "seat": problem.place[station].seats}
        for kind, most in every.items():
            if most is not None and clock - last[kind] > most:
                wrong.append(f"no {kind} for {clock - last[kind]} tenths")
        for ref in refs:
            windows = problem.choice[ref].windows
            if windows and not any(start <= clock <= end for start, end in windows):
                wrong.append(f"{ref} begins at {clock}")
            clock += problem.choice[ref].tenths
        for kind, most in every.items():
            last[kind] = clock if has[kind] else last[kind]
            if most is not None and clock - last[kind] > most:
                wrong.append(f"no {kind} for {clock - last[kind]} tenths")
        before = station
    return wrong if clock <= problem.tenths else [*wrong, f"{clock - problem.tenths} tenths over"]


def _idle(problem: Problem, round_: Round) -> int:
    stations = [station for station, _, _ in round_]
    steps = sum(walked(problem, one, other) for one, other in itertools.pairwise(stations))
    return steps + sum(wait for _, _, wait in round_)


def walked(problem: Problem, one: str | None, other: str) -> int:
    """The tenths from one station to another; none from where nothing is fixed."""
    return 0 if one is None or one == other else problem.walks.get((one, other), 0)
