"""What was not in force for a run that was handed in, by whichever way it came."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.errors import NotFound
from archive.interviews.names import shown_names
from archive.objects.model import MuseumObject
from archive.objects.running import edits, queries
from archive.objects.running.handed import HandedRun
from archive.rights.decisions import Viewer


def lapsed(session: Session, viewer: Viewer, given: HandedRun) -> list[str]:
    """Papers, operator, and checks that were not confirmed, in words."""
    machine = _machine(session, given.machine)
    lacking = edits.lapsed_on(machine, given)
    shown = None if machine is None else next((d for d in machine.demonstrations if d.ref == given.demonstration), None)
    if shown is None:
        return [*lacking, "This collection has no such demonstration of the machine now."]
    checks = queries.before_start(session, shown, viewer, shown_names(session, viewer))
    return [*lacking, *(f"Not confirmed: {each.words}" for each in checks.checks if each.words not in given.confirmed)]


def _machine(session: Session, ref: str) -> MuseumObject | None:
    try:
        return queries.machine(session, ref)
    except NotFound:
        return None
