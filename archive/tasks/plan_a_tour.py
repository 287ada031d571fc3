"""The job "plan a tour": the best tour for some wishes is kept, or why nothing fits is told."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import NotReady
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped
from archive.tours.edits import keep_tour
from archive.tours.planning.planning import plan
from archive.tours.queries import tour, tours
from archive.tours.wishes import Wishes, read_wishes

KIND = "plan a tour"
_FOR = {"families": "families", "school": "a school group", "adults": "adults", "metal": "people who know metal"}


def job_inputs(wishes: Wishes, *, role: Role, on: dt.date, who: str, ref: str | None = None) -> dict[str, Any]:
    """What the job is asked; with a reference, the tour that is planned anew around what is pinned."""
    return {"wishes": wishes.as_data(), "role": role.value, "on": on.isoformat(), "who": who, "ref": ref}


def plan_a_tour(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Plan, keep, and lead to the tour; or to the page that says why nothing fits."""
    wishes = read_wishes(inputs["wishes"])
    viewer = Viewer(Role(inputs["role"]), Purpose.TOUR, dt.date.fromisoformat(inputs["on"]))
    progress.tell(0.0, "Looking at what may be told")

    def told(value: float, bound: float) -> None:
        share = value / bound if bound > 0 else 0.0
        progress.tell(min(max(share, 0.05), 0.99), f"Worth {value:.1f} so far, and never more than {bound:.1f}")

    planned = plan(store.session, wishes, viewer, progress=told, stop=progress.stop_asked)
    if progress.stop_asked():
        raise Stopped("Stopped. No tour was kept.")
    if planned.conflict is not None:
        return {**planned.conflict.as_data(), "address": f"/desk/planning/{progress.key}"}
    if not planned.solution.fits:
        raise NotReady("No tour was found in the time there is. Give fewer wishes, or pin less, and plan again.")
    with store.changing(inputs["who"]) as session:
        ref = _kept_before(session, progress.key)
        if ref is None:
            before = tour(session, inputs["ref"]) if inputs["ref"] else None
            row = keep_tour(
                session,
                inputs["who"],
                ref=inputs["ref"],
                name=before.name if before else _name(wishes),
                summary=before.summary if before else "",
                wishes=wishes,
                solution=planned.solution,
            )
            row.outcome = {**row.outcome, "job": progress.key}
            ref = row.ref
    return {"address": f"/desk/tours/{ref}/edit", "ref": ref}


def _kept_before(session: Session, key: str) -> str | None:
    """The tour that this job kept already, when it is done again after a kill."""
    return next((row.ref for row in tours(session) if row.outcome.get("job") == key), None)


def _name(wishes: Wishes) -> str:
    whom = _FOR.get(wishes.audience, "everybody")
    return f"{wishes.minutes:g} minutes for {whom}"
