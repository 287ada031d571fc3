"""Interviews, recordings, segments, clips and their ties as records."""

from __future__ import annotations

from typing import Any

from archive.exchange.draft_voices import (
    AgreementDraft,
    ClipDraft,
    CollectionDraft,
    InterviewDraft,
    RecordingDraft,
    TieDraft,
)
from archive.exchange.keeping import KeptFiles
from archive.exchange.stored import Records
from archive.interviews.model import Clip, Interview, Recording, Rendition, Segment, Tie
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.model import Agreement, Closure, Permission
from archive.terms.model import Term
from archive.values.dates import parse_date

TARGETS: dict[str, type[Any]] = {
    "object": MuseumObject,
    "process": Process,
    "station": Station,
    "person": Person,
    "term": Term,
}


def store_voices(draft: CollectionDraft, records: Records, kept: KeptFiles) -> None:
    """Interviews first; segments and ties, of which there are many, by key once those have theirs."""
    for interview in draft.interviews:
        records.add(interview.ref, _interview(interview, records, kept))
    records.session.flush()
    for interview in draft.interviews:
        for recording in interview.recordings:
            _store_segments(recording, records)
    for clip in draft.clips:
        records.add(clip.ref, _clip(clip, records))


def segment_ref(recording: str, position: int) -> str:
    """What a segment is looked up by among the records."""
    return f"{recording}#{position}"


def _interview(interview: InterviewDraft, records: Records, kept: KeptFiles) -> Interview:
    record = Interview(
        ref=interview.ref,
        title=interview.title,
        held=interview.held,
        place=interview.place,
        language=interview.language,
        covers=interview.covers,
        summary=interview.summary,
        voice_note=interview.voice_note,
        narrators=records.all(Person, interview.narrators),
        interviewers=records.all(Person, interview.interviewers),
        agreement=None if interview.agreement is None else _agreement(interview.agreement),
    )
    for position, recording in enumerate(interview.recordings):
        made = _recording(position, recording, kept)
        record.recordings.append(made)
        records.add(recording.ref, made)
    return record


def _agreement(agreement: AgreementDraft) -> Agreement:
    return Agreement(
        signed=agreement.signed,
        note=agreement.note,
        permissions=[
            Permission(
                purpose=permission.purpose,
                allowed=permission.allowed,
                from_date=permission.from_date,
                withdrawn_on=permission.withdrawn_on,
                name_form=permission.name_form,
                shown_as=permission.shown_as,
            )
            for permission in agreement.permissions
        ],
    )


def _recording(position: int, recording: RecordingDraft, kept: KeptFiles) -> Recording:
    return Recording(
        ref=recording.ref,
        position=position,
        master_name=recording.master.name,
        master_sha256=kept.sounds[recording.master.path],
        duration_ms=recording.duration_ms,
        codec=recording.codec,
        sample_rate=recording.sample_rate,
        channels=recording.channels,
        transcript_state="draft" if recording.draft else "checked" if recording.segments else "none",
        closures=[
            # A folder knows nothing of pauses; when the recording is measured, its closures are guarded again.
            Closure(closure.span, (), recording.duration_ms, reason=closure.reason, review_on=closure.review_on)
            for closure in recording.closures
        ],
        renditions=[
            Rendition(
                kind="supplied",
                form=sound.name.lower().rpartition(".")[2],
                file_name=sound.name,
                sha256=kept.sounds[sound.path],
            )
            for sound in recording.also
        ],
    )


def _store_segments(recording: RecordingDraft, records: Records) -> None:
    key = records.get(Recording, recording.ref).id
    segments = []
    for position, segment in enumerate(recording.segments):
        speaker = records.get(Person, segment.speaker)
        record = Segment(
            recording_id=key,
            position=position,
            start_ms=segment.span.start_ms,
            end_ms=segment.span.end_ms,
            speaker_id=None if speaker is None else speaker.id,
            speaker_label=segment.label,
            text=segment.text,
        )
        segments.append(record)
        records.add(segment_ref(recording.ref, position), record)
    records.session.flush()
    for record, segment in zip(segments, recording.segments, strict=True):
        ordered = sorted(segment.ties, key=lambda tie: (tie.kind, tie.ref, tie.state, tie.made_by, str(tie.made_on)))
        records.session.add_all(_tie(tie, records, segment_id=record.id) for tie in ordered)


def _tie(tie: TieDraft, records: Records, **owner: Any) -> Tie:
    if tie.kind == "period":
        target: dict[str, Any] = {"period": parse_date(tie.ref)}
    else:
        target = {f"{tie.kind}_id": records.get(TARGETS[tie.kind], tie.ref).id}
    return Tie(state=tie.state, made_by=tie.made_by, made_on=tie.made_on, **target, **owner)


def _clip(clip: ClipDraft, records: Records) -> Clip:
    ties = (
        *(TieDraft("station", ref) for ref in sorted(clip.stations)),
        *(TieDraft("object", ref) for ref in sorted(clip.objects)),
        *(TieDraft("process", ref) for ref in sorted(clip.processes)),
    )
    return Clip(
        ref=clip.ref,
        recording_id=records.get(Recording, clip.recording).id,
        start_ms=clip.span.start_ms,
        end_ms=clip.span.end_ms,
        title=clip.title,
        summary=clip.summary,
        content_advice=clip.content_advice,
        ties=[_tie(tie, records) for tie in ties],
        hazards=records.all(Hazard, clip.hazards),
    )
