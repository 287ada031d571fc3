"""Clips out of their table."""

from __future__ import annotations

from collections.abc import Sequence

from archive.exchange.columns import CLIPS
from archive.exchange.csv_tables import CsvRow
from archive.exchange.draft_voices import ClipDraft, InterviewDraft
from archive.exchange.faults import shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.known import Known
from archive.exchange.reading_things import read_rows
from archive.exchange.reading_voices import check_inside

NAME = 300
_CLIP_TIES = (("station", "stations"), ("object", "objects"), ("process", "processes"), ("hazard", "hazards"))


def read_clips(files: FolderFiles, known: Known, interviews: Sequence[InterviewDraft]) -> tuple[ClipDraft, ...]:
    """clips.csv"""
    recordings = {
        recording.ref: (interview, recording) for interview in interviews for recording in interview.recordings
    }

    def clip(row: CsvRow) -> ClipDraft | None:
        ref = row.ref("ref")
        known.add("clip", ref, row.place())
        interview, recording = known.tie("interview", row, "interview"), known.tie("recording", row, "recording")
        span = row.span()
        if recording in recordings and interview:
            owner, draft = recordings[recording]
            if owner.ref != interview:
                row.fault(
                    "recording",
                    f"{shown(recording)} is a recording of {shown(owner.ref)}",
                    "Name the interview it is of",
                )
            if span is not None:
                check_inside(span, draft.duration_ms, row.place(), f"the clip {shown(ref)}", known)
        title = row.text("title", required=True, limit=NAME)
        summary, advice = row.text("summary"), row.text("content_advice")
        ties = {kind: frozenset(known.ties(kind, row, key)) for kind, key in _CLIP_TIES}
        if span is None:
            return None
        return ClipDraft(
            origin=row.place(),
            ref=ref,
            recording=recording,
            span=span,
            title=title,
            summary=summary,
            content_advice=advice,
            stations=ties["station"],
            objects=ties["object"],
            processes=ties["process"],
            hazards=ties["hazard"],
        )

    drafts = read_rows(files, "clips.csv", CLIPS, known, "clip", clip)
    return tuple(draft for draft in drafts if draft is not None)
