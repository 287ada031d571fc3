"""The form of a new interview."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from archive.interviews.intake import queries
from archive.interviews.names import shown_names
from archive.people.model import Person
from archive.rights.decisions import AGREED, Viewer

PURPOSES = tuple(str(purpose) for purpose in AGREED)


@dataclass(frozen=True)
class NewInterviewPage:
    """The people who may be named, the purposes, and what was given and refused, if anything was."""

    narrators: Sequence[tuple[str, str]]
    interviewers: Sequence[tuple[str, str]]
    purposes: Sequence[str]
    given: Mapping[str, str] = field(default_factory=dict)
    chosen: Mapping[str, Sequence[str]] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)


def new_interview_page(
    session: Session,
    viewer: Viewer,
    given: Mapping[str, str],
    chosen: Mapping[str, Sequence[str]],
    faults: Mapping[str, str],
) -> NewInterviewPage:
    """The form, empty or with what was given. People stand under the names that may be shown, or their references."""
    names = shown_names(session, viewer)
    people = queries.narrators_known(session)
    return NewInterviewPage(
        narrators=[(person.ref, _named(person, names)) for person in people if "interviewer" not in person.roles],
        interviewers=[(person.ref, _named(person, names)) for person in people if "interviewer" in person.roles],
        purposes=PURPOSES,
        given=given,
        chosen=chosen,
        faults=faults,
    )


def _named(person: Person, names: Mapping[int, str]) -> str:
    shown = names.get(person.id, "")
    return f"{shown} ({person.ref})" if shown else person.ref
