"""Every change to tellings; none commits. What is closed to the one who changes them can neither be read nor tied."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.errors import Conflict, Fault, NotFound, Unacceptable
from archive.evidence.model import Statement
from archive.evidence.queries import open_statement_ids
from archive.interviews.model import Clip
from archive.interviews.names import shown_names
from archive.interviews.queries import clip
from archive.objects.model import Demonstration, MuseumObject
from archive.objects.queries import demonstration, museum_object
from archive.plan.model import Station
from archive.plan.queries import station
from archive.rights.decisions import Viewer
from archive.store.model import Change
from archive.store.queries import collection
from archive.tours.model import Telling
from archive.tours.telling.asked import Asked, check, stamp_of, typed_minutes
from archive.tours.telling.naming import new_ref
from archive.tours.telling.queries import ref_was_given, telling
from archive.tours.telling.sentences import lasting_minutes, spoken_minutes
from archive.tours.titles import shown_title

Record = TypeVar("Record")


class Overtaken(Conflict):
    """Somebody else changed the telling since the form was opened."""


@dataclass(frozen=True)
class _Found:
    """The records that a form names, as the one who sent it may know of them."""

    station: Station
    clip: Clip | None
    object: MuseumObject | None
    demonstration: Demonstration | None
    statements: list[Statement]


def add_telling(session: Session, viewer: Viewer, asked: Asked) -> Telling:
    """A new telling under a reference of its own; Unacceptable with every fault."""
    check(asked)
    found = _look_up(session, viewer, asked)
    ref = new_ref(asked.station, asked.title, lambda name: ref_was_given(session, name))
    row = Telling(ref=ref, language=asked.language, station=found.station, kind=asked.kind, withdrawn=False)
    _fill(session, row, asked, found)
    session.add(row)
    session.flush()
    return row


def change_telling(session: Session, viewer: Viewer, ref: str, asked: Asked, stamp: str) -> Telling:
    """The telling as asked. NotFound where it is closed to the viewer, since an edit would drop what they cannot see.

    Raises Overtaken, and changes nothing, where the stamp is not that of its present state.
    """
    row = telling(session, viewer, ref)
    check(asked)
    found = _look_up(session, viewer, asked)
    if stamp != stamp_of(row):
        raise Overtaken("Somebody changed this telling since you opened it. Look at both, then keep yours or theirs.")
    before = [one.ref for one in row.statements]
    if row.clip and asked.title == shown_title(row, shown_names(session, viewer)):
        asked = _with_title(asked, row.title)
    _fill(session, row, asked, found)
    _write_ties(session, row, before)
    session.flush()
    return row


def withdraw(session: Session, viewer: Viewer, ref: str) -> Telling:
    """Take a telling out of use; it keeps its reference and can be restored."""
    row = telling(session, viewer, ref)
    row.withdrawn = True
    return row


def restore(session: Session, viewer: Viewer, ref: str) -> Telling:
    """Put a withdrawn telling back into use."""
    row = telling(session, viewer, ref)
    row.withdrawn = False
    return row


def _with_title(asked: Asked, title: str) -> Asked:
    return Asked(**{**asked.__dict__, "title": title})


def _fill(session: Session, row: Telling, asked: Asked, found: _Found) -> None:
    row.station, row.kind, row.title, row.script = found.station, asked.kind, asked.title, asked.script
    row.clip, row.object, row.demonstration = found.clip, found.object, found.demonstration
    row.themes, row.audiences = list(asked.themes), list(asked.audiences)
    row.depth, row.language = asked.depth, asked.language
    row.statements = found.statements
    row.minutes = minutes_of(asked, found.clip, collection(session).speaking_pace_wpm)


def minutes_of(asked: Asked, heard: Clip | None, words_per_minute: float) -> float:
    """How long it takes: a talk by its words, a voice by its length and what is said before, others as typed."""
    spoken = spoken_minutes(asked.script, words_per_minute)
    if asked.kind == "talk":
        return spoken
    if asked.kind == "clip" and heard is not None:
        return lasting_minutes(heard.end_ms - heard.start_ms)
    return typed_minutes(asked) or spoken


def _look_up(session: Session, viewer: Viewer, asked: Asked) -> _Found:
    """The records named; a closed one is told like one that is not there, and all that are missing at once."""
    faults: list[Fault] = []

    def named(field: str, find: Record | None) -> Record | None:
        if find is None:
            faults.append(
                Fault(field, 0, f"There is no {field} “{getattr(asked, field)[:64]}” here", "Choose one from the list")
            )
        return find

    place = named("station", _maybe(lambda: station(session, asked.station)))
    heard = named("clip", _maybe(lambda: clip(session, viewer, asked.clip))) if asked.kind == "clip" else None
    thing = named("object", _maybe(lambda: museum_object(session, asked.object))) if asked.kind == "object" else None
    shown = asked.kind == "demonstration"
    run = named("demonstration", _maybe(lambda: demonstration(session, asked.demonstration))) if shown else None
    tied = _statements(session, viewer, asked.statements, faults)
    if place is not None:
        faults += _place_faults(asked, place, thing, run)
    faults += _length_faults(session, asked, run)
    if faults or place is None:
        raise Unacceptable(faults, "This telling")
    return _Found(place, heard, thing, run, tied)


def _maybe(find: Callable[[], Record]) -> Record | None:
    try:
        return find()
    except NotFound:
        return None


def _statements(session: Session, viewer: Viewer, refs: Sequence[str], faults: list[Fault]) -> list[Statement]:
    kept = open_statement_ids(session, viewer)
    rows = session.scalars(select(Statement).where(Statement.ref.in_(refs)).order_by(Statement.ref)).all()
    known = [row for row in rows if row.id in kept]
    for ref in sorted(set(refs) - {row.ref for row in known}):
        faults.append(Fault("statements", 0, f"There is no statement “{ref[:64]}” here", "Choose from the list"))
    return known


def _place_faults(asked: Asked, place: Station, thing: MuseumObject | None, run: Demonstration | None) -> list[Fault]:
    """A machine is shown and run where it stands; what fits in a hand may be carried to a station."""
    machine = run.machine if run else thing
    if machine is None or not machine.machine or machine.station is None:
        return []
    if machine.station.room_id == place.room_id:
        return []
    found = f"{machine.name} stands at station {machine.station.number}, in another room"
    return [Fault(asked.kind, 0, found, "Choose that station, or something else")]


def _length_faults(session: Session, asked: Asked, run: Demonstration | None) -> list[Fault]:
    minutes = typed_minutes(asked)
    if minutes is None or asked.kind in ("talk", "clip"):
        return []
    spoken = spoken_minutes(asked.script, collection(session).speaking_pace_wpm)
    least, why = (run.minutes, "the machine runs") if run and run.minutes >= spoken else (spoken, "its words take")
    if minutes >= least:
        return []
    return [Fault("minutes", 0, f"{why.capitalize()} {least:.1f} minutes", f"Give it {least:.1f} minutes or more")]


def _write_ties(session: Session, row: Telling, before: list[str]) -> None:
    """Write ties down in the record of changes, which follows columns alone."""
    after = [one.ref for one in row.statements]
    if after != before:
        who = session.info.get("who", "")
        kept = {"before": {"statements": before}, "after": {"statements": after}}
        session.add(Change(who=who, kind="changed", record=f"telling:{row.ref}", **kept))
