"""Every select on the running of machines: what is checked before a start, the log, open faults, papers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import func, select
from sqlalchemy.orm import Session, selectinload

from archive.errors import NotFound
from archive.objects.clearance import clearance_on
from archive.objects.model import Clearance, Demonstration, MachineRun, MuseumObject
from archive.objects.running.checks import Checks, OpenFault, Operator, Subject, checks_of
from archive.objects.running.line import Line, line_of
from archive.objects.running.sounding import house_of, machine_of
from archive.people.model import Person
from archive.plan.queries import doors, floors
from archive.rights.decisions import Viewer
from archive.store.model import Change, Load
from archive.store.queries import found


def before_start(session: Session, demonstration: Demonstration, viewer: Viewer, names: Mapping[int, str]) -> Checks:
    """What is checked before a demonstration on the viewer's day. `names` are the viewer's shown names."""
    machine = demonstration.machine
    return checks_of(
        subject_of(demonstration),
        viewer.on,
        state=clearance_on(machine.clearances, viewer.on),
        operators=operators_on(machine, viewer.on, names),
        line=line_for(session, demonstration),
        faults=open_faults(session, machine.ref),
    )


def subject_of(demonstration: Demonstration) -> Subject:
    """What the rule needs to know of a demonstration."""
    return Subject(
        ref=demonstration.ref,
        title=demonstration.title,
        machine=demonstration.machine.ref,
        machine_name=demonstration.machine.name,
        minutes=demonstration.minutes,
        warm_up_minutes=demonstration.warm_up_minutes,
        sudden=demonstration.sudden,
        steps=tuple(demonstration.steps),
        cautions=tuple(demonstration.cautions),
    )


def line_for(session: Session, demonstration: Demonstration) -> Line:
    """The line to stand behind, worked out on the plan as it is."""
    own, station = demonstration.stand_back_m, demonstration.machine.station
    if station is None:
        return line_of(own, None, None, sudden=demonstration.sudden)
    levels = floors(session)
    scale = next(floor.metres_per_unit for floor in levels if floor.id == station.room.floor_id)
    machine = machine_of(demonstration, station, scale)
    house = None if machine is None else house_of(levels, doors(session), machine)
    return line_of(own, machine, house, sudden=demonstration.sudden)


def lines_for(session: Session, shown: Iterable[Demonstration | None]) -> dict[str, Line]:
    """The line of each of some demonstrations, by reference; what is none is passed over."""
    by_ref = {one.ref: one for one in shown if one is not None}
    return {ref: line_for(session, one) for ref, one in by_ref.items()}


def operators_on(machine: MuseumObject, on: dt.date, names: Mapping[int, str]) -> tuple[Operator, ...]:
    """The competent operators of a day, each once, by shown name; whom the viewer may not know of is left out."""
    until: dict[int, dt.date] = {}
    people: dict[int, Person] = {}
    for paper in machine.clearances:
        person = paper.person if paper.kind == "operator" and paper.dated <= on <= paper.runs_out else None
        if person is not None and person.id in names:
            people[person.id] = person
            until[person.id] = max(paper.runs_out, until.get(person.id, paper.runs_out))
    rows = [Operator(person.ref, names[key], until[key]) for key, person in people.items()]
    return tuple(sorted(rows, key=lambda row: row.name))


def demonstrations(session: Session) -> Sequence[Demonstration]:
    """All demonstrations with their machines' papers, by title."""
    whole = selectinload(Demonstration.machine).selectinload(MuseumObject.clearances)
    return session.scalars(select(Demonstration).options(whole).order_by(Demonstration.title)).all()


def machine(session: Session, ref: str) -> MuseumObject:
    """One machine by accession number."""
    one = select(MuseumObject).where(MuseumObject.ref == ref, MuseumObject.machine)
    return found(session.scalar(one), "machine", ref)


def paper(session: Session, machine: MuseumObject, key: int) -> Clearance:
    """One paper of a machine."""
    row = session.get(Clearance, key)
    if row is None or row.object_id != machine.id:
        raise NotFound(f"{machine.ref} has no such paper.")
    return row


def next_position(session: Session) -> int:
    """The place after the last paper of all."""
    last = session.scalar(select(func.max(Clearance.position)))
    return 0 if last is None else last + 1


def runs_of(session: Session, machine: str, limit: int = 200) -> Sequence[MachineRun]:
    """The log of a machine, the newest first."""
    mine = select(MachineRun).where(MachineRun.machine == machine)
    return session.scalars(mine.order_by(MachineRun.started_at.desc(), MachineRun.id.desc()).limit(limit)).all()


def run_by_key(session: Session, key: str) -> MachineRun | None:
    """The run with a device's key, if it was handed in."""
    return session.scalar(select(MachineRun).where(MachineRun.key == key))


def run(session: Session, machine: str, key: int) -> MachineRun:
    """One run of a machine."""
    row = session.get(MachineRun, key)
    if row is None or row.machine != machine:
        raise NotFound(f"{machine} has no such run.")
    return row


def open_faults(session: Session, machine: str) -> tuple[OpenFault, ...]:
    """The faults of a machine that are not mended, the oldest first."""
    mine = [row for row in faulty_runs(session) if row.machine == machine]
    return tuple(OpenFault(row.id, row.started_at, row.faults) for row in mine)


def faulty_runs(session: Session) -> Sequence[MachineRun]:
    """All runs with a fault that is not mended, the oldest first."""
    mine = select(MachineRun).where(MachineRun.faults != "", MachineRun.mended_on.is_(None))
    return session.scalars(mine.order_by(MachineRun.started_at)).all()


def runs_out_of_force(session: Session, since: dt.datetime) -> Sequence[MachineRun]:
    """The runs since a moment that had no clearance in force, the newest first."""
    late = select(MachineRun).where(MachineRun.started_at >= since).order_by(MachineRun.started_at.desc())
    return [row for row in session.scalars(late) if row.lapsed]


def people(session: Session) -> Sequence[Person]:
    """Every person, firms left out, for a keeper to choose from."""
    return session.scalars(select(Person).where(Person.kind == "person").order_by(Person.ref)).all()


def paper_changes(session: Session, machine: MuseumObject) -> list[Change]:
    """What was done to a machine's papers since the collection was last loaded, the newest first."""
    loaded = session.scalar(select(func.max(Load.at)))
    done = select(Change).where(Change.record.like("clearance:%")).order_by(Change.id.desc())
    if loaded is not None:
        done = done.where(Change.at >= loaded)
    changes = session.scalars(done).all()
    told = {row.record for row in changes if machine.id in (_owner(row.before), _owner(row.after))}
    mine = told | {f"clearance:{each.id}" for each in machine.clearances}
    return [row for row in changes if row.record in mine]


def _owner(values: Mapping[str, object] | None) -> object:
    return (values or {}).get("object_id")
