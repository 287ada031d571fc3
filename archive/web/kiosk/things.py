"""What the kiosk shows of objects and of the people who made, used and remember them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from flask_babel import gettext as _
from markupsafe import Markup
from sqlalchemy.orm import Session

from archive.interviews import queries as interviews
from archive.interviews.model import Interview
from archive.interviews.names import shown_names, shown_text
from archive.objects.model import MuseumObject
from archive.objects.queries import object_with_all, objects, objects_of
from archive.people.model import Person
from archive.processes.model import Hazard, Process
from archive.processes.queries import term_ids_of
from archive.rights.decisions import Viewer
from archive.terms.queries import Word
from archive.values.date_words import date_in_words
from archive.values.dates import UncertainDate
from archive.web.kiosk.explaining import Explainer
from archive.web.kiosk.making import hazards_of
from archive.web.kiosk.voices import Quotation, Voice, quotations_about, voice_of, voices_about


@dataclass(frozen=True)
class Named:
    """A person or firm under the name that may be shown."""

    ref: str
    name: str


@dataclass(frozen=True)
class ObjectPage:
    """One object, large, with who made it, where it stands and who speaks of it."""

    object: MuseumObject
    description: Markup
    made: str
    maker: Named | None
    workers: tuple[Named, ...]
    made_by: tuple[Process, ...]
    used_in: tuple[Process, ...]
    hazards: tuple[Hazard, ...]
    voices: tuple[Voice, ...]
    quotations: tuple[Quotation, ...]
    words: tuple[Word, ...]


@dataclass(frozen=True)
class ObjectsPage:
    """Every object by accession number."""

    objects: tuple[MuseumObject, ...]


@dataclass(frozen=True)
class PersonPage:
    """One person as far as they may be known: name, trade, open voices, objects."""

    name: str
    trade: str
    note: str
    lived: str
    firm: bool
    interviews: tuple[tuple[Interview, str], ...]
    voices: tuple[Voice, ...]
    objects: tuple[MuseumObject, ...]


def object_page(session: Session, viewer: Viewer, ref: str) -> ObjectPage:
    """The page of one object."""
    thing = object_with_all(session, ref)
    explain = Explainer(session, term_ids_of(session, [tie.process for tie in thing.process_ties]))
    names = shown_names(session, viewer)
    about = ("object", thing.id)
    return ObjectPage(
        object=thing,
        description=explain(thing.description),
        made=_words(thing.made) if thing.made else "",
        maker=_named(thing.maker, names),
        workers=tuple(known for tie in thing.worker_ties if (known := _named(tie.person, names))),
        made_by=_processes(thing, "made by"),
        used_in=_processes(thing, "used in"),
        hazards=hazards_of(_processes(thing, "used in")),
        voices=voices_about(session, viewer, names, about),
        quotations=quotations_about(session, viewer, names, about),
        words=explain.words,
    )


def objects_page(session: Session) -> ObjectsPage:
    """The page of all objects."""
    return ObjectsPage(tuple(sorted(objects(session), key=lambda thing: _counted(thing.ref))))


def person_page(session: Session, viewer: Viewer, ref: str) -> PersonPage:
    """The page of one person; what the file says of them is shown only with their own name."""
    person = interviews.person(session, viewer, ref)
    names = shown_names(session, viewer)
    told = interviews.narrated_by(session, viewer, person)
    keys = {interview.id for interview in told}
    open_name = names[person.id] == person.name
    clips = interviews.clips(session, viewer) if told else ()
    return PersonPage(
        name=names[person.id],
        trade=person.trade if open_name else "",
        note=person.note if open_name else "",
        lived=_lived(person) if open_name else "",
        firm=person.kind == "firm",
        interviews=tuple((interview, shown_text(interview.title, interview, names)) for interview in told),
        voices=tuple(voice_of(clip, names) for clip in clips if clip.recording.interview_id in keys),
        objects=tuple(objects_of(session, person)),
    )


def _named(person: Person | None, names: dict[int, str]) -> Named | None:
    return Named(person.ref, names[person.id]) if person and person.id in names else None


def _processes(thing: MuseumObject, role: str) -> tuple[Process, ...]:
    return tuple(tie.process for tie in thing.process_ties if tie.role == role)


def _lived(person: Person) -> str:
    if person.born and person.died:
        return f"{_words(person.born)}–{_words(person.died)}"
    if person.born:
        since = _("founded %(date)s") if person.kind == "firm" else _("born %(date)s")
        return str(since % {"date": _words(person.born)})
    return ""


def _words(date: UncertainDate) -> str:
    return date_in_words(date.text)


def _counted(ref: str) -> list[tuple[int, str]]:
    """An accession number for sorting, its figures by what they count: 1984.2 stands before 1984.12."""
    return [(int(part), "") if part.isdigit() else (0, part) for part in re.split(r"(\d+)", ref)]
