"""Planning a tour in the background: the best there is for some wishes, or why nothing fits and what would help."""

from __future__ import annotations

import datetime as dt
import math
from typing import Any

from archive.rights.decisions import Purpose, Role, Viewer, spoken_date
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.tours.edits import keep_tour
from archive.tours.planning.planning import plan
from archive.tours.planning.solution import Solution
from archive.tours.queries import tour
from archive.tours.wishes import Wishes, read_wishes

KIND = "plan a tour"
_WHOM = {
    "families": "Families",
    "school": "A school group",
    "adults": "Adults",
    "metal": "People who know metal",
}


def job_inputs(wishes: Wishes, *, role: Role, on: dt.date, who: str, ref: str | None) -> dict[str, Any]:
    """What the work is told: the wishes, who asks, on which day rights are judged, and the tour to finish if any."""
    return {"wishes": wishes.as_data(), "role": role.value, "on": on.isoformat(), "who": who, "ref": ref}


def plan_a_tour(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Plan and keep the tour; the outcome leads to its page, or to the page that says why there is none."""
    wishes = read_wishes(inputs["wishes"])
    viewer = Viewer(Role(inputs["role"]), Purpose.TOUR, dt.date.fromisoformat(inputs["on"]))
    progress.tell(0.02, "Looking at what may be told, and at the ways from stop to stop.")

    def told(best: float, bound: float) -> None:
        _tell(progress, best, bound)

    planned = plan(store.session, wishes, viewer, progress=told, stop=progress.stop_asked)
    if progress.stop_asked():
        raise Stopped("Stopped. No tour was kept.")
    if planned.solution.fits:
        return {"address": f"/desk/tours/{_kept(store, inputs, wishes, planned.solution)}/edit"}
    why = planned.conflict.as_data() if planned.conflict else {"conflict": [], "helps": []}
    return {"address": f"/desk/planning/{progress.key}", **why}


def _tell(progress: Progress, best: float, bound: float) -> None:
    """How good the best tour so far is, against the best that there could be."""
    share = best / bound if bound > 0 else 0.0
    percent = math.ceil(100 * (1 - share) - 0.001)
    words = f"A tour is found. The best there could be is at most {percent} % better."
    progress.tell(
        min(max(share, 0.05), 0.98), words if percent > 0 else "A tour is found, and no better one is in sight."
    )


def _kept(store: Store, inputs: dict[str, Any], wishes: Wishes, found: Solution) -> str:
    """The reference of the tour, kept as a new one or in the place of what the one to finish was."""
    with store.changing(inputs["who"]) as session:
        ref = inputs["ref"]
        old = tour(session, ref) if ref else None
        name, summary = (old.name, old.summary) if old else (name_of(wishes), "")
        row = keep_tour(session, inputs["who"], ref=ref, name=name, summary=summary, wishes=wishes, solution=found)
        return row.ref


def name_of(wishes: Wishes) -> str:
    """What a tour is called until somebody names it."""
    return f"{_WHOM.get(wishes.audience, 'Anybody')}, {wishes.minutes:g} minutes, {spoken_date(wishes.date)}"
