"""A person's page: what may be known of them, what they told, and who speaks of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.interviews.model import Segment, Tie
from archive.interviews.names import shown_names, shown_text, speaker_of, words_of
from archive.interviews.queries import narrated_by, segments_about
from archive.people.model import Person
from archive.rights.decisions import Viewer
from archive.values.timecode import format_clock
from archive.web.reading.interview_page import in_words
from archive.web.reading.interviews_page import Entry, entry_of
from archive.web.reading.links import record_url, segment_url


@dataclass(frozen=True)
class Passage:
    """A passage that speaks of the person."""

    who: str
    time: str
    url: str
    text: str
    draft: bool


@dataclass(frozen=True)
class PassagesOf:
    """The passages of one interview."""

    title: str
    url: str
    passages: tuple[Passage, ...]


@dataclass(frozen=True)
class PersonPage:
    """A person under the shown name."""

    name: str
    facts: tuple[tuple[str, str], ...]
    interviews: tuple[Entry, ...]
    spoken_of: tuple[PassagesOf, ...]


def person_page(session: Session, viewer: Viewer, person: Person) -> PersonPage:
    """The page of a person whom the viewer may know of."""
    names = shown_names(session, viewer)
    told = narrated_by(session, viewer, person)
    return PersonPage(
        name=names[person.id],
        facts=_facts(person, names[person.id]),
        interviews=tuple(entry_of(interview, names) for interview in told),
        spoken_of=_by_interview(_by_others(session, viewer, person), names),
    )


def _by_others(session: Session, viewer: Viewer, person: Person) -> list[Segment]:
    """Where others speak of the person; a narrator's own interviews are listed whole."""
    tied = segments_about(session, viewer, Tie.person_id == person.id)
    return [one for one in tied if person not in one.recording.interview.narrators]


def _facts(person: Person, shown: str) -> tuple[tuple[str, str], ...]:
    """What is kept of the person; of one who is shown under another name nothing, since it could tell who it is."""
    if shown != person.name:
        return ()
    firm = person.kind == "firm"
    facts = (
        (_("Trade"), person.trade),
        (_("Founded") if firm else _("Born"), in_words(person.born)),
        (_("Closed") if firm else _("Died"), in_words(person.died)),
        (_("Note"), person.note),
    )
    return tuple(fact for fact in facts if fact[1])


def _by_interview(segments: Sequence[Segment], names: dict[int, str]) -> tuple[PassagesOf, ...]:
    groups: dict[int, list[Segment]] = {}
    for segment in segments:
        groups.setdefault(segment.recording.interview_id, []).append(segment)
    return tuple(_passages(group, names) for group in groups.values())


def _passages(segments: Sequence[Segment], names: dict[int, str]) -> PassagesOf:
    interview = segments[0].recording.interview
    passages = (
        Passage(
            speaker_of(one, names),
            format_clock(one.start_ms),
            segment_url(one),
            words_of(one, names),
            one.recording.is_draft,
        )
        for one in segments
    )
    return PassagesOf(
        shown_text(interview.title, interview, names), record_url("interview", interview.ref), tuple(passages)
    )
