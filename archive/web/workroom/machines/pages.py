"""What the Workroom's pages on machines show, as frozen records."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.objects.clearance import ClearanceState, clearance_on
from archive.objects.model import CLEARANCE_KINDS, Clearance, MachineRun, MuseumObject
from archive.objects.queries import machines
from archive.objects.running import queries
from archive.objects.running.edits import can_undo
from archive.rights.decisions import Viewer
from archive.store.model import Change
from archive.web.workroom.machines.told import ChangeLine, change_line

NEAR = dt.timedelta(days=60)
LOOKED_BACK = dt.timedelta(days=365)


@dataclass(frozen=True)
class PaperLine:
    """One paper on a day: whom it names as shown, whether it is in force, has run out, or is not dated yet."""

    paper: Clearance
    who: str
    state: str
    near: bool


@dataclass(frozen=True)
class MachineLine:
    """A machine in the list, with the papers that run out soon and the number of its open faults."""

    machine: MuseumObject
    state: ClearanceState
    soon: Sequence[PaperLine]
    faults: int


@dataclass(frozen=True)
class LapsedRun:
    """A run that had no clearance in force."""

    run: MachineRun
    machine_name: str


@dataclass(frozen=True)
class MachinesPage:
    """All machines that are shown running, then the others; and the runs without a clearance in force."""

    on: dt.date
    shown: Sequence[MachineLine]
    others: Sequence[MachineLine]
    lapsed: Sequence[LapsedRun]


@dataclass(frozen=True)
class MachinePage:
    """One machine: its papers by kind, its faults, and what was done to the papers."""

    on: dt.date
    machine: MuseumObject
    state: ClearanceState
    papers: Sequence[tuple[str, Sequence[PaperLine]]]
    open_faults: Sequence[MachineRun]
    mended: Sequence[MachineRun]
    lapsed: Sequence[MachineRun]
    changes: Sequence[ChangeLine]
    undone: bool = False


@dataclass(frozen=True)
class PaperPage:
    """The form of one paper: a new one, one that renews an older, or one to correct (`paper` is its key then)."""

    machine: MuseumObject
    people: Sequence[tuple[str, str]]
    kinds: Sequence[tuple[str, str]]
    paper: int | None
    renews: int | None
    given: Mapping[str, str]
    faults: Mapping[str, str] = field(default_factory=dict)


def machines_page(session: Session, viewer: Viewer) -> MachinesPage:
    """The list on the viewer's day."""
    names = shown_names(session, viewer)
    faulty = [row.machine for row in queries.faulty_runs(session)]
    every = machines(session)
    lines = [
        MachineLine(
            machine=row,
            state=clearance_on(row.clearances, viewer.on),
            soon=[each for each in paper_lines(row, viewer.on, names) if each.near],
            faults=faulty.count(row.ref),
        )
        for row in every
    ]
    since = dt.datetime.combine(viewer.on - LOOKED_BACK, dt.time.min)
    called = {row.ref: row.name for row in every}
    return MachinesPage(
        on=viewer.on,
        shown=[line for line in lines if line.machine.demonstrations],
        others=[line for line in lines if not line.machine.demonstrations],
        lapsed=[
            LapsedRun(run, called.get(run.machine, run.machine)) for run in queries.runs_out_of_force(session, since)
        ],
    )


def machine_page(session: Session, viewer: Viewer, ref: str, *, undone: bool = False) -> MachinePage:
    """One machine on the viewer's day."""
    names = shown_names(session, viewer)
    row = queries.machine(session, ref)
    lines = paper_lines(row, viewer.on, names)
    runs = queries.runs_of(session, ref)
    return MachinePage(
        on=viewer.on,
        machine=row,
        state=clearance_on(row.clearances, viewer.on),
        papers=[(kind, [line for line in lines if line.paper.kind == kind]) for kind in CLEARANCE_KINDS],
        open_faults=[run for run in runs if run.faults and run.mended_on is None],
        mended=[run for run in runs if run.faults and run.mended_on is not None],
        lapsed=[run for run in runs if run.lapsed],
        changes=[_change(session, change, names) for change in queries.paper_changes(session, row)],
        undone=undone,
    )


def paper_page(
    session: Session,
    viewer: Viewer,
    ref: str,
    *,
    paper: int | None = None,
    renews: int | None = None,
    given: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> PaperPage:
    """The form, filled from the paper that is corrected or renewed, or with what was given and refused."""
    names = shown_names(session, viewer)
    row = queries.machine(session, ref)
    if given is None:
        given = _filled(session, row, paper, renews)
    people = sorted((names[each.id], each.ref) for each in queries.people(session) if each.id in names)
    return PaperPage(
        machine=row,
        people=[(person, name) for name, person in people],
        kinds=[(kind, kind.capitalize()) for kind in CLEARANCE_KINDS],
        paper=paper,
        renews=renews,
        given=given,
        faults=faults or {},
    )


def paper_lines(machine: MuseumObject, on: dt.date, names: Mapping[int, str]) -> list[PaperLine]:
    """The papers of a machine, those that last longest first."""
    papers = sorted(machine.clearances, key=lambda paper: (paper.runs_out, paper.dated), reverse=True)
    return [_line(paper, papers, on, names) for paper in papers]


def _line(paper: Clearance, papers: Sequence[Clearance], on: dt.date, names: Mapping[int, str]) -> PaperLine:
    """A paper that another of its kind (and person, for operators) outlives needs no looking after."""
    same = [each for each in papers if (each.kind, each.person_id if each.kind == "operator" else 0) == _like(paper)]
    followed = any(each.runs_out > paper.runs_out for each in same)
    state = "in force" if paper.dated <= on <= paper.runs_out else "ran out" if paper.runs_out < on else "not yet"
    near = state == "in force" and paper.runs_out - on <= NEAR and not followed
    who = names.get(paper.person_id, "not shown") if paper.person_id is not None else ""
    return PaperLine(paper, who, state, near)


def _like(paper: Clearance) -> tuple[str, int | None]:
    return paper.kind, paper.person_id if paper.kind == "operator" else 0


def _change(session: Session, change: Change, names: Mapping[int, str]) -> ChangeLine:
    return change_line(change, names, can_undo=can_undo(session, change))


def _filled(session: Session, machine: MuseumObject, paper: int | None, renews: int | None) -> dict[str, str]:
    key = paper or renews
    if key is None:
        return {}
    row = queries.paper(session, machine, key)
    kept = {"kind": row.kind, "who": row.person.ref if row.person else "", "note": row.note}
    if renews:
        return kept
    return kept | {"dated": row.dated.isoformat(), "runs_out": row.runs_out.isoformat()}
