"""What the bench's script is told, as plain data: lines, ties, versions, merged parts, suggestions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy.orm import Session

from archive.interviews.model import Recording, Segment, Tie
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.comparing import Piece
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.merging import Part
from archive.interviews.transcripts.replacing import Replacement
from archive.interviews.transcripts.suggesting import Suggestion
from archive.people.model import Person
from archive.rights.decisions import Viewer
from archive.rights.naming import shown_name


def transcript(session: Session, viewer: Viewer, recording: Recording) -> dict[str, Any]:
    """All that the bench needs to begin with."""
    segments, refs = queries.segments_in_care(session, viewer, recording), queries.speaker_refs(session)
    lines = [queries.line_of(segment, refs) for segment in segments]
    return {
        "version": recording.transcript_version,
        "state": recording.transcript_state,
        "duration": recording.duration_ms,
        "lines": [of_line(line) for line in lines],
        "ties": {segment.id: ties(segment) for segment in segments if segment.ties},
        "people": speakers(session, recording, lines),
        "closures": closures(recording),
    }


def of_line(line: Line) -> list[Any]:
    """A line with its key last."""
    return [*line.row, line.key]


def ties(segment: Segment) -> list[dict[str, str]]:
    """What a line is tied to."""
    return [{"kind": tie.kind, "ref": _ref(tie), "name": _name(tie), "state": tie.state} for tie in segment.ties]


def speakers(session: Session, recording: Recording, lines: Iterable[Line]) -> list[dict[str, str]]:
    """Who may speak: first those who do, most said first, then everybody known. An unnamed person stays unnamed."""
    said: dict[str, int] = {}
    for line in lines:
        said[line.speaker] = said.get(line.speaker, 0) + 1
    for person in (*recording.interview.narrators, *recording.interview.interviewers):
        said.setdefault(person.ref, 0)
    people = [person for person in queries.people_known(session) if person.kind == "person"]
    ordered = sorted(people, key=lambda person: (person.ref not in said, -said.get(person.ref, 0), person.ref))
    return [{"ref": person.ref, "name": shown_name(person, ()), "here": person.ref in said} for person in ordered]  # type: ignore[dict-item]


def closures(recording: Recording) -> list[dict[str, Any]]:
    """What is closed and why, and from when to when it hides words: its guard hides them too."""
    return [
        {
            "key": each.id,
            "start": each.start_ms,
            "end": each.end_ms,
            "masked": [each.masked_start_ms, each.masked_end_ms],
            "reason": each.reason,
            "review": each.review_on.isoformat() if each.review_on else "",
        }
        for each in recording.closures
    ]


def parts(merged: Sequence[Part]) -> list[dict[str, Any]]:
    """Merged parts; those that nobody has to choose about tell only the lines that stand."""
    return [
        {
            "from": part.taken_from,
            "lines": [of_line(line) for line in part.lines],
            **({"theirs": [of_line(line) for line in part.theirs]} if part.taken_from == "choose" else {}),
        }
        for part in merged
    ]


def replacements(found: Iterable[Replacement]) -> list[dict[str, Any]]:
    """What would be replaced, line by line."""
    return [{"at": each.at, "text": each.text, "pieces": _pieces(each.pieces)} for each in found]


def suggestions(found: Iterable[Suggestion]) -> list[dict[str, str]]:
    """What a line seems to speak of."""
    return [
        {"kind": each.known.kind, "ref": each.known.ref, "name": each.known.name, "said": each.said} for each in found
    ]


def _pieces(given: Iterable[Piece]) -> list[list[str]]:
    return [[piece.kind, piece.text] for piece in given]


def _ref(tie: Tie) -> str:
    return tie.target.text if tie.kind == "period" else str(tie.target.ref)


def _name(tie: Tie) -> str:
    target = tie.target
    if tie.kind == "period":
        return str(target.text)
    if isinstance(target, Person):
        return shown_name(target, ())
    return str(target.preferred if tie.kind == "term" else target.name)
