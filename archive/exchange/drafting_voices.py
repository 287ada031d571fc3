"""Interviews and clips of a home as drafts."""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy.orm import Session

from archive.exchange.draft_voices import (
    AgreementDraft,
    ClipDraft,
    ClosureDraft,
    InterviewDraft,
    PermissionDraft,
    RecordingDraft,
    SegmentDraft,
    SoundDraft,
    TieDraft,
)
from archive.exchange.reading_agreements import PURPOSES
from archive.exchange.storing_voices import TARGETS
from archive.interviews.model import Clip, Interview, Recording, Segment, Tie
from archive.people.model import Person
from archive.rights.model import Agreement
from archive.store.files import FileStore
from archive.store.queries import everything
from archive.values.timecode import Span


def draft_interviews(session: Session, files: FileStore) -> tuple[InterviewDraft, ...]:
    """Every interview, what is closed included."""
    people = {person.id: person.ref for person in everything(session, Person)}
    ties = _ties_by_segment(session)
    segments: defaultdict[int, list[SegmentDraft]] = defaultdict(list)
    for segment in sorted(everything(session, Segment), key=lambda segment: segment.position):
        segments[segment.recording_id].append(_segment(segment, people, frozenset(ties[segment.id])))
    return tuple(_interview(interview, segments, files) for interview in everything(session, Interview))


def draft_clips(session: Session) -> tuple[ClipDraft, ...]:
    """Every clip with the stations, objects, processes and hazards that it speaks of."""
    drafts = []
    for clip in everything(session, Clip):
        refs: defaultdict[str, set[str]] = defaultdict(set)
        for tie in clip.ties:
            if tie.kind in ("station", "object", "process"):
                refs[tie.kind].add(tie.target.ref)
        drafts.append(
            ClipDraft(
                ref=clip.ref,
                recording=clip.recording.ref,
                span=clip.span,
                title=clip.title,
                summary=clip.summary,
                content_advice=clip.content_advice,
                stations=frozenset(refs["station"]),
                objects=frozenset(refs["object"]),
                processes=frozenset(refs["process"]),
                hazards=frozenset(hazard.ref for hazard in clip.hazards),
            )
        )
    return tuple(drafts)


def _ties_by_segment(session: Session) -> defaultdict[int, set[TieDraft]]:
    """Read in one go with references by key: there may be a great many."""
    refs: dict[str, dict[int, str]] = {}
    for kind, model in TARGETS.items():
        refs[kind] = {record.id: record.ref for record in everything(session, model)}
    ties: defaultdict[int, set[TieDraft]] = defaultdict(set)
    for tie in everything(session, Tie):
        if tie.segment_id is None:
            continue
        kind, ref = "period", tie.period.text if tie.period else ""
        for name in TARGETS:
            if (key := getattr(tie, f"{name}_id")) is not None:
                kind, ref = name, refs[name][key]
        ties[tie.segment_id].add(TieDraft(kind, ref, tie.state, tie.made_by, tie.made_on))
    return ties


def _segment(segment: Segment, people: dict[int, str], ties: frozenset[TieDraft]) -> SegmentDraft:
    return SegmentDraft(
        span=Span(segment.start_ms, segment.end_ms),
        speaker=people[segment.speaker_id] if segment.speaker_id is not None else "",
        label=segment.speaker_label,
        text=segment.text,
        ties=ties,
    )


def _interview(
    interview: Interview, segments: defaultdict[int, list[SegmentDraft]], files: FileStore
) -> InterviewDraft:
    return InterviewDraft(
        ref=interview.ref,
        title=interview.title,
        held=interview.held,
        place=interview.place,
        language=interview.language,
        narrators=frozenset(person.ref for person in interview.narrators),
        interviewers=frozenset(person.ref for person in interview.interviewers),
        covers=interview.covers,
        summary=interview.summary,
        voice_note=interview.voice_note,
        agreement=_agreement(interview.agreement) if interview.agreement else None,
        recordings=tuple(
            _recording(recording, tuple(segments[recording.id]), files) for recording in interview.recordings
        ),
    )


def _agreement(agreement: Agreement) -> AgreementDraft:
    ordered = sorted(agreement.permissions, key=lambda permission: PURPOSES.index(permission.purpose))
    return AgreementDraft(
        signed=agreement.signed,
        note=agreement.note,
        permissions=tuple(
            PermissionDraft(
                purpose=permission.purpose,
                allowed=permission.allowed,
                from_date=permission.from_date,
                withdrawn_on=permission.withdrawn_on,
                name_form=permission.name_form,
                shown_as=permission.shown_as,
            )
            for permission in ordered
        ),
    )


def _recording(recording: Recording, segments: tuple[SegmentDraft, ...], files: FileStore) -> RecordingDraft:
    closures = [
        ClosureDraft(span=Span(closure.start_ms, closure.end_ms), reason=closure.reason, review_on=closure.review_on)
        for closure in recording.closures
    ]
    return RecordingDraft(
        ref=recording.ref,
        master=SoundDraft(name=recording.master_name, path=files.path(recording.master_sha256)),
        also=tuple(
            SoundDraft(name=copy.file_name, path=files.path(copy.sha256))
            for copy in recording.renditions
            if copy.kind == "supplied"
        ),
        duration_ms=recording.duration_ms,
        codec=recording.codec,
        sample_rate=recording.sample_rate,
        channels=recording.channels,
        closures=tuple(sorted(closures, key=lambda closure: closure.span)),
        segments=segments,
        draft=recording.is_draft,
    )
