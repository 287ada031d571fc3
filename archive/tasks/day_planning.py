"""The job that finds the times of a day's departures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.tours.day.asked import read_rules, rules_said
from archive.tours.day.building import Day, day_of
from archive.tours.day.edits import set_times
from archive.tours.day.explaining import moves, why_not
from archive.tours.day.problem import Rules
from archive.tours.day.solving import DayPlan, solve_day
from archive.tours.day.words import advice, clash_told, mend_told, move_told

KIND = "plan a day"


def job_inputs(day: dt.date, rules: Rules, *, role: Role, on: dt.date, who: str) -> dict[str, Any]:
    """What the job is asked with."""
    return {
        "day": day.isoformat(),
        "rules": rules_said(rules),
        "role": role.value,
        "on": on.isoformat(),
        "who": who,
    }


def plan_a_day(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Find the times and set them; where there are none, say which departures are in each other's way."""
    date, rules = dt.date.fromisoformat(inputs["day"]), read_rules(inputs["rules"])
    viewer = Viewer(Role(inputs["role"]), Purpose.TOUR, dt.date.fromisoformat(inputs["on"]))
    progress.tell(0.1, "Reading the day.")
    with store.session() as session:
        day = day_of(session, viewer, date, rules)
        progress.tell(0.3, "Looking for times.")
        plan = solve_day(day.problem, progress=_telling(progress), stop=progress.stop_asked)
        if progress.stop_asked():
            raise Stopped("Stopped. The times are as they were.")
        outcome = _said(day, plan, progress)
    if plan.fits:
        with store.changing(inputs["who"]) as change:
            set_times(change, date, plan.times)
    query = "&".join(f"{name}={value}" for name, value in {**rules_said(rules), "planned": progress.key}.items())
    return {**outcome, "address": f"/desk/days/{date.isoformat()}/?{query}"}


def _telling(progress: Progress) -> Callable[[float, float], None]:
    def tell(value: float, bound: float) -> None:
        share = 1.0 if value <= 0 else min(1.0, max(0.0, bound / value))
        progress.tell(0.3 + 0.6 * share, "Times are found; looking for earlier ones.")

    return tell


def _said(day: Day, plan: DayPlan, progress: Progress) -> dict[str, Any]:
    """What came of it, in words."""
    problem = day.problem
    told: dict[str, Any] = {"fits": plan.fits, "proven": plan.proven, "seconds": round(plan.seconds, 2)}
    if plan.fits:
        moved = moves(problem, plan).items()
        return {**told, "moved": [move_told(problem.by_ref[ref], before, after) for ref, (before, after) in moved]}
    if not plan.proven:
        return {**told, "clashes": [], "mends": []}
    progress.tell(0.6, "Nothing fits. Looking for what stands in the way.")
    why = why_not(problem)
    times = {**why.times, **day.times}
    return {
        **told,
        "between": [problem.by_ref[ref].name for ref in why.refs],
        "clashes": [clash_told(problem, clash, times, day.names) for clash in why.clashes],
        "mends": [
            *(mend_told(problem, mend) for mend in why.mends),
            *dict.fromkeys(advice(problem, clash) for clash in why.clashes if advice(problem, clash)),
        ],
    }
