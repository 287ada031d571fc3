"""A tour planned from wishes: the best one with what was left out, or why nothing fits."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.tours.planning.building import problem_of
from archive.tours.planning.explaining import explained
from archive.tours.planning.problem import Problem
from archive.tours.planning.relaxing import Conflict, conflict_of
from archive.tours.planning.solution import Solution
from archive.tours.planning.solving import Asked, Told, solve
from archive.tours.queries import tellings_to_plan
from archive.tours.wishes import Wishes

SECONDS = 10.0
Sessions = Callable[[], AbstractContextManager[Session]]


@dataclass(frozen=True)
class Planned:
    """What came of it. `conflict` is there when it is proven that nothing fits."""

    solution: Solution
    conflict: Conflict | None = None


def plan(
    sessions: Sessions,
    wishes: Wishes,
    viewer: Viewer,
    *,
    seconds: float = SECONDS,
    progress: Told | None = None,
    stop: Asked | None = None,
) -> Planned:
    """Plan a tour. Records are read in sessions of their own, and none is open while the solver works."""

    def build(asked: Wishes) -> Problem:
        with sessions() as session:
            return problem_of(session, asked, viewer)

    problem = build(wishes)
    solution = solve(problem, seconds=seconds, progress=progress, stop=stop)
    if solution.fits:
        return Planned(explained(problem, solution))
    if not solution.proven:
        return Planned(solution)
    with sessions() as session:
        names = _names(session, viewer)
    return Planned(solution, conflict_of(wishes, build, names, stop=stop))


def _names(session: Session, viewer: Viewer) -> dict[str, str]:
    """What stations and tellings are called; a voice by its station, since its title may hold a name."""
    told = {
        one.ref: f"a voice at {one.station.name}" if one.clip_id else one.title
        for one in tellings_to_plan(session, viewer)
    }
    return {one.ref: one.name for one in stations(session)} | told
