"""The page on which a tour is wished for: its fields as they are filled, what may be chosen, and what is wrong."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from flask_babel import gettext as _
from sqlalchemy.orm import Session

from archive.accounts.model import Account
from archive.accounts.queries import accounts
from archive.errors import Fault
from archive.plan.model import Room, Station
from archive.plan.queries import doors, rooms, stations
from archive.rights.decisions import Role, Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.model import THEMES, Telling, Tour
from archive.tours.queries import tellings
from archive.tours.wishes import LANGUAGE, Wishes
from archive.web.desk.planning.filled import Filled
from archive.web.desk.planning.words import field_words
from archive.web.desk.titles import kind_words, titles

_NO_FAULTS: tuple[Fault, ...] = ()
_PLACES = ("finish", "follow_the_metal", "closed_rooms")
_FINER = ("depth", "seats_every", "voice_every")


@dataclass(frozen=True)
class ToldThere:
    """A station with what may be told at it: reference and title of each telling."""

    station: Station
    tellings: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class WishesPage:
    """The form. `like` is the tour whose wishes it starts from."""

    collection: Collection
    filled: Filled
    faults: tuple[Fault, ...]
    like: Tour | None
    stations: Sequence[Station]
    rooms: Sequence[Room]
    told: Sequence[ToldThere]
    languages: Sequence[str]
    guides: Sequence[Account]
    themes: Sequence[str] = THEMES

    @property
    def status(self) -> int:
        """The status of the answer."""
        return 400 if self.faults else 200

    @property
    def listed(self) -> list[tuple[str, str, str]]:
        """The faults for the list on top: the field, its name on the page, and what is wrong."""
        return [(fault.where, field_words(fault.where), f"{fault.found}. {fault.allowed}.") for fault in self.faults]

    @property
    def station_choices(self) -> list[tuple[str, str]]:
        """The stations to choose from."""
        return [(one.ref, f"{one.number}, {one.name}") for one in self.stations]

    @property
    def language_choices(self) -> list[tuple[str, str]]:
        """The languages in which something is told."""
        return [(tag, _("English") if tag == LANGUAGE else tag) for tag in self.languages]

    @property
    def guide_choices(self) -> list[tuple[str, str]]:
        """Who may give it."""
        return [("", _("Not known yet")), *((one.name, one.name) for one in self.guides)]

    def at(self, field: str) -> tuple[Fault, ...]:
        """What is wrong with a field."""
        return tuple(fault for fault in self.faults if fault.where == field)

    @property
    def placed(self) -> bool:
        """Whether something is asked, or wrong, about where it goes."""
        return self.filled.any_of(*_PLACES) or self._at_fault("start", *_PLACES)

    @property
    def picked(self) -> bool:
        """Whether a station or telling is asked for or left out by name."""
        return any(
            self.filled.wished("station", [there.station.ref]) or self.telling_picked(there) for there in self.told
        )

    def telling_picked(self, there: ToldThere) -> bool:
        """Whether a telling of a station is asked for or left out by name."""
        return self.filled.wished("telling", [ref for ref, _title in there.tellings])

    @property
    def finer(self) -> bool:
        """Whether something is asked, or wrong, about how it is told."""
        other = self.filled.one("language") not in ("", LANGUAGE)
        return other or self.filled.any_of(*_FINER) or self._at_fault(*_FINER, "language")

    @property
    def machines(self) -> bool:
        """Whether something other than usual is asked, or wrong, about demonstrations."""
        usual = self.filled.one("demonstrations") == "yes" and not self.filled.one("demonstration_windows")
        return not usual or self._at_fault("demonstrations", "demonstration_windows", "guide")

    def _at_fault(self, *fields: str) -> bool:
        return any(self.at(field) for field in fields)


def wishes_page(
    session: Session,
    viewer: Viewer,
    filled: Filled,
    *,
    faults: Sequence[Fault] = _NO_FAULTS,
    like: Tour | None = None,
) -> WishesPage:
    """The form, filled."""
    open_tellings = tellings(session, viewer)
    places = stations(session)
    return WishesPage(
        collection=collection(session),
        filled=filled,
        faults=tuple(faults),
        like=like,
        stations=places,
        rooms=rooms(session),
        told=_told(session, viewer, places, open_tellings),
        languages=sorted({telling.language for telling in open_tellings} | {LANGUAGE}),
        guides=[one for one in accounts(session) if one.active and one.role in (Role.GUIDE, Role.KEEPER)],
    )


def usual_wishes(session: Session, on: dt.date, guide: str) -> Wishes:
    """What stands in the form before anything is asked: the group comes in by a door and meets at a station there."""
    entered = {door.room_a_id for door in doors(session) if door.room_b_id is None}
    met = next((one.ref for one in stations(session) if one.room_id in entered), None)
    return Wishes(date=on, audience="adults", guide=guide, start=met)


def _told(
    session: Session, viewer: Viewer, places: Sequence[Station], open_tellings: Sequence[Telling]
) -> list[ToldThere]:
    kept = sorted((one for one in open_tellings if not one.withdrawn), key=lambda one: (one.station_id, one.ref))
    named = titles(session, viewer, kept)
    mine = {
        key: tuple((row.ref, f"{named[row.ref]} ({kind_words(row.kind)})") for row in rows)
        for key, rows in groupby(kept, key=lambda one: one.station_id)
    }
    return [ToldThere(place, mine[place.id]) for place in places if place.id in mine]
