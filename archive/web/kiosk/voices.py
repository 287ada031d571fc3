"""What the kiosk shows of voices: clips in lists, lines of a transcript, and the pages that play them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from archive.interviews import queries as interviews
from archive.interviews.model import Clip, Interview, Recording, Segment
from archive.interviews.names import shown_names, shown_text, speaker_of, words_of
from archive.objects.model import MuseumObject
from archive.plan.model import Station
from archive.processes.model import Hazard, Process
from archive.rights.decisions import Viewer
from archive.store.queries import collection
from archive.terms.model import Term
from archive.values.timecode import Span

Names = dict[int, str]
About = tuple[str, int]  # a kind of record, and its key

_LINES_LOOKED_AT = 40
_LINES_QUOTED = 6


@dataclass(frozen=True)
class Voice:
    """A clip as it stands in a list."""

    ref: str
    title: str
    summary: str
    advice: str
    who: str
    length_ms: int


@dataclass(frozen=True)
class Line:
    """One line of a transcript: when, who and what; `asked` when the interviewer speaks."""

    start_ms: int
    end_ms: int
    who: str
    text: str
    asked: bool


@dataclass(frozen=True)
class Quotation:
    """A line that speaks of something, and where to hear it."""

    interview: str
    recording: str
    line: Line
    draft: bool


@dataclass(frozen=True)
class Player:
    """What is needed to play one recording, or the own sound of a clip of it, with its lines.

    All times are those of the recording. `clip` is "" where the whole of it is played.
    """

    recording: str
    title: str
    start_ms: int
    end_ms: int
    at_ms: int
    lines: tuple[Line, ...]
    language: str
    clip: str = ""
    draft: bool = False

    @property
    def begins_ms(self) -> int:
        """The time of the recording at which the sound begins that is played."""
        return self.start_ms if self.clip else 0


@dataclass(frozen=True)
class Narrator:
    """Who speaks, under the name that may be shown."""

    ref: str
    name: str


@dataclass(frozen=True)
class VoicePage:
    """One clip: the player, and what it speaks of."""

    voice: Voice
    interview: Interview
    interview_title: str
    narrators: tuple[Narrator, ...]
    player: Player
    note: str
    stations: tuple[Station, ...]
    objects: tuple[MuseumObject, ...]
    processes: tuple[Process, ...]
    terms: tuple[Term, ...]


@dataclass(frozen=True)
class InterviewPage:
    """A whole interview: its recordings and its clips."""

    interview: Interview
    title: str
    summary: str
    narrators: tuple[Narrator, ...]
    asked_by: tuple[str, ...]
    players: tuple[Player, ...]
    note: str
    voices: tuple[Voice, ...]


@dataclass(frozen=True)
class VoicesPage:
    """Every open clip, by interview."""

    interviews: tuple[tuple[Interview, str, tuple[Voice, ...]], ...]


def voices_about(session: Session, viewer: Viewer, names: Names, about: About) -> tuple[Voice, ...]:
    """The open clips that speak of a record."""
    clips = interviews.clips(session, viewer, interviews.tied_to(*about))
    return tuple(voice_of(clip, names) for clip in clips)


def voices_on_hazard(session: Session, viewer: Viewer, hazard: Hazard) -> tuple[Voice, ...]:
    """The open clips that bear witness to a hazard."""
    names = shown_names(session, viewer)
    return tuple(voice_of(clip, names) for clip in interviews.testimony(session, viewer, hazard))


def quotations_about(session: Session, viewer: Viewer, names: Names, about: About) -> tuple[Quotation, ...]:
    """A few open lines by narrators that speak of a record: the longest of each interview in turn."""
    spoken = interviews.lines_about(session, viewer, interviews.tied_to(*about), _LINES_LOOKED_AT)
    return tuple(
        Quotation(
            segment.recording.interview.ref, segment.recording.ref, _line(segment, names), segment.recording.is_draft
        )
        for segment in _spread_over_interviews(spoken, _LINES_QUOTED)
    )


def voice_of(clip: Clip, names: Names) -> Voice:
    """A clip as it stands in a list."""
    interview = clip.recording.interview
    return Voice(
        ref=clip.ref,
        title=shown_text(clip.title, interview, names),
        summary=shown_text(clip.summary, interview, names),
        advice=shown_text(clip.content_advice, interview, names),
        who=", ".join(narrator.name for narrator in narrators_of(interview, names)),
        length_ms=clip.span.length_ms,
    )


def narrators_of(interview: Interview, names: Names) -> tuple[Narrator, ...]:
    """The narrators under their shown names."""
    return tuple(Narrator(p.ref, names[p.id]) for p in interview.narrators if p.id in names)


def voice_page(session: Session, viewer: Viewer, ref: str, at_ms: int | None) -> VoicePage:
    """The page of one open clip, to start at a time within it."""
    clip = interviews.clip(session, viewer, ref)
    names = shown_names(session, viewer)
    interview = clip.recording.interview
    ties = interviews.ties_of(session, clip)
    voice = voice_of(clip, names)
    return VoicePage(
        voice=voice,
        interview=interview,
        interview_title=shown_text(interview.title, interview, names),
        narrators=narrators_of(interview, names),
        player=replace(
            _player(session, viewer, clip.recording, names, title=voice.title, span=clip.span, at_ms=at_ms),
            clip=clip.ref,
        ),
        note=interview.voice_note or collection(session).voices_note,
        stations=tuple(tie.station for tie in ties if tie.station),
        objects=tuple(tie.object for tie in ties if tie.object),
        processes=tuple(tie.process for tie in ties if tie.process),
        terms=tuple(tie.term for tie in ties if tie.term),
    )


def interview_page(session: Session, viewer: Viewer, ref: str, recording_ref: str, at_ms: int | None) -> InterviewPage:
    """The page of one open interview; one of its recordings starts at a time, the others at their beginning."""
    interview = interviews.interview(session, viewer, ref)
    names = shown_names(session, viewer)
    mine = [clip for clip in interviews.clips(session, viewer) if clip.recording.interview_id == interview.id]
    title = shown_text(interview.title, interview, names)
    players = [
        _player(
            session,
            viewer,
            recording,
            names,
            title=title,
            span=Span(0, recording.duration_ms),
            at_ms=at_ms if recording.ref == recording_ref else None,
        )
        for recording in interview.recordings
    ]
    return InterviewPage(
        interview=interview,
        title=title,
        summary=shown_text(interview.summary, interview, names),
        narrators=narrators_of(interview, names),
        asked_by=tuple(names[person.id] for person in interview.interviewers if person.id in names),
        players=tuple(players),
        note=interview.voice_note or collection(session).voices_note,
        voices=tuple(voice_of(clip, names) for clip in mine),
    )


def voices_page(session: Session, viewer: Viewer) -> VoicesPage:
    """Every open clip, by interview."""
    names = shown_names(session, viewer)
    clips = interviews.clips(session, viewer)
    told = [
        (interview, shown_text(interview.title, interview, names), _of(interview, clips, names))
        for interview in interviews.interviews(session, viewer)
    ]
    return VoicesPage(tuple(told))


def _of(interview: Interview, clips: Sequence[Clip], names: Names) -> tuple[Voice, ...]:
    return tuple(voice_of(clip, names) for clip in clips if clip.recording.interview_id == interview.id)


def _player(
    session: Session,
    viewer: Viewer,
    recording: Recording,
    names: Names,
    *,
    title: str,
    span: Span,
    at_ms: int | None,
) -> Player:
    lines = tuple(_line(s, names) for s in interviews.lines_within(session, viewer, recording.id, span))
    inside = at_ms is not None and span.start_ms <= at_ms < span.end_ms
    at = at_ms if inside and at_ms is not None else span.start_ms
    language = recording.interview.language
    return Player(recording.ref, title, span.start_ms, span.end_ms, at, lines, language, draft=recording.is_draft)


def _line(segment: Segment, names: Names) -> Line:
    return Line(segment.start_ms, segment.end_ms, speaker_of(segment, names), words_of(segment, names), _asked(segment))


def _asked(segment: Segment) -> bool:
    return segment.speaker_id not in {person.id for person in segment.recording.interview.narrators}


def _spread_over_interviews(segments: Iterable[Segment], most: int) -> list[Segment]:
    """Some segments, taken in turn from each interview, so that nobody's voice crowds out another's."""
    by_interview: dict[int, list[Segment]] = {}
    for segment in segments:
        by_interview.setdefault(segment.recording.interview_id, []).append(segment)
    rounds = [queue[turn] for turn in range(most) for queue in by_interview.values() if turn < len(queue)]
    return sorted(rounds[:most], key=lambda s: (s.recording.ref, s.start_ms))
