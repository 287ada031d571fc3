"""Interviews, their segments, and statements as the API gives them: only what is open, under the shown names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from flask import url_for

from archive.evidence.model import Evidence
from archive.evidence.queries import ShownStatement
from archive.interviews.model import Interview, Recording, Segment
from archive.interviews.names import shown_text, speaker_of, words_of
from archive.rights.decisions import Viewer
from archive.web.api.addresses import page_of, stretch_of
from archive.web.api.asking import refs
from archive.web.reading.interview_page import SOUND_FORMS


@dataclass(frozen=True)
class PersonRecord:
    """A person under the shown name."""

    ref: str
    name: str
    url: str | None


@dataclass(frozen=True)
class RecordingRecord:
    """One recording; `duration` is in seconds."""

    ref: str
    duration: float
    segments: str
    sound: tuple[str, ...]
    captions: str


@dataclass(frozen=True)
class InterviewRecord:
    """An open interview; `held` and `covers` are EDTF dates."""

    ref: str
    title: str
    held: str
    place: str
    language: str
    covers: str
    summary: str
    voice_note: str
    narrators: tuple[PersonRecord, ...]
    recordings: tuple[RecordingRecord, ...]
    url: str | None


def interview_record(one: Interview, viewer: Viewer, names: dict[int, str]) -> InterviewRecord:
    """An interview as one viewer may have it."""
    known = [person for person in one.narrators if person.id in names]
    return InterviewRecord(
        ref=one.ref,
        title=shown_text(one.title, one, names),
        held=one.held.text if one.held else "",
        place=shown_text(one.place, one, names),
        language=one.language,
        covers=one.covers.text if one.covers else "",
        summary=shown_text(one.summary, one, names),
        voice_note=one.voice_note,
        narrators=tuple(PersonRecord(p.ref, names[p.id], page_of(viewer, "person", p.ref)) for p in known),
        recordings=tuple(_recording(recording, viewer) for recording in one.recordings),
        url=page_of(viewer, "interview", one.ref),
    )


def _recording(one: Recording, viewer: Viewer) -> RecordingRecord:
    purpose = viewer.purpose.value
    asked: dict[str, Any] = {"for": purpose}
    return RecordingRecord(
        ref=one.ref,
        duration=one.duration_ms / 1000,
        segments=url_for("api.segments", ref=one.ref, purpose=purpose),
        sound=tuple(url_for("media.sound", ref=one.ref, form=form, **asked) for form, _type in SOUND_FORMS),
        captions=url_for("media.captions", ref=one.ref, **asked),
    )


@dataclass(frozen=True)
class SegmentRecord:
    """A stretch of a transcript; `start` and `end` are in seconds; a `draft` was checked by nobody."""

    start: float
    end: float
    speaker: str
    text: str
    url: str
    draft: bool


def segment_record(one: Segment, interview: str, viewer: Viewer, names: dict[int, str]) -> SegmentRecord:
    """A segment of an open interview."""
    url = stretch_of(viewer, interview, one.recording.ref, one.start_ms, one.end_ms)
    return SegmentRecord(
        start=one.start_ms / 1000,
        end=one.end_ms / 1000,
        speaker=speaker_of(one, names),
        text=words_of(one, names),
        url=url,
        draft=one.recording.is_draft,
    )


@dataclass(frozen=True)
class EvidenceRecord:
    """One piece of evidence; which of the fields after `firsthand` are filled depends on its kind."""

    side: str
    kind: str
    firsthand: bool
    speaker: str = ""
    recording: str = ""
    start: float | None = None
    end: float | None = None
    text: str = ""
    object: str = ""
    document: str = ""
    reckoner: str = ""
    figure: str = ""
    url: str | None = None
    draft: bool = False


@dataclass(frozen=True)
class StatementRecord:
    """A statement with the evidence that is open, and the standing that follows from it."""

    ref: str
    text: str
    note: str
    standing: str
    about: Mapping[str, tuple[str, ...]]
    evidence: tuple[EvidenceRecord, ...]
    url: str | None


def statement_record(shown: ShownStatement, viewer: Viewer, names: dict[int, str]) -> StatementRecord:
    """A statement as one viewer may know of it."""
    one = shown.statement
    about = {"stations": refs(one.stations), "processes": refs(one.processes), "objects": refs(one.objects)}
    return StatementRecord(
        ref=one.ref,
        text=one.text,
        note=shown.note,
        standing=shown.standing.value,
        about=about,
        evidence=tuple(_evidence(piece, viewer, names) for piece in shown.evidence),
        url=page_of(viewer, "statement", one.ref),
    )


def _evidence(piece: Evidence, viewer: Viewer, names: dict[int, str]) -> EvidenceRecord:
    record = EvidenceRecord(piece.side, piece.kind, piece.firsthand)
    if piece.segment is not None:
        one = piece.segment
        heard = asdict(segment_record(one, one.recording.interview.ref, viewer, names))
        return replace(record, recording=one.recording.ref, **heard)
    if piece.object is not None:
        return replace(record, object=piece.object.ref, url=page_of(viewer, "object", piece.object.ref))
    return replace(record, document=piece.document, reckoner=piece.reckoner, figure=piece.figure)
