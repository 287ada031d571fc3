"""What the kiosk shows of the work: processes, their chain, and hazards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup
from sqlalchemy.orm import Session

from archive.evidence.model import Statement
from archive.evidence.queries import ToldStatement, told_statements
from archive.interviews.names import shown_names
from archive.objects.model import MuseumObject, ObjectProcess
from archive.objects.queries import objects_where
from archive.processes import queries
from archive.processes.chain import stages
from archive.processes.drawing import ChainDrawing, draw_chain
from archive.processes.model import Hazard, Process, ProcessLink
from archive.rights.decisions import Viewer
from archive.terms.queries import Word
from archive.web.kiosk.explaining import Explainer
from archive.web.kiosk.voices import Quotation, Voice, quotations_about, voices_about, voices_on_hazard
from archive.web.reckoning.sums import Sum, sum_kept

PASSING = ("What goes in", "What is done", "What comes out")
DEPTHS = ("At a glance", "A closer look", "For people who know metal")
CAUTIONS = "Cautions"


@dataclass(frozen=True)
class Section:
    """A stretch of prose under its heading, its words explained."""

    heading: str
    body: Markup


@dataclass(frozen=True)
class ProcessPage:
    """One process: what passes through it, the three depths, its place in the chain, and what could hurt."""

    process: Process
    chain: ChainDrawing
    passing: tuple[Section, ...]
    depths: tuple[Section, ...]
    sums: tuple[Sum, ...]
    cautions: Markup
    objects: tuple[MuseumObject, ...]
    voices: tuple[Voice, ...]
    quotations: tuple[Quotation, ...]
    statements: tuple[ToldStatement, ...]
    words: tuple[Word, ...]


@dataclass(frozen=True)
class ProcessesPage:
    """The whole chain, drawn, and as a list in the order of the work."""

    chain: ChainDrawing
    processes: tuple[Process, ...]


@dataclass(frozen=True)
class HazardPage:
    """One hazard: then, now, and what keeps it from hurting."""

    hazard: Hazard
    then: Markup
    now: Markup
    controls: tuple[Markup, ...]
    cautions: Markup
    voices: tuple[Voice, ...]
    words: tuple[Word, ...]


def process_page(session: Session, viewer: Viewer, ref: str) -> ProcessPage:
    """The page of one process."""
    process = queries.process_with_all(session, ref)
    explain = Explainer(session, queries.term_ids_of(session, [process]))
    names = shown_names(session, viewer)
    bodies = {section.heading: explain(section.body) for section in process.sections}
    about = ("process", process.id)
    return ProcessPage(
        process=process,
        chain=_neighbours(process),
        passing=_sections(bodies, PASSING),
        depths=_sections(bodies, DEPTHS),
        sums=_sums_of(process),
        cautions=bodies.get(CAUTIONS, Markup("")),
        objects=_objects_of(session, process),
        voices=voices_about(session, viewer, names, about),
        quotations=quotations_about(session, viewer, names, about),
        statements=tuple(told_statements(session, viewer, Statement.processes.any(id=process.id))),
        words=explain.words,
    )


def processes_page(session: Session) -> ProcessesPage:
    """The whole chain."""
    every = {process.ref: process for process in queries.processes(session)}
    arrows = _arrows(list(every.values()), queries.links(session))
    order = [ref for stage in stages(every, arrows) for ref in stage]
    drawing = draw_chain({ref: process.name for ref, process in every.items()}, arrows)
    return ProcessesPage(drawing, tuple(every[ref] for ref in order))


def hazard_page(session: Session, viewer: Viewer, ref: str) -> HazardPage:
    """The page of one hazard."""
    hazard = queries.hazard(session, ref)
    # A hazard stands in many processes, so none of their everyday words ("line", "front") is its own.
    explain = Explainer(session)
    return HazardPage(
        hazard=hazard,
        then=explain(hazard.then),
        now=explain(hazard.now),
        controls=tuple(explain(control.text) for control in hazard.controls),
        cautions=explain(hazard.cautions),
        voices=voices_on_hazard(session, viewer, hazard),
        words=explain.words,
    )


def hazards_of(processes: Iterable[Process]) -> tuple[Hazard, ...]:
    """The hazards of all of them, each once, by name."""
    every = {hazard.id: hazard for process in processes for hazard in process.hazards}
    return tuple(sorted(every.values(), key=lambda hazard: hazard.name))


def _sections(bodies: dict[str, Markup], headings: Sequence[str]) -> tuple[Section, ...]:
    return tuple(Section(heading, bodies[heading]) for heading in headings if heading in bodies)


def _sums_of(process: Process) -> tuple[Sum, ...]:
    """The sums that a process tells, with this works' figures."""
    worked = (sum_kept(one.name, one.inputs, kiosk=True, about=one.about) for one in process.reckonings)
    return tuple(one for one in worked if one)


def _neighbours(process: Process) -> ChainDrawing:
    """The process with what comes just before and after it."""
    before = {link.after.ref: link.after.name for link in process.comes_after}
    after = {link.process.ref: link.process.name for link in process.comes_before}
    arrows = [*((ref, process.ref) for ref in before), *((process.ref, ref) for ref in after)]
    return draw_chain({**before, process.ref: process.name, **after}, arrows)


def _arrows(processes: Sequence[Process], links: Sequence[ProcessLink]) -> list[tuple[str, str]]:
    refs = {process.id: process.ref for process in processes}
    return [(refs[link.after_id], refs[link.process_id]) for link in links]


def _objects_of(session: Session, process: Process) -> tuple[MuseumObject, ...]:
    return tuple(objects_where(session, MuseumObject.process_ties.any(ObjectProcess.process_id == process.id)))
