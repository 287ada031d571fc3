"""Every change to the papers and the running log of machines; none commits."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import Conflict, Fault, Unacceptable
from archive.objects.clearance import clearance_on
from archive.objects.model import Clearance, MachineRun, MuseumObject
from archive.objects.running.handed import HandedRun
from archive.objects.running.papers import Paper, still_so, values_of
from archive.objects.running.queries import next_position, operators_on, paper_changes, people, run_by_key
from archive.people.model import Person
from archive.store.model import Change

_COLUMNS = ("object_id", "kind", "person_id", "dated", "runs_out", "note")


def add_paper(session: Session, machine: MuseumObject, given: Paper) -> Clearance:
    """A new paper of a machine. An older one of its kind stays: it is what was in force before."""
    row = Clearance(
        object_id=machine.id,
        position=next_position(session),
        kind=given.kind,
        person=_person(session, given.who),
        dated=given.dated,
        runs_out=given.runs_out,
        note=given.note,
    )
    machine.clearances.append(row)
    session.flush()
    return row


def correct_paper(session: Session, row: Clearance, given: Paper) -> None:
    """Put right what a paper says."""
    row.kind, row.person = given.kind, _person(session, given.who)
    row.dated, row.runs_out, row.note = given.dated, given.runs_out, given.note
    session.flush()


def withdraw_paper(session: Session, machine: MuseumObject, row: Clearance) -> None:
    """Take a paper away; what it said stays in the history."""
    # Deleted as it is, not taken out of its machine's list first: the history is to say whose paper it was.
    session.delete(row)
    session.flush()
    session.expire(machine, ["clearances"])


def undo_change(session: Session, machine: MuseumObject, key: int) -> None:
    """Turn one change of a machine's papers back; Conflict when the paper has been changed again since."""
    change = next((row for row in paper_changes(session, machine) if row.id == key), None)
    if change is None or not can_undo(session, change):
        raise Conflict("This was changed again since, so it cannot be undone alone. Undo the newer change first.")
    number = _number(change)
    row = session.get(Clearance, number)
    if row is not None and change.before is None:
        withdraw_paper(session, machine, row)
    elif row is None:
        machine.clearances.append(Clearance(id=number, **values_of(change.before or {})))
    else:
        for name, value in values_of(change.before or {}).items():
            setattr(row, name, value)
    session.flush()
    session.expire(machine, ["clearances"])


def can_undo(session: Session, change: Change) -> bool:
    """Whether the paper is still as this change left it."""
    row = session.get(Clearance, _number(change))
    return still_so(None if row is None else _now(row), change.after)


def take_run(session: Session, given: HandedRun, account_id: int | None, *, lapsed: list[str]) -> MachineRun:
    """Keep a run once: a second handing in of the same key ends a run that was begun, and changes nothing else."""
    row = run_by_key(session, given.key)
    if row is None:
        row = MachineRun(
            key=given.key,
            machine=given.machine,
            demonstration=given.demonstration,
            outing=given.outing,
            operator=given.operator,
            account_id=account_id,
            started_at=given.started_at,
            minutes=given.minutes,
            confirmed=list(given.confirmed),
            faults=given.faults,
            lapsed=lapsed,
        )
        session.add(row)
    elif row.minutes is None and given.minutes is not None:
        row.minutes, row.faults = given.minutes, given.faults
        row.outing = row.outing or given.outing
        row.lapsed = list(dict.fromkeys([*row.lapsed, *lapsed]))
    session.flush()
    return row


def lapsed_on(machine: MuseumObject | None, given: HandedRun) -> list[str]:
    """What of the papers was not in force on the day of a run, in words; empty when all was."""
    if machine is None:
        return ["This collection has no such machine now, so its papers cannot be looked up."]
    lacking = list(clearance_on(machine.clearances, given.day).lacking)
    named = {paper.person_id: paper.person.ref for paper in machine.clearances if paper.person is not None}
    valid = operators_on(machine, given.day, {key: ref for key, ref in named.items() if key is not None})
    if not any(operator.ref == given.operator for operator in valid):
        lacking.append("The operator was not one of the competent operators named for that day.")
    return lacking


def mend(row: MachineRun, *, on: dt.date, who: str, note: str) -> None:
    """Mark a run's fault mended."""
    if not row.faults:
        raise Conflict("This run noted no fault.")
    row.mended_on, row.mended_by, row.mended_note = on, who, note


def open_again(row: MachineRun) -> None:
    """A fault that was marked mended is open again."""
    row.mended_on, row.mended_by, row.mended_note = None, "", ""


def _person(session: Session, ref: str) -> Person | None:
    if not ref:
        return None
    person = next((row for row in people(session) if row.ref == ref), None)
    if person is None:
        raise Unacceptable([Fault("who", 0, "There is no such person", "Choose one from the list")], "The paper")
    return person


def _number(change: Change) -> int:
    return int(change.record.partition(":")[2])


def _now(row: Clearance) -> dict[str, Any]:
    """What a paper says now, as the history writes it."""
    values = {name: getattr(row, name) for name in _COLUMNS}
    return {name: value.isoformat() if isinstance(value, dt.date) else value for name, value in values.items()}
