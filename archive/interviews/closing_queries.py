"""Selects for a keeper who closes passages: what a stretch reaches, and what was done to closures. In care alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import func, select
from sqlalchemy.orm import Session, selectinload

from archive.interviews.closing_history import is_deed
from archive.interviews.model import Clip, Recording, Segment, Tie
from archive.interviews.transcripts.queries import only_care
from archive.rights.decisions import Viewer
from archive.store.model import Change, Load
from archive.values.timecode import Span

_LED_TO = (Tie.object, Tie.process, Tie.station)


def lines_reached(session: Session, viewer: Viewer, recording: Recording, span: Span) -> Sequence[Segment]:
    """The lines of a recording that reach into a stretch, in order, with what they are tied to."""
    only_care(viewer)
    into = (Segment.recording_id == recording.id, Segment.start_ms < span.end_ms, Segment.end_ms > span.start_ms)
    whole = selectinload(Segment.ties).options(*map(selectinload, _LED_TO))
    return session.scalars(select(Segment).where(*into).options(whole).order_by(Segment.position)).all()


def clips_reached(session: Session, viewer: Viewer, recording: Recording, span: Span) -> Sequence[Clip]:
    """The clips of a recording that reach into a stretch, in order, with what they are tied to."""
    only_care(viewer)
    into = (Clip.recording_id == recording.id, Clip.start_ms < span.end_ms, Clip.end_ms > span.start_ms)
    whole = (selectinload(Clip.ties).options(*map(selectinload, _LED_TO)), selectinload(Clip.hazards))
    return session.scalars(select(Clip).where(*into).options(*whole).order_by(Clip.start_ms, Clip.ref)).all()


def closure_changes(session: Session, recording: Recording) -> list[Change]:
    """What was done to a recording's closures since the collection was last loaded, the newest first."""
    loaded = session.scalar(select(func.max(Load.at)))
    done = select(Change).where(Change.record.like("closure:%")).order_by(Change.id.desc())
    if loaded is not None:
        done = done.where(Change.at >= loaded)
    changes = [row for row in session.scalars(done) if is_deed(row)]
    told = {row.record for row in changes if recording.id in (_owner(row.before), _owner(row.after))}
    mine = told | {f"closure:{each.id}" for each in recording.closures}
    return [row for row in changes if row.record in mine]


def _owner(values: Mapping[str, object] | None) -> object:
    return (values or {}).get("recording_id")
