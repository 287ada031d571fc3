"""The page on which a telling is written: its fields as they are filled, what may be chosen, and what is wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.errors import Fault
from archive.evidence.queries import ShownStatement, statements
from archive.interviews.names import shown_names, shown_text
from archive.interviews.queries import clips
from archive.objects.clearance import clearance_on
from archive.objects.queries import objects
from archive.plan.model import Station
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.store.model import Change, Collection
from archive.store.queries import collection
from archive.tours.model import Telling
from archive.tours.telling.asked import Asked, asked_like, stamp_of
from archive.tours.telling.queries import demonstrations, last_change, telling
from archive.tours.telling.sentences import lasting_minutes
from archive.tours.titles import shown_title
from archive.web.desk.telling import words
from archive.web.desk.telling.looked_page import LookedPage, looked_asked


@dataclass(frozen=True)
class Choice:
    """Something to choose: its reference, its words, whether it is chosen, and what is said of it beside."""

    ref: str
    words: str
    chosen: bool = False
    note: str = ""
    near: bool = False


@dataclass(frozen=True)
class Difference:
    """A field that stands otherwise now than in the form: its name, what is kept, and what was typed."""

    name: str
    kept: str
    typed: str


@dataclass(frozen=True)
class FormPage:
    """The form. `telling` is None for a new one; `stamp` is of the state that the form was last shown beside."""

    collection: Collection
    telling: Telling | None
    asked: Asked
    stamp: str
    find: str
    faults: tuple[Fault, ...]
    differences: tuple[Difference, ...]
    changed: Change | None
    sent: bool
    who: str
    looked: LookedPage
    stations: Sequence[Station]
    clips: Sequence[Choice]
    objects: Sequence[Choice]
    demonstrations: Sequence[Choice]
    statements: Sequence[Choice]
    kinds: Mapping[str, str]
    depths: Mapping[str, str]
    themes: Mapping[str, str]
    audiences: Mapping[str, str]

    @property
    def listed(self) -> list[tuple[str, str, str]]:
        """The faults for the list on top: the field, its name on the page, and what is wrong."""
        named = words.fields()
        return [(one.where, named.get(one.where, one.where), f"{one.found}. {one.allowed}.") for one in self.faults]

    def at(self, field: str) -> tuple[Fault, ...]:
        """What is wrong with a field."""
        return tuple(fault for fault in self.faults if fault.where == field)

    @property
    def groups(self) -> list[tuple[str, list[Choice]]]:
        """The statements to choose from: those chosen, those about this station, and the others."""
        chosen = [one for one in self.statements if one.chosen]
        near = [one for one in self.statements if one.near and not one.chosen]
        rest = [one for one in self.statements if not one.near and not one.chosen]
        named = ((_("Chosen"), chosen), (_("About this station"), near), (_("Others"), rest))
        return [(str(name), held) for name, held in named if held]


def form_asked(session: Session, viewer: Viewer, ref: str) -> Asked:
    """A kept telling as its form first shows it."""
    row = telling(session, viewer, ref)
    return replace(asked_like(row), title=shown_title(row, shown_names(session, viewer)))


def form_page(
    session: Session,
    viewer: Viewer,
    asked: Asked,
    *,
    who: str,
    ref: str | None = None,
    stamp: str | None = None,
    find: str = "",
    faults: Sequence[Fault] = (),
    overtaken: bool = False,
    sent: bool = False,
) -> FormPage:
    """The form, filled; overtaken, it shows what is kept now beside what was typed and takes the new stamp."""
    card = collection(session)
    row = telling(session, viewer, ref) if ref else None
    fresh = stamp_of(row) if row else ""
    places = stations(session)
    here = next((place for place in places if place.ref == asked.station), None)
    names = shown_names(session, viewer)
    return FormPage(
        collection=card,
        telling=row,
        asked=asked,
        stamp=fresh if overtaken or stamp is None else stamp,
        find=find,
        faults=tuple(faults),
        differences=tuple(_differences(form_asked(session, viewer, ref), asked)) if overtaken and ref else (),
        changed=last_change(session, ref) if overtaken and ref else None,
        sent=sent,
        who=who,
        looked=looked_asked(session, viewer, asked, card.speaking_pace_wpm),
        stations=places,
        clips=_clips(session, viewer, asked, here, names),
        objects=_objects(session, asked, here),
        demonstrations=_demonstrations(session, viewer, asked, here),
        statements=_statements(statements(session, viewer), asked, find),
        kinds=words.kinds(),
        depths=words.depths(),
        themes=words.themes(),
        audiences=words.audiences(),
    )


def _differences(kept: Asked, typed: Asked) -> list[Difference]:
    named = words.fields()
    both = ((field, getattr(kept, field), getattr(typed, field)) for field in named)
    return [Difference(named[field], _told(was), _told(now)) for field, was, now in both if _set(was) != _set(now)]


def _set(value: str | tuple[str, ...]) -> str | frozenset[str]:
    return value if isinstance(value, str) else frozenset(value)


def _told(value: str | tuple[str, ...]) -> str:
    return (value if isinstance(value, str) else ", ".join(sorted(value))) or str(_("nothing"))


def _clips(session: Session, viewer: Viewer, asked: Asked, here: Station | None, names: dict[int, str]) -> list[Choice]:
    found = []
    for clip in clips(session, viewer):
        title = shown_text(clip.title, clip.recording.interview, names)
        near = here is not None and any(tie.station_id == here.id for tie in clip.ties)
        length = _("%(minutes)s min", minutes=f"{lasting_minutes(clip.end_ms - clip.start_ms):.1f}")
        found.append(Choice(clip.ref, f"{title} ({clip.ref}, {length})", clip.ref == asked.clip, near=near))
    return sorted(found, key=lambda one: (not one.near, one.words))


def _objects(session: Session, asked: Asked, here: Station | None) -> list[Choice]:
    """What may be in the hand here; a machine only in the room where it stands."""
    found = []
    for thing in objects(session):
        same_room = here is not None and thing.station is not None and thing.station.room_id == here.room_id
        if thing.machine and not same_room and thing.ref != asked.object:
            continue
        found.append(Choice(thing.ref, f"{thing.name}, {thing.ref}", thing.ref == asked.object, near=same_room))
    return sorted(found, key=lambda one: (not one.near, one.words))


def _demonstrations(session: Session, viewer: Viewer, asked: Asked, here: Station | None) -> list[Choice]:
    found = []
    for one in demonstrations(session):
        state = clearance_on(one.machine.clearances, viewer.on)
        place = one.machine.station
        near = here is not None and place is not None and place.room_id == here.room_id
        held = _("May run today.") if state.valid else _("Not today: %(lacking)s", lacking=" ".join(state.lacking))
        noise = (
            _("%(level)s dB at %(far)s m", level=f"{one.noise_db:g}", far=f"{one.noise_at_m:g}") if one.noise_db else ""
        )
        times = _(
            "%(minutes)s min, and %(warm)s min to warm up before.",
            minutes=f"{one.minutes:g}",
            warm=f"{one.warm_up_minutes:g}",
        )
        note = " ".join(str(part) for part in (times, f"{noise}." if noise else "", held) if part)
        found.append(Choice(one.ref, f"{one.title}, {one.machine.name}", one.ref == asked.demonstration, note, near))
    return sorted(found, key=lambda one: (not one.near, one.words))


def _statements(shown: Sequence[ShownStatement], asked: Asked, find: str) -> list[Choice]:
    """Every statement open to the viewer; sifted by words, only those that are chosen or hold all of them."""
    sought = find.casefold().split()
    found = []
    for one in shown:
        row = one.statement
        chosen = row.ref in asked.statements
        if chosen or all(word in f"{row.text} {row.ref}".casefold() for word in sought):
            near = any(place.ref == asked.station for place in row.stations)
            found.append(Choice(row.ref, row.text, chosen, one.standing.value, near))
    return found
