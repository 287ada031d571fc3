"""What the Desk's pages on demonstrations show, as frozen records."""

from __future__ import annotations

import datetime as dt
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.objects.model import Demonstration, MachineRun, MuseumObject
from archive.objects.queries import demonstration
from archive.objects.running.checks import Checks
from archive.objects.running.handed import BY_HAND
from archive.objects.running.queries import before_start, demonstrations, machine, people, runs_of
from archive.plan.model import Amenity
from archive.plan.queries import amenities
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.web.desk.running.data import checks_data

LATEST = 5


@dataclass(frozen=True)
class RunLine:
    """One run as it is shown: the operator under the name that may be shown."""

    run: MachineRun
    operator: str


@dataclass(frozen=True)
class DemonstrationLine:
    """A demonstration in the list: whether it may run today, and its last run."""

    checks: Checks
    last: RunLine | None


@dataclass(frozen=True)
class DemonstrationsPage:
    """All demonstrations on a day."""

    collection: Collection
    on: dt.date
    lines: Sequence[DemonstrationLine]


@dataclass(frozen=True)
class DemonstrationPage:
    """One demonstration: its checks, also as data for the page's script, and its latest runs."""

    collection: Collection
    demonstration: Demonstration
    checks: Checks
    data: Mapping[str, Any]
    runs: Sequence[RunLine]
    exits: Sequence[Amenity]


@dataclass(frozen=True)
class LogPage:
    """The running log of a machine, and a form for a run that was written down elsewhere."""

    machine: MuseumObject
    runs: Sequence[RunLine]
    operators: Sequence[tuple[str, str]]
    key: str
    given: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)
    taken: bool = False

    @property
    def shown(self) -> list[tuple[str, str]]:
        """What can be shown on the machine, to choose from."""
        return [(each.ref, each.title) for each in self.machine.demonstrations]

    @property
    def may_write(self) -> bool:
        """Whether the machine has a demonstration and an operator to choose."""
        return bool(self.machine.demonstrations and self.operators)


def demonstrations_page(session: Session, viewer: Viewer) -> DemonstrationsPage:
    """All demonstrations, each with its state for the viewer's day."""
    names = shown_names(session, viewer)
    by_ref = _by_ref(session, names)
    lines = []
    for row in demonstrations(session):
        latest = run_lines(runs_of(session, row.machine.ref, 1), by_ref)
        lines.append(DemonstrationLine(before_start(session, row, viewer, names), latest[0] if latest else None))
    return DemonstrationsPage(collection(session), viewer.on, lines)


def demonstration_page(session: Session, viewer: Viewer, ref: str) -> DemonstrationPage:
    """One demonstration."""
    names = shown_names(session, viewer)
    row = demonstration(session, ref)
    checks = before_start(session, row, viewer, names)
    return DemonstrationPage(
        collection=collection(session),
        demonstration=row,
        checks=checks,
        data=checks_data(checks),
        runs=run_lines(runs_of(session, row.machine.ref, LATEST), _by_ref(session, names)),
        exits=[each for each in amenities(session) if each.kind == "exit"],
    )


def log_page(
    session: Session,
    viewer: Viewer,
    ref: str,
    *,
    given: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
    taken: bool = False,
) -> LogPage:
    """The log of one machine; after a refusal with what was given and what is wrong with it."""
    names = shown_names(session, viewer)
    row = machine(session, ref)
    named = {paper.person for paper in row.clearances if paper.kind == "operator" and paper.person is not None}
    operators = sorted((names[person.id], person.ref) for person in named if person.id in names)
    return LogPage(
        machine=row,
        runs=run_lines(runs_of(session, ref), _by_ref(session, names)),
        operators=[(person, name) for name, person in operators],
        key=(given or {}).get("key", "") or BY_HAND + secrets.token_hex(12),
        given=given or {},
        faults=faults or {},
        taken=taken,
    )


def run_lines(runs: Sequence[MachineRun], names: Mapping[str, str]) -> list[RunLine]:
    """Runs with their operators under the names that may be shown."""
    return [RunLine(run, names.get(run.operator, "")) for run in runs]


def _by_ref(session: Session, names: Mapping[int, str]) -> dict[str, str]:
    return {person.ref: names[person.id] for person in people(session) if person.id in names}
