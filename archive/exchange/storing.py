"""A draft put into a session as records; nothing is committed here."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.keeping import KeptFiles
from archive.exchange.stored import Records
from archive.exchange.storing_things import store_things
from archive.exchange.storing_tours import store_tours
from archive.exchange.storing_voices import store_voices


def store_draft(session: Session, draft: CollectionDraft, kept: KeptFiles) -> None:
    """Add every record of the draft; its files must be kept already."""
    records = Records(session)
    store_things(draft, records, kept)
    store_voices(draft, records, kept)
    store_tours(draft, records)
    session.flush()


def counts(draft: CollectionDraft) -> dict[str, int]:
    """How many records of each kind, in words for people."""
    recordings = [recording for interview in draft.interviews for recording in interview.recordings]
    return {
        "floors": len(draft.plan.floors),
        "rooms": len(draft.plan.rooms),
        "stations": len(draft.plan.stations),
        "people": len(draft.people),
        "terms": len(draft.terms),
        "hazards": len(draft.hazards),
        "processes": len(draft.processes),
        "objects": len(draft.objects),
        "pictures": sum(len(thing.pictures) for thing in draft.objects),
        "demonstrations": len(draft.demonstrations),
        "interviews": len(draft.interviews),
        "recordings": len(recordings),
        "segments": sum(len(recording.segments) for recording in recordings),
        "clips": len(draft.clips),
        "statements": len(draft.statements),
        "tellings": len(draft.tellings),
        "tours": len(draft.tours),
    }
