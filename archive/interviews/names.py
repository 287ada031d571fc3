"""The names under which people are shown to a viewer, as their agreements have it."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.interviews.model import Interview, Segment
from archive.interviews.queries import allowances, people
from archive.rights.decisions import Viewer
from archive.rights.naming import shown_name, without_name


def shown_names(session: Session, viewer: Viewer) -> dict[int, str]:
    """The shown name of every person that the viewer may know of, by key."""
    said = allowances(session, viewer)
    return {person.id: shown_name(person, said.get(person.id, ())) for person in people(session, viewer)}


def speaker_of(segment: Segment, names: dict[int, str]) -> str:
    """Who speaks in a segment, as shown: a known person's name, or the label that the transcript gives."""
    if segment.speaker_id is None:
        return shown_text(segment.speaker_label, segment.recording.interview, names)
    return names.get(segment.speaker_id, "")


def words_of(segment: Segment, names: dict[int, str]) -> str:
    """What is said in a segment: where a narrator is greeted by name, the shown one stands for it."""
    return shown_text(segment.text, segment.recording.interview, names)


def shown_text(text: str, interview: Interview, names: dict[int, str]) -> str:
    """Words of an interview, or what was written of it or a clip of it, with its narrators under their shown names."""
    for person in interview.narrators:
        text = without_name(text, person, names.get(person.id, ""))
    return text
