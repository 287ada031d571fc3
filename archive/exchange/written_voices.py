"""The files of a folder for its interviews and clips; transcripts are always written as WebVTT."""

from __future__ import annotations

from typing import Any

from archive.exchange.columns import CLIPS, TIES
from archive.exchange.csv_tables import join_list, write_table
from archive.exchange.cues import Cue
from archive.exchange.draft_voices import (
    AgreementDraft,
    CollectionDraft,
    InterviewDraft,
    PermissionDraft,
    RecordingDraft,
)
from archive.exchange.stretches import tie_rows
from archive.exchange.toml_files import Section, Sections, write_toml
from archive.exchange.webvtt import write
from archive.exchange.written_things import date_text
from archive.values.timecode import format_timecode

Table = dict[str, Any]


def voice_files(draft: CollectionDraft) -> dict[str, str]:
    """Texts by name."""
    files: dict[str, str] = {}
    owner = {recording.ref: interview.ref for interview in draft.interviews for recording in interview.recordings}
    for interview in draft.interviews:
        folder = f"interviews/{interview.ref}"
        files[f"{folder}/interview.toml"] = write_toml(_interview(interview))
        for recording in interview.recordings:
            if recording.segments:
                files[f"{folder}/{_transcript(interview, recording)}"] = _cues(recording)
        rows = [row for recording in interview.recordings for row in _ties(recording)]
        if rows:
            files[f"{folder}/ties.csv"] = write_table(TIES, rows)
    rows = [
        (
            clip.ref,
            owner[clip.recording],
            clip.recording,
            format_timecode(clip.span.start_ms),
            format_timecode(clip.span.end_ms),
            clip.title,
            clip.summary,
            clip.content_advice,
            join_list(sorted(clip.stations)),
            join_list(sorted(clip.objects)),
            join_list(sorted(clip.processes)),
            join_list(sorted(clip.hazards)),
        )
        for clip in draft.clips
    ]
    return {**files, "clips.csv": write_table(CLIPS, rows)}


def _interview(interview: InterviewDraft) -> Table:
    return {
        "ref": interview.ref,
        "title": interview.title,
        "held": date_text(interview.held) or None,
        "place": interview.place,
        "language": interview.language,
        "narrators": sorted(interview.narrators),
        "interviewers": sorted(interview.interviewers),
        "covers": date_text(interview.covers) or None,
        "summary": interview.summary,
        "voice_note": interview.voice_note or None,
        "agreement": None if interview.agreement is None else Section(_agreement(interview.agreement)),
        "closures": Sections(
            [
                {
                    "recording": recording.ref,
                    "start": format_timecode(closure.span.start_ms),
                    "end": format_timecode(closure.span.end_ms),
                    "reason": closure.reason,
                    "review": closure.review_on,
                }
                for recording in interview.recordings
                for closure in recording.closures
            ]
        ),
        "recordings": Sections(
            [
                {
                    "ref": recording.ref,
                    "audio": recording.master.name,
                    "also": [sound.name for sound in recording.also] or None,
                    "transcript": _transcript(interview, recording) if recording.segments else None,
                    "draft": recording.draft or None,
                }
                for recording in interview.recordings
            ]
        ),
    }


def _agreement(agreement: AgreementDraft) -> Table:
    return {
        "signed": agreement.signed,
        "note": agreement.note or None,
        **{permission.purpose: Section(_permission(permission)) for permission in agreement.permissions},
    }


def _permission(permission: PermissionDraft) -> Table:
    return {
        "allowed": permission.allowed,
        "from": permission.from_date,
        "name": permission.name_form,
        "shown_as": permission.shown_as or None,
        "withdrawn": permission.withdrawn_on,
    }


def _transcript(interview: InterviewDraft, recording: RecordingDraft) -> str:
    """One recording has `transcript.vtt`; several are told apart by number."""
    if len(interview.recordings) == 1:
        return "transcript.vtt"
    return f"transcript-{interview.recordings.index(recording) + 1}.vtt"


def _cues(recording: RecordingDraft) -> str:
    return write(
        Cue(segment.span.start_ms, segment.span.end_ms, segment.speaker or segment.label, segment.text)
        for segment in recording.segments
    )


def _ties(recording: RecordingDraft) -> list[tuple[str, ...]]:
    return [
        (
            recording.ref,
            format_timecode(span.start_ms),
            format_timecode(span.end_ms),
            tie.kind,
            tie.ref,
            tie.state,
            tie.made_by,
            tie.made_on.isoformat() if tie.made_on else "",
        )
        for span, tie in tie_rows(recording)
    ]
