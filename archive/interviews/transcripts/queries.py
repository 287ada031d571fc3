"""Selects on transcripts and their versions, for keepers at their work: what is closed is in them too."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.errors import NotAllowed
from archive.interviews.model import Recording, Segment, Tie, TranscriptVersion
from archive.interviews.transcripts.lines import Line, of_row
from archive.people.model import Person
from archive.rights.decisions import Viewer
from archive.store.queries import found


def recording_in_care(session: Session, viewer: Viewer, ref: str) -> Recording:
    """Any recording, closed ones too, for a keeper's care alone."""
    only_care(viewer)
    return found(session.scalar(select(Recording).where(Recording.ref == ref)), "recording", ref)


def segments_in_care(session: Session, viewer: Viewer, recording: Recording) -> Sequence[Segment]:
    """Every segment of a recording in order, with ties and what they lead to, for a keeper's care alone."""
    only_care(viewer)
    targets = (Tie.object, Tie.process, Tie.station, Tie.person, Tie.term)
    whole = selectinload(Segment.ties).options(*(selectinload(target) for target in targets))
    mine = select(Segment).where(Segment.recording_id == recording.id).options(whole)
    return session.scalars(mine.order_by(Segment.position)).all()


def segments_of(session: Session, recording: Recording) -> Sequence[Segment]:
    """Every segment of a recording in order, as the database has them now; for edits."""
    mine = select(Segment).where(Segment.recording_id == recording.id).options(selectinload(Segment.ties))
    return session.scalars(mine.order_by(Segment.position).execution_options(populate_existing=True)).all()


def lines_of(session: Session, recording: Recording) -> list[Line]:
    """The transcript as it stands, line by line; each line knows its segment. For edits and machines, not readers."""
    refs = speaker_refs(session)
    return [line_of(segment, refs) for segment in segments_of(session, recording)]


def line_of(segment: Segment, refs: dict[int, str]) -> Line:
    """A segment as a line; `refs` are the references of people by key."""
    speaker = refs.get(segment.speaker_id, "") if segment.speaker_id is not None else ""
    return Line(
        segment.start_ms,
        segment.end_ms,
        speaker,
        segment.speaker_label,
        segment.text,
        segment.confidence,
        segment.doubtful,
        segment.id,
    )


def speaker_refs(session: Session) -> dict[int, str]:
    """The reference of every person, by key."""
    return {row.id: row.ref for row in session.execute(select(Person.id, Person.ref))}


def people_known(session: Session) -> Sequence[Person]:
    """Every person and firm, by reference."""
    return session.scalars(select(Person).order_by(Person.ref)).all()


def versions(session: Session, recording: Recording) -> Sequence[TranscriptVersion]:
    """Every version of a recording's transcript, the newest first."""
    mine = select(TranscriptVersion).where(TranscriptVersion.recording_id == recording.id)
    return session.scalars(mine.order_by(TranscriptVersion.number.desc())).all()


def version(session: Session, recording: Recording, number: int) -> TranscriptVersion:
    """One version of a recording's transcript."""
    mine = select(TranscriptVersion).where(
        TranscriptVersion.recording_id == recording.id, TranscriptVersion.number == number
    )
    return found(session.scalar(mine), "version", str(number))


def last_version(session: Session, recording: Recording, at_most: int | None = None) -> TranscriptVersion | None:
    """The newest version, or the newest that is no younger than a number."""
    mine = select(TranscriptVersion).where(TranscriptVersion.recording_id == recording.id)
    if at_most is not None:
        mine = mine.where(TranscriptVersion.number <= at_most)
    return session.scalar(mine.order_by(TranscriptVersion.number.desc()).limit(1))


def version_lines(kept: TranscriptVersion) -> list[Line]:
    """The lines that a version kept."""
    return [of_row(row) for row in kept.lines]


def ties_on(session: Session, segment_ids: Iterable[int]) -> Sequence[Tie]:
    """The ties of some segments."""
    return session.scalars(select(Tie).where(Tie.segment_id.in_(list(segment_ids))).order_by(Tie.id)).all()


def only_care(viewer: Viewer) -> None:
    """Refuse everybody but a keeper in care."""
    if not viewer.in_care:
        raise NotAllowed("Only a keeper may open this, to mend it.")
