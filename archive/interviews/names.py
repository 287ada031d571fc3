"""The names under which people are shown to a viewer, as their agreements have it."""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.interviews.model import Interview, Segment, interview_narrator
from archive.interviews.queries import person_open
from archive.people.model import Person
from archive.rights.decisions import Allowance, Viewer
from archive.rights.model import Agreement, Permission
from archive.rights.naming import shown_name, without_name
from archive.rights.queries import permission_open


def shown_names(session: Session, viewer: Viewer) -> dict[int, str]:
    """The shown name of every person that the viewer may know of, by key."""
    allowances = _allowances(session, viewer)
    known = session.scalars(select(Person).where(person_open(viewer)))
    return {person.id: shown_name(person, allowances[person.id]) for person in known}


def speaker_of(segment: Segment, names: dict[int, str]) -> str:
    """Who speaks in a segment, as shown: a known person's name, or the label that the transcript gives."""
    if segment.speaker_id is None:
        return segment.speaker_label
    return names.get(segment.speaker_id, "")


def shown_text(text: str, interview: Interview, names: dict[int, str]) -> str:
    """A title or summary of an interview, or of a clip of it, with its narrators under the names shown to the viewer."""
    for person in interview.narrators:
        text = without_name(text, person, names.get(person.id, ""))
    return text


def _allowances(session: Session, viewer: Viewer) -> defaultdict[int, list[Allowance]]:
    """What the open agreements of each narrator say of the viewer's purpose."""
    told = (
        select(interview_narrator.c.person_id, Permission)
        .join(Agreement, Agreement.interview_id == interview_narrator.c.interview_id)
        .join(Permission, Permission.agreement_id == Agreement.id)
        .where(permission_open(viewer))
    )
    mine: defaultdict[int, list[Allowance]] = defaultdict(list)
    for person_id, permission in session.execute(told):
        mine[person_id].append(
            Allowance(
                permission.allowed,
                permission.from_date,
                permission.withdrawn_on,
                permission.name_form,
                permission.shown_as,
            )
        )
    return mine
