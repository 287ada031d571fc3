"""Statements, tellings and tours as records."""

from __future__ import annotations

from archive.evidence.model import Evidence, Statement
from archive.exchange.draft import EvidenceDraft, StatementDraft, TellingDraft, TourDraft
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.stored import Records
from archive.exchange.storing_voices import segment_ref
from archive.interviews.model import Clip, Segment
from archive.objects.model import Demonstration, MuseumObject
from archive.plan.model import Station
from archive.processes.model import Process
from archive.tours.model import Stop, StopTelling, Telling, Tour


def store_tours(draft: CollectionDraft, records: Records) -> None:
    """What guides say and where they go."""
    for statement in draft.statements:
        records.add(statement.ref, _statement(statement, records))
    for telling in draft.tellings:
        records.add(telling.ref, _telling(telling, records))
    for tour in draft.tours:
        records.add(tour.ref, _tour(tour, records))


def _statement(statement: StatementDraft, records: Records) -> Statement:
    return Statement(
        ref=statement.ref,
        text=statement.text,
        note=statement.note,
        stations=records.all(Station, statement.stations),
        processes=records.all(Process, statement.processes),
        objects=records.all(MuseumObject, statement.objects),
        evidence=[_evidence(position, piece, records) for position, piece in enumerate(statement.evidence)],
    )


def _evidence(position: int, piece: EvidenceDraft, records: Records) -> Evidence:
    segment = segment_ref(piece.recording, piece.segment) if piece.kind == "segment" else ""
    return Evidence(
        position=position,
        side=piece.side,
        kind=piece.kind,
        source=piece.source,
        firsthand=piece.firsthand,
        segment=records.get(Segment, segment),
        object=records.get(MuseumObject, piece.object),
        document=piece.document,
        reckoner=piece.reckoner,
        inputs=piece.inputs,
        figure=piece.figure,
    )


def _telling(telling: TellingDraft, records: Records) -> Telling:
    return Telling(
        ref=telling.ref,
        station=records.get(Station, telling.station),
        kind=telling.kind,
        title=telling.title,
        minutes=telling.minutes,
        script=telling.script,
        clip=records.get(Clip, telling.clip),
        object=records.get(MuseumObject, telling.object),
        demonstration=records.get(Demonstration, telling.demonstration),
        themes=list(telling.themes),
        depth=telling.depth,
        audiences=list(telling.audiences),
        language=telling.language,
        statements=records.all(Statement, telling.statements),
        withdrawn=telling.withdrawn,
    )


def _tour(tour: TourDraft, records: Records) -> Tour:
    return Tour(
        ref=tour.ref,
        name=tour.name,
        summary=tour.summary,
        audience=tour.audience,
        minutes=tour.minutes,
        group_size=tour.group_size,
        needs=list(tour.needs),
        start=records.get(Station, tour.start),
        finish=records.get(Station, tour.finish),
        inputs=tour.inputs,
        stops=[
            Stop(
                position=position,
                station=records.get(Station, stop.station),
                walk_minutes=stop.walk_minutes,
                chosen=[
                    StopTelling(position=number, telling=records.get(Telling, ref))
                    for number, ref in enumerate(stop.tellings)
                ],
            )
            for position, stop in enumerate(tour.stops)
        ],
    )
