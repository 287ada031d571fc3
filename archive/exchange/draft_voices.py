"""Interviews as values, and the whole collection that they belong to."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from pathlib import Path

from archive.exchange.draft import (
    CardDraft,
    ClearanceDraft,
    DemonstrationDraft,
    Draft,
    HazardDraft,
    ObjectDraft,
    PersonDraft,
    PlanDraft,
    ProcessDraft,
    StatementDraft,
    TellingDraft,
    TermDraft,
    TourDraft,
)
from archive.values.dates import UncertainDate
from archive.values.timecode import Span


@dataclass(frozen=True, kw_only=True)
class PermissionDraft(Draft):
    """What an agreement says of one purpose."""

    purpose: str
    allowed: bool
    from_date: dt.date | None
    withdrawn_on: dt.date | None
    name_form: str
    shown_as: str


@dataclass(frozen=True, kw_only=True)
class AgreementDraft(Draft):
    """What the narrator signed."""

    signed: dt.date | None
    note: str
    permissions: tuple[PermissionDraft, ...]


@dataclass(frozen=True, kw_only=True)
class ClosureDraft(Draft):
    """A stretch that may not be heard or read."""

    span: Span
    reason: str
    review_on: dt.date | None


@dataclass(frozen=True)
class TieDraft:
    """What a segment speaks of: a kind, and a reference or, of a period, its EDTF text."""

    kind: str
    ref: str
    state: str = "accepted"
    made_by: str = ""
    made_on: dt.date | None = None


@dataclass(frozen=True, kw_only=True)
class SegmentDraft(Draft):
    """A stretch of a transcript, its speaker a reference or a label."""

    span: Span
    speaker: str
    label: str
    text: str
    ties: frozenset[TieDraft] = frozenset()


@dataclass(frozen=True, kw_only=True)
class SoundDraft(Draft):
    """A sound file: its name in the folder and where it lies."""

    name: str
    path: Path = field(compare=False)


@dataclass(frozen=True, kw_only=True)
class RecordingDraft(Draft):
    """A recording: the master, copies that came with it, and its transcript, which may be a `draft`."""

    ref: str
    master: SoundDraft
    also: tuple[SoundDraft, ...]
    duration_ms: int
    codec: str
    sample_rate: int
    channels: int
    closures: tuple[ClosureDraft, ...]
    segments: tuple[SegmentDraft, ...]
    draft: bool = False


@dataclass(frozen=True, kw_only=True)
class InterviewDraft(Draft):
    """An interview."""

    ref: str
    title: str
    held: UncertainDate | None
    place: str
    language: str
    narrators: frozenset[str]
    interviewers: frozenset[str]
    covers: UncertainDate | None
    summary: str
    voice_note: str
    agreement: AgreementDraft | None
    recordings: tuple[RecordingDraft, ...]


@dataclass(frozen=True, kw_only=True)
class ClipDraft(Draft):
    """A named excerpt."""

    ref: str
    recording: str
    span: Span
    title: str
    summary: str
    content_advice: str
    stations: frozenset[str]
    objects: frozenset[str]
    processes: frozenset[str]
    hazards: frozenset[str]


@dataclass(frozen=True, kw_only=True)
class CollectionDraft(Draft):
    """Everything of one collection."""

    card: CardDraft
    plan: PlanDraft
    people: tuple[PersonDraft, ...]
    terms: tuple[TermDraft, ...]
    hazards: tuple[HazardDraft, ...]
    processes: tuple[ProcessDraft, ...]
    objects: tuple[ObjectDraft, ...]
    demonstrations: tuple[DemonstrationDraft, ...]
    clearances: tuple[ClearanceDraft, ...]
    interviews: tuple[InterviewDraft, ...]
    clips: tuple[ClipDraft, ...]
    statements: tuple[StatementDraft, ...]
    tellings: tuple[TellingDraft, ...]
    tours: tuple[TourDraft, ...]
    notes: tuple[str, ...] = field(default=(), compare=False)
