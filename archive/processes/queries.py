"""Every select on processes and hazards, which are open to all viewers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.processes.model import Hazard, Process, ProcessLink, Reckoning, process_term
from archive.store.queries import found


def processes(session: Session) -> Sequence[Process]:
    """All processes with the links of their chain."""
    return session.scalars(select(Process).options(selectinload(Process.comes_after)).order_by(Process.id)).all()


def process(session: Session, ref: str) -> Process:
    """One process by reference."""
    return found(session.scalar(select(Process).where(Process.ref == ref)), "process", ref)


def links(session: Session) -> Sequence[ProcessLink]:
    """Every arrow of the chain."""
    return session.scalars(select(ProcessLink).order_by(ProcessLink.id)).all()


def hazards(session: Session) -> Sequence[Hazard]:
    """All hazards by name."""
    return session.scalars(select(Hazard).order_by(Hazard.name)).all()


def hazard(session: Session, ref: str) -> Hazard:
    """One hazard by reference."""
    return found(session.scalar(select(Hazard).where(Hazard.ref == ref)), "hazard", ref)


def processes_with_sections(session: Session) -> Sequence[Process]:
    """All processes with their prose, by name."""
    return session.scalars(select(Process).options(selectinload(Process.sections)).order_by(Process.name)).all()


def process_with_all(session: Session, ref: str) -> Process:
    """One process with its sections, neighbours in the chain, stations and hazards."""
    whole = (
        selectinload(Process.sections),
        selectinload(Process.comes_after).joinedload(ProcessLink.after),
        selectinload(Process.comes_before).joinedload(ProcessLink.process),
        selectinload(Process.stations),
        selectinload(Process.hazards),
        selectinload(Process.reckonings),
    )
    return found(session.scalar(select(Process).options(*whole).where(Process.ref == ref)), "process", ref)


def processes_at(session: Session, station_id: int) -> Sequence[Process]:
    """The processes done at a station, with their hazards."""
    mine = select(Process).where(Process.stations.any(id=station_id)).options(selectinload(Process.hazards))
    return session.scalars(mine.order_by(Process.id)).all()


def term_ids_of(session: Session, processes: Iterable[Process]) -> frozenset[int]:
    """The keys of the terms that some processes name."""
    keys = [process.id for process in processes]
    named = select(process_term.c.term_id).where(process_term.c.process_id.in_(keys))
    return frozenset(session.scalars(named))


def processes_using(session: Session, term_id: int) -> Sequence[Process]:
    """The processes that name a term."""
    return session.scalars(select(Process).where(Process.terms.any(id=term_id)).order_by(Process.name)).all()


def reckonings_told(session: Session) -> Sequence[tuple[Process, Reckoning]]:
    """Every sum that a process tells, in the order of the processes."""
    told = select(Process, Reckoning).join(Reckoning, Reckoning.process_id == Process.id)
    return [(process, mine) for process, mine in session.execute(told.order_by(Process.id, Reckoning.position))]
