"""The sheet of one station beside the plan."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup
from sqlalchemy.orm import Session

from archive.evidence.model import Statement
from archive.evidence.queries import ToldStatement, told_statements
from archive.interviews.names import shown_names
from archive.objects.model import MuseumObject
from archive.objects.queries import objects_where
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.processes.queries import processes_at, term_ids_of
from archive.rights.decisions import Viewer
from archive.terms.queries import Word
from archive.web.kiosk.bench import Bench, bench_at
from archive.web.kiosk.explaining import Explainer
from archive.web.kiosk.making import hazards_of
from archive.web.kiosk.voices import Quotation, Voice, quotations_about, voices_about


@dataclass(frozen=True)
class StationPage:
    """Everything told at one station, and the plan with its check lit."""

    bench: Bench
    station: Station
    summary: Markup
    objects: tuple[MuseumObject, ...]
    processes: tuple[Process, ...]
    hazards: tuple[Hazard, ...]
    voices: tuple[Voice, ...]
    quotations: tuple[Quotation, ...]
    statements: tuple[ToldStatement, ...]
    words: tuple[Word, ...]


def station_page(session: Session, viewer: Viewer, ref: str) -> StationPage:
    """The page of one station."""
    bench, station = bench_at(session, ref)
    names = shown_names(session, viewer)
    done_here = processes_at(session, station.id)
    explain = Explainer(session, term_ids_of(session, done_here))
    about = ("station", station.id)
    return StationPage(
        bench=bench,
        station=station,
        summary=explain(station.summary),
        objects=tuple(objects_where(session, MuseumObject.station_id == station.id)),
        processes=tuple(done_here),
        hazards=hazards_of(done_here),
        voices=voices_about(session, viewer, names, about),
        quotations=quotations_about(session, viewer, names, about),
        statements=tuple(told_statements(session, viewer, Statement.stations.any(id=station.id))),
        words=explain.words,
    )
