"""Statements with their evidence, tellings and tours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from archive.evidence.model import EVIDENCE_KINDS
from archive.exchange.checking_reckonings import check_reckoning
from archive.exchange.draft import EvidenceDraft, StatementDraft, StopDraft, TellingDraft, TourDraft
from archive.exchange.draft_voices import InterviewDraft, RecordingDraft
from archive.exchange.faults import Place, shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.reading_processes import check_own_name
from archive.exchange.toml_files import TomlTable, parse_toml
from archive.tours.model import AUDIENCES, DEPTHS, NEEDS, TELLING_KINDS, THEMES
from archive.values.timecode import format_timecode

NAME, SHORT = 300, 120
# Minutes are written to a tenth, so their sum may be a little over.
MINUTES_GRACE = 0.05


def read_toml_list(files: FolderFiles, name: str, key: str, known: Known, kind: str) -> list[TomlTable]:
    """The tables of a file that is one list of records; a file that is not there is empty."""
    if not files.has(name):
        return []
    text = files.text(name)
    table = None if text is None else parse_toml(text, name, files.faults)
    if table is None:
        known.unsure.add(kind)
        return []
    rows = table.tables(key)
    table.finish()
    return rows


def read_statements(
    files: FolderFiles, known: Known, interviews: Sequence[InterviewDraft]
) -> tuple[StatementDraft, ...]:
    """statements.toml"""
    recordings = {recording.ref: recording for interview in interviews for recording in interview.recordings}

    def statement(row: TomlTable) -> StatementDraft:
        ref = row.ref("ref")
        known.add("statement", ref, row.place("ref"))
        about = row.table("about")
        ties = {kind: frozenset(known.ties(kind, about, key) if about else ()) for kind, key in _ABOUT}
        if about:
            about.finish()
        draft = StatementDraft(
            origin=row.place("ref"),
            ref=ref,
            text=row.text("text", required=True),
            note=row.text("note"),
            stations=ties["station"],
            processes=ties["process"],
            objects=ties["object"],
            evidence=tuple(_evidence(piece, known, recordings) for piece in row.tables("evidence")),
        )
        row.finish()
        return draft

    rows = read_toml_list(files, "statements.toml", "statements", known, "statement")
    return tuple(statement(row) for row in rows)


_ABOUT = (("station", "stations"), ("process", "processes"), ("object", "objects"))


def _evidence(row: TomlTable, known: Known, recordings: Mapping[str, RecordingDraft]) -> EvidenceDraft:
    kind = row.choice("kind", EVIDENCE_KINDS)
    own: dict[str, Any] = {}
    if kind == "segment":
        own = _segment(row, known, recordings)
    elif kind == "object":
        own = {"object": known.tie("object", row, "object")}
    elif kind == "document":
        own = {"document": row.text("document", required=True)}
    else:
        own = {
            "reckoner": row.text("reckoner", required=True, limit=80),
            "inputs": row.free("inputs"),
            "figure": row.text("figure", limit=200),
        }
        check_reckoning(row, "reckoner", own["reckoner"], own["inputs"], own["figure"])
    draft = EvidenceDraft(
        origin=row.place(),
        side=row.choice("side", ("for", "against")),
        kind=kind,
        source=row.text("source", limit=SHORT),
        firsthand=row.flag("firsthand", default=True),
        **own,
    )
    row.finish()
    return draft


def _segment(row: TomlTable, known: Known, recordings: Mapping[str, RecordingDraft]) -> dict[str, Any]:
    ref, at = known.tie("recording", row, "recording"), row.time("at")
    recording = recordings.get(ref)
    if recording is None or at is None:
        return {"recording": ref}
    position = segment_at(recording, at)
    if position is None:
        found = f"nobody speaks at {format_timecode(at)} in {shown(ref)}"
        row.fault("at", found, "Write a time that falls inside a segment of its transcript")
    return {"recording": ref, "segment": position or 0}


def segment_at(recording: RecordingDraft, at_ms: int) -> int | None:
    """The place of the segment in which a time falls: of several, the one begun last, and of these the first."""
    inside = [
        (-segment.span.start_ms, position)
        for position, segment in enumerate(recording.segments)
        if segment.span.start_ms <= at_ms < segment.span.end_ms
    ]
    return min(inside)[1] if inside else None


def read_tellings(files: FolderFiles, known: Known) -> tuple[TellingDraft, ...]:
    """tellings.toml"""

    def telling(row: TomlTable) -> TellingDraft:
        ref, kind = row.ref("ref"), row.choice("kind", TELLING_KINDS)
        known.add("telling", ref, row.place("ref"))
        draft = TellingDraft(
            origin=row.place("ref"),
            ref=ref,
            station=known.tie("station", row, "station"),
            kind=kind,
            title=row.text("title", required=True, limit=NAME),
            minutes=row.number("minutes", 0.05, 600),
            script=row.text("script"),
            clip=known.tie("clip", row, "clip", required=kind == "clip"),
            object=known.tie("object", row, "object", required=kind == "object"),
            demonstration=known.tie("demonstration", row, "demonstration", required=kind == "demonstration"),
            themes=row.choices("themes", THEMES),
            depth=row.choice("depth", DEPTHS),
            audiences=row.choices("audiences", AUDIENCES),
            language=row.language("language"),
            statements=frozenset(known.ties("statement", row, "statements")),
            withdrawn=row.flag("withdrawn", default=False),
        )
        row.finish()
        return draft

    return tuple(telling(row) for row in read_toml_list(files, "tellings.toml", "tellings", known, "telling"))


def read_tours(files: FolderFiles, known: Known, tellings: Sequence[TellingDraft]) -> tuple[TourDraft, ...]:
    """tours/*.toml"""
    by_ref = {telling.ref: telling for telling in tellings}
    drafts = []
    for file_name in files.names("tours", ".toml"):
        name = f"tours/{file_name}"
        text = files.text(name)
        table = None if text is None else parse_toml(text, name, files.faults)
        if table is None:
            known.unsure.add("tour")
            continue
        drafts.append(_tour(table, known, by_ref))
        check_own_name(table, file_name.removesuffix(".toml"))
    return tuple(drafts)


def _tour(table: TomlTable, known: Known, tellings: Mapping[str, TellingDraft]) -> TourDraft:
    ref = table.ref("ref")
    known.add("tour", ref, table.place("ref"))
    draft = TourDraft(
        origin=table.place("minutes"),
        ref=ref,
        name=table.text("name", required=True, limit=NAME),
        summary=table.text("summary", required=True),
        audience=table.choice("audience", AUDIENCES),
        minutes=table.number("minutes", 1, 1440),
        group_size=table.whole("group_size", 1, 1000),
        needs=table.choices("needs", NEEDS),
        start=known.tie("station", table, "start", required=False),
        finish=known.tie("station", table, "finish", required=False),
        inputs=table.free("inputs"),
        stops=tuple(_stop(row, known, tellings) for row in table.tables("stops")),
    )
    table.finish()
    _check_minutes(draft, known, tellings)
    return draft


def _stop(row: TomlTable, known: Known, tellings: Mapping[str, TellingDraft]) -> StopDraft:
    station, chosen = known.tie("station", row, "station"), known.ties("telling", row, "tellings")
    for ref in chosen:
        if station and ref in tellings and tellings[ref].station not in ("", station):
            found = f"{shown(ref)} is told at {shown(tellings[ref].station)}"
            row.fault("tellings", found, f"A stop has tellings of its own station, {shown(station)}")
    draft = StopDraft(
        origin=row.place(),
        station=station,
        tellings=chosen,
        walk_minutes=row.number("walk_minutes", 0, 600, default=0),
    )
    row.finish()
    return draft


def _check_minutes(tour: TourDraft, known: Known, tellings: Mapping[str, TellingDraft]) -> None:
    told = [tellings[ref].minutes for stop in tour.stops for ref in stop.tellings if ref in tellings]
    total = sum(told) + sum(stop.walk_minutes for stop in tour.stops)
    if total > tour.minutes + MINUTES_GRACE:
        found = f"its stops take {total:.1f} minutes, and it has {tour.minutes:g}"
        known.faults.add(Place(tour.origin.where, tour.origin.line), found, "Give it more minutes or fewer tellings")
