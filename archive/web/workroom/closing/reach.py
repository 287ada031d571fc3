"""What a closed stretch takes with it: lines, clips, statements, tours, and the places at the kiosk where it stood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from flask import url_for
from sqlalchemy.orm import Session

from archive.evidence.closing_queries import statements_falling
from archive.evidence.model import Statement
from archive.interviews import queries as interviews
from archive.interviews.closing_queries import clips_reached, lines_reached
from archive.interviews.model import Clip, Recording, Segment, Tie
from archive.interviews.names import shown_text, speaker_of, words_of
from archive.interviews.transcripts.queries import people_known
from archive.rights.decisions import Purpose, Role, Viewer
from archive.rights.naming import shown_name
from archive.tours.closing_queries import tellings_falling, tours_touched
from archive.tours.model import Telling, Tour
from archive.values.timecode import Span

Names = dict[int, str]
_PAGES = {"station": "kiosk.station", "object": "kiosk.museum_object", "process": "kiosk.process"}


@dataclass(frozen=True)
class ReachedLine:
    """A line that is hidden: its number on the bench, and whether the guard alone reaches it."""

    number: int
    start_ms: int
    end_ms: int
    who: str
    text: str
    by_guard: bool


@dataclass(frozen=True)
class ReachedClip:
    """A clip that is hidden."""

    ref: str
    title: str
    start_ms: int
    end_ms: int
    by_guard: bool


@dataclass(frozen=True)
class Reach:
    """All that a stretch with its guard takes with it. `places` are kiosk pages that stay, with less on them."""

    lines: Sequence[ReachedLine]
    clips: Sequence[ReachedClip]
    statements: Sequence[Statement]
    tellings: Sequence[Telling]
    tours: Sequence[Tour]
    places: Sequence[tuple[str, str]]

    @property
    def nothing(self) -> bool:
        """Whether the sound alone is silent."""
        return not (self.lines or self.clips)


@dataclass(frozen=True)
class Known:
    """What is the same for every stretch of a recording: shown names, lines that are hidden now, the kiosk's right."""

    names: Names
    hidden: frozenset[int]
    at_kiosk: bool


def known_of(session: Session, viewer: Viewer, recording: Recording) -> Known:
    """What is known of a recording on the viewer's day."""
    visitor = Viewer(Role.VISITOR, Purpose.KIOSK, viewer.on)
    return Known(
        names={person.id: shown_name(person, ()) for person in people_known(session)},
        hidden=interviews.closed_segment_ids(session),
        at_kiosk=recording.interview_id in interviews.open_interview_ids(session, visitor),
    )


def reach_of(session: Session, viewer: Viewer, recording: Recording, known: Known, closed: Span, masked: Span) -> Reach:
    """What falls with a closure; `viewer` is a keeper in care."""
    lines = lines_reached(session, viewer, recording, masked)
    clips = clips_reached(session, viewer, recording, masked)
    statements = statements_falling(session, [line.id for line in lines], known.hidden)
    tellings = tellings_falling(session, [clip.id for clip in clips], [each.id for each in statements])
    return Reach(
        lines=[_line(line, closed, known.names) for line in lines],
        clips=[_clip(clip, closed, known.names) for clip in clips],
        statements=statements,
        tellings=tellings,
        tours=tours_touched(session, [telling.id for telling in tellings]),
        places=_places(lines, clips) if known.at_kiosk else (),
    )


def _line(line: Segment, closed: Span, names: Names) -> ReachedLine:
    by_guard = not line.span.overlaps(closed)
    who, text = speaker_of(line, names), words_of(line, names)
    return ReachedLine(line.position + 1, line.start_ms, line.end_ms, who, text, by_guard)


def _clip(clip: Clip, closed: Span, names: Names) -> ReachedClip:
    title = shown_text(clip.title, clip.recording.interview, names)
    return ReachedClip(clip.ref, title, clip.start_ms, clip.end_ms, not clip.span.overlaps(closed))


def _places(lines: Iterable[Segment], clips: Sequence[Clip]) -> list[tuple[str, str]]:
    """The kiosk's pages on which one of them stood, each once: its address and its name."""
    found: Mapping[str, str] = {
        **dict(_tied([tie for line in lines for tie in line.ties])),
        **dict(_tied([tie for clip in clips for tie in clip.ties])),
        **{url_for("kiosk.hazard", ref=hazard.ref): hazard.name for clip in clips for hazard in clip.hazards},
    }
    return sorted(found.items(), key=lambda place: place[1])


def _tied(ties: Iterable[Tie]) -> Iterator[tuple[str, str]]:
    for tie in ties:
        if tie.state == "accepted" and tie.kind in _PAGES:
            yield url_for(_PAGES[tie.kind], ref=tie.target.ref), tie.target.name
