"""Statements, tellings and tours of a home as drafts."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.evidence.model import Evidence, Statement
from archive.exchange.draft import EvidenceDraft, StatementDraft, StopDraft, TellingDraft, TourDraft
from archive.store.queries import everything
from archive.tours.model import Telling, Tour


def draft_statements(session: Session) -> tuple[StatementDraft, ...]:
    """Every statement with its evidence."""
    return tuple(
        StatementDraft(
            ref=statement.ref,
            text=statement.text,
            note=statement.note,
            stations=frozenset(station.ref for station in statement.stations),
            processes=frozenset(process.ref for process in statement.processes),
            objects=frozenset(thing.ref for thing in statement.objects),
            evidence=tuple(map(_evidence, statement.evidence)),
        )
        for statement in everything(session, Statement)
    )


def draft_tellings(session: Session) -> tuple[TellingDraft, ...]:
    """Every telling."""
    return tuple(
        TellingDraft(
            ref=telling.ref,
            station=telling.station.ref,
            kind=telling.kind,
            title=telling.title,
            minutes=telling.minutes,
            script=telling.script,
            clip=telling.clip.ref if telling.clip else "",
            object=telling.object.ref if telling.object else "",
            demonstration=telling.demonstration.ref if telling.demonstration else "",
            themes=tuple(telling.themes),
            depth=telling.depth,
            audiences=tuple(telling.audiences),
            language=telling.language,
            statements=frozenset(statement.ref for statement in telling.statements),
            withdrawn=telling.withdrawn,
        )
        for telling in everything(session, Telling)
    )


def draft_tours(session: Session) -> tuple[TourDraft, ...]:
    """Every tour with its stops."""
    return tuple(
        TourDraft(
            ref=tour.ref,
            name=tour.name,
            summary=tour.summary,
            audience=tour.audience,
            minutes=tour.minutes,
            group_size=tour.group_size,
            needs=tuple(tour.needs),
            start=tour.start.ref if tour.start else "",
            finish=tour.finish.ref if tour.finish else "",
            inputs=tour.inputs,
            stops=tuple(
                StopDraft(
                    station=stop.station.ref,
                    tellings=tuple(chosen.telling.ref for chosen in stop.chosen),
                    walk_minutes=stop.walk_minutes,
                )
                for stop in tour.stops
            ),
        )
        for tour in everything(session, Tour)
    )


def _evidence(piece: Evidence) -> EvidenceDraft:
    return EvidenceDraft(
        side=piece.side,
        kind=piece.kind,
        source=piece.source,
        firsthand=piece.firsthand,
        recording=piece.segment.recording.ref if piece.segment else "",
        segment=piece.segment.position if piece.segment else 0,
        object=piece.object.ref if piece.object else "",
        document=piece.document,
        reckoner=piece.reckoner,
        inputs=piece.inputs,
        figure=piece.figure,
    )
