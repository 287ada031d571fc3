"""Whether a day's times keep every rule, told moment by moment and by nothing that the planner uses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from archive.tours.day.problem import DayProblem, Going


def broken_rules(problem: DayProblem, times: Mapping[str, int]) -> list[str]:
    """Every rule that is broken at some tenth of a minute."""
    found: set[str] = set()
    for going in problem.goings:
        at = times[going.ref]
        if going.fixed and going.leaves is not None and at != going.leaves:
            found.add(f"{going.ref} is fixed and was moved")
        if not going.fixed and not going.earliest <= at <= going.latest:
            found.add(f"{going.ref} leaves outside its window")
    for moment in _moments(problem, times):
        found.update(_broken_at(problem, times, moment))
    return sorted(found)


def _moments(problem: DayProblem, times: Mapping[str, int]) -> range:
    pause = problem.rules.pause * 10
    first = min(times[one.ref] * 10 + min([0, *(run.begins for run in one.runs)]) for one in problem.goings)
    last = max(times[one.ref] * 10 + one.tenths + pause for one in problem.goings)
    return range(first, last)


def _broken_at(problem: DayProblem, times: Mapping[str, int], moment: int) -> Iterator[str]:
    inside: dict[str, int] = {}
    running: dict[str, set[str]] = {}
    busy: dict[str, set[str]] = {}
    loud: list[tuple[str, str]] = []
    standing: list[tuple[str, str]] = []
    for one in problem.goings:
        clock = moment - times[one.ref] * 10
        for stay in one.rooms:
            if stay.begins <= clock < stay.ends:
                size = min(one.size, problem.capacities[stay.room]) if stay.walking else one.size
                inside[stay.room] = inside.get(stay.room, 0) + size
        standing += [(one.ref, at.station) for at in one.stations if at.begins <= clock < at.ends]
        for run in one.runs:
            if run.begins <= clock < run.ends:
                running.setdefault(run.machine, set()).add(one.ref)
                loud.append((one.ref, run.demonstration))
        if one.guide and _gives(one, clock, problem.rules.pause):
            busy.setdefault(one.guide, set()).add(one.ref)
    yield from (f"{room} is overfull" for room, people in inside.items() if people > problem.capacities[room])
    yield from (f"{machine} runs twice" for machine, refs in running.items() if len(refs) > 1)
    yield from (f"{guide} is in two tours" for guide, refs in busy.items() if len(refs) > 1)
    for runner, demonstration in loud:
        for ref, station in standing:
            if ref != runner and problem.levels.get((demonstration, station), 0) > problem.rules.level_db:
                yield f"{ref} stands in the noise of {demonstration}"


def _gives(one: Going, clock: int, pause: int) -> bool:
    return 0 <= clock < one.tenths + pause * 10
