"""The interview reader's page: a transcript in turns, with what a reader needs beside each line."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any

from flask import url_for
from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.closing import masked_spans
from archive.interviews.model import Interview, Recording, Segment, Tie
from archive.interviews.names import shown_names, shown_text, speaker_of, words_of
from archive.interviews.queries import segments_to_read
from archive.rights.decisions import Viewer
from archive.store.queries import collection
from archive.values.date_words import date_in_words
from archive.values.dates import UncertainDate
from archive.values.timecode import Span, format_seconds, media_fragment
from archive.web.reading.citation import Source
from archive.web.reading.links import Link, record_url, tie_link, time_url
from archive.web.reading.said.outline_page import OutlinePage, outline_page

SOUND_FORMS = (("webm", "audio/webm"), ("mp3", "audio/mpeg"))


@dataclass(frozen=True)
class Line:
    """One segment as it is read."""

    start_ms: int
    end_ms: int
    fragment: str
    url: str
    text: str
    citation: str
    links: tuple[Link, ...]
    chosen: bool


@dataclass(frozen=True)
class Turn:
    """Lines of one speaker in a row. A turn without lines says that a passage is closed, and no more."""

    speaker: str
    asks: bool
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Sound:
    """What the player needs of the recording that is read."""

    ref: str
    duration_ms: int
    sources: tuple[tuple[str, str], ...]
    levels: str
    closed: str
    start: str


@dataclass(frozen=True)
class Part:
    """One recording of the interview, for going from one to the next."""

    ref: str
    url: str
    duration_ms: int
    current: bool


@dataclass(frozen=True)
class InterviewPage:
    """An interview with the transcript of one of its recordings."""

    ref: str
    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    narrators: tuple[Link, ...]
    voice_note: str
    language: str
    sound: Sound
    parts: tuple[Part, ...]
    turns: tuple[Turn, ...]
    citation: str
    draft: bool
    outline: OutlinePage


def interview_page(
    session: Session, viewer: Viewer, interview: Interview, recording: Recording, at_ms: int | None
) -> InterviewPage:
    """The page of an open interview at one recording, with the line at a time chosen."""
    names = shown_names(session, viewer)
    source = source_of(session, interview, names, viewer.on)
    lengths = [(part.ref, part.duration_ms) for part in interview.recordings]
    making = _Lines(source, interview, recording, names, at_ms)
    return InterviewPage(
        ref=interview.ref,
        title=source.title,
        summary=shown_text(interview.summary, interview, names),
        facts=_facts(interview, names),
        narrators=narrator_links(interview, names),
        voice_note=interview.voice_note,
        language=interview.language,
        sound=_sound(recording, at_ms),
        parts=tuple(_part(interview, part, recording) for part in interview.recordings),
        turns=turns_of(making, segments_to_read(session, viewer, recording)),
        citation=source.whole(lengths, draft=any(part.is_draft for part in interview.recordings)),
        draft=recording.is_draft,
        outline=outline_page(session, viewer, recording),
    )


def source_of(session: Session, interview: Interview, names: dict[int, str], read_on: dt.date) -> Source:
    """What is cited of an interview."""
    card = collection(session)
    return Source(
        narrators=[names[person.id] for person in interview.narrators if person.id in names],
        title=shown_text(interview.title, interview, names),
        ref=interview.ref,
        held=in_words(interview.held),
        collection=card.name,
        place=card.place,
        read_on=read_on,
    )


def narrator_links(interview: Interview, names: dict[int, str]) -> tuple[Link, ...]:
    """The narrators under their shown names."""
    known = [person for person in interview.narrators if person.id in names]
    return tuple(Link(_("person"), names[person.id], record_url("person", person.ref)) for person in known)


def in_words(date: UncertainDate | None) -> str:
    """An uncertain date as people read it, or nothing."""
    return date_in_words(date.text) if date else ""


def _facts(interview: Interview, names: dict[int, str]) -> tuple[tuple[str, str], ...]:
    asked = ", ".join(names[person.id] for person in interview.interviewers if person.id in names)
    facts = (
        (_("Held"), in_words(interview.held)),
        (_("Place"), shown_text(interview.place, interview, names)),
        (_("Asked by"), asked),
        (_("Speaks of"), in_words(interview.covers)),
    )
    return tuple(fact for fact in facts if fact[1])


def _sound(recording: Recording, at_ms: int | None) -> Sound:
    return Sound(
        ref=recording.ref,
        duration_ms=recording.duration_ms,
        sources=tuple((url_for("media.sound", ref=recording.ref, form=form), kind) for form, kind in SOUND_FORMS),
        levels=url_for("media.waveform", ref=recording.ref),
        closed=" ".join(media_fragment(span.start_ms, span.end_ms)[2:] for span in masked_spans(recording)),
        start=format_seconds(at_ms) if at_ms else "",
    )


def _part(interview: Interview, part: Recording, current: Recording) -> Part:
    url = url_for("reading.interview", ref=interview.ref, recording=part.ref)
    return Part(part.ref, url, part.duration_ms, part is current)


@dataclass(frozen=True)
class _Lines:
    """Makes the lines of one recording."""

    source: Source
    interview: Interview
    recording: Recording
    names: dict[int, str]
    at_ms: int | None
    known: dict[tuple[str, Any], Link | None] = field(default_factory=dict)

    def line(self, segment: Segment, chosen: bool) -> Line:
        start, end = segment.start_ms, segment.end_ms
        speaker = speaker_of(segment, self.names)
        links = [self.link(tie) for tie in segment.ties if tie.state == "accepted"]
        return Line(
            start_ms=start,
            end_ms=end,
            fragment=media_fragment(start, end),
            url=time_url(self.interview.ref, self.recording.ref, start, end),
            text=words_of(segment, self.names),
            citation=self.source.passage(speaker, self.recording.ref, start, end, draft=self.recording.is_draft),
            links=tuple(link for link in links if link),
            chosen=chosen,
        )

    def link(self, tie: Tie) -> Link | None:
        """Where a tie leads; a transcript speaks of the same things again and again."""
        key = (tie.kind, tie.target)
        if key not in self.known:
            self.known[key] = tie_link(tie, self.names)
        return self.known[key]

    def turn(self, segments: Sequence[Segment], chosen: Segment | None) -> Turn:
        asking = {person.id for person in self.interview.interviewers}
        lines = tuple(self.line(segment, segment is chosen) for segment in segments)
        return Turn(speaker_of(segments[0], self.names) or _("A voice"), segments[0].speaker_id in asking, lines)


def turns_of(making: _Lines, segments: Sequence[Segment]) -> tuple[Turn, ...]:
    """The turns of a recording in order, each closed passage marked once where it falls."""
    closed = masked_spans(making.recording)
    chosen = line_at(segments, making.at_ms)
    turns: list[Turn] = []
    marked = 0
    for (marks, _who), group in groupby(segments, key=lambda one: (_passed(closed, one), _speaker(one))):
        if marks > marked:
            turns.append(Turn("", False))
            marked = marks
        turns.append(making.turn(list(group), chosen))
    if marked < len(closed):
        turns.append(Turn("", False))
    return tuple(turns)


def line_at(segments: Iterable[Segment], at_ms: int | None) -> Segment | None:
    """The last line that has begun at a time."""
    if at_ms is None:
        return None
    begun = [segment for segment in segments if segment.start_ms <= at_ms]
    return begun[-1] if begun else None


def _passed(closed: Sequence[Span], segment: Segment) -> int:
    """How many closed passages lie before a segment."""
    return sum(span.end_ms <= segment.start_ms for span in closed)


def _speaker(segment: Segment) -> tuple[int | None, str]:
    return segment.speaker_id, segment.speaker_label
