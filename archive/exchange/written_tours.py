"""The files of a folder for its statements, tellings and tours."""

from __future__ import annotations

from typing import Any

from archive.exchange.draft import EvidenceDraft, StatementDraft, TellingDraft, TourDraft
from archive.exchange.draft_voices import CollectionDraft, RecordingDraft
from archive.exchange.stretches import moment_of
from archive.exchange.toml_files import Sections, write_toml
from archive.values.timecode import format_timecode

Table = dict[str, Any]


def tour_files(draft: CollectionDraft) -> dict[str, str]:
    """Texts by name."""
    recordings = {recording.ref: recording for interview in draft.interviews for recording in interview.recordings}
    files = {f"tours/{tour.ref}.toml": write_toml(_tour(tour)) for tour in draft.tours}
    if draft.statements:
        statements = [_statement(statement, recordings) for statement in draft.statements]
        files["statements.toml"] = write_toml({"statements": Sections(statements)})
    if draft.tellings:
        files["tellings.toml"] = write_toml({"tellings": Sections([_telling(t) for t in draft.tellings])})
    return files


def _statement(statement: StatementDraft, recordings: dict[str, RecordingDraft]) -> Table:
    about = {"stations": statement.stations, "processes": statement.processes, "objects": statement.objects}
    return {
        "ref": statement.ref,
        "text": statement.text,
        "about": {kind: sorted(refs) for kind, refs in about.items() if refs},
        "note": statement.note or None,
        "evidence": Sections([_evidence(piece, recordings) for piece in statement.evidence]),
    }


def _evidence(piece: EvidenceDraft, recordings: dict[str, RecordingDraft]) -> Table:
    table: Table = {
        "side": piece.side,
        "kind": piece.kind,
        "source": piece.source or None,
        "firsthand": piece.firsthand,
    }
    match piece.kind:
        case "segment":
            at = moment_of(recordings[piece.recording], piece.segment)
            return table | {"recording": piece.recording, "at": format_timecode(at)}
        case "object":
            return table | {"object": piece.object}
        case "document":
            return table | {"document": piece.document}
    return table | {"reckoner": piece.reckoner, "inputs": piece.inputs or {}, "figure": piece.figure or None}


def _telling(telling: TellingDraft) -> Table:
    return {
        "ref": telling.ref,
        "station": telling.station,
        "kind": telling.kind,
        "title": telling.title,
        "minutes": telling.minutes,
        "script": telling.script or None,
        "clip": telling.clip or None,
        "object": telling.object or None,
        "demonstration": telling.demonstration or None,
        "themes": telling.themes,
        "depth": telling.depth,
        "audiences": telling.audiences,
        "language": telling.language,
        "statements": sorted(telling.statements),
        "withdrawn": telling.withdrawn or None,
    }


def _tour(tour: TourDraft) -> Table:
    return {
        "ref": tour.ref,
        "name": tour.name,
        "summary": tour.summary,
        "audience": tour.audience,
        "minutes": tour.minutes,
        "group_size": tour.group_size,
        "needs": tour.needs,
        "start": tour.start or None,
        "finish": tour.finish or None,
        "inputs": tour.inputs,
        "stops": Sections(
            [
                {"station": stop.station, "tellings": stop.tellings, "walk_minutes": stop.walk_minutes}
                for stop in tour.stops
            ]
        ),
    }
