"""How easily each depth of each process reads, for the keeper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.processes.depths import DEPTHS, Depth
from archive.processes.model import Process
from archive.processes.queries import processes_with_sections
from archive.processes.readability import Reading, reading_of


@dataclass(frozen=True)
class DepthRead:
    """One depth of a process: its reading, None where it has no words, and whether it is harder than is meant."""

    reading: Reading | None
    hard: bool


@dataclass(frozen=True)
class ProcessRead:
    """A process with the readings of its depths, in their order."""

    process: Process
    depths: tuple[DepthRead, ...]


@dataclass(frozen=True)
class ReadabilityTable:
    """All processes, and how many of their texts read harder than is meant."""

    depths: tuple[Depth, ...]
    rows: tuple[ProcessRead, ...]
    hard: int


def readability_table(session: Session) -> ReadabilityTable:
    """The table, worked out afresh."""
    rows = tuple(_row(process) for process in processes_with_sections(session))
    return ReadabilityTable(DEPTHS, rows, sum(depth.hard for row in rows for depth in row.depths))


def _row(process: Process) -> ProcessRead:
    bodies = {section.heading: section.body for section in process.sections}
    return ProcessRead(process, tuple(_depths(bodies, DEPTHS)))


def _depths(bodies: dict[str, str], depths: Sequence[Depth]) -> list[DepthRead]:
    readings = [(depth, reading_of(bodies.get(depth.heading, ""))) for depth in depths]
    return [DepthRead(reading, reading is not None and reading.ease < depth.least_ease) for depth, reading in readings]
