"""What the pages of days show, as frozen records."""

from __future__ import annotations

import datetime as dt
import string
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy.orm import Session

from archive.accounts.queries import accounts
from archive.errors import Fault
from archive.rights.decisions import Viewer
from archive.tours.day import queries
from archive.tours.day.asked import STEPS, rules_said
from archive.tours.day.building import Day, day_of
from archive.tours.day.clashes import clashes, exposures
from archive.tours.day.problem import Rules
from archive.tours.day.words import advice, clash_told
from archive.tours.model import Departure, Tour
from archive.values.dayclock import minute_told
from archive.web.desk.day.chart import Chart, by_departure, by_room

Choices = Sequence[tuple[str, str]]


@dataclass(frozen=True)
class DayLine:
    """A day in the list: how many departures, how many without a time."""

    date: dt.date
    count: int
    untimed: int


@dataclass(frozen=True)
class DaysPage:
    """The days that have departures: those to come, the next first, and those gone by."""

    today: dt.date
    coming: Sequence[DayLine]
    past: Sequence[DayLine]


@dataclass(frozen=True)
class DepartureLine:
    """A departure in the day's list, with its letter and when it comes back."""

    row: Departure
    letter: str
    tour: str
    leaves: str
    back: str
    window: str
    refused: Sequence[str]


@dataclass(frozen=True)
class Form:
    """What a departure's form offers, holds and finds wrong; `given` and `faults` are by field name."""

    tours: Choices
    guides: Sequence[str]
    given: Mapping[str, Any]
    faults: Mapping[str, str] = field(default_factory=dict)

    @property
    def status(self) -> int:
        """What the answer is."""
        return 422 if self.faults else 200


@dataclass(frozen=True)
class DayPage:
    """One day."""

    date: dt.date
    lines: Sequence[DepartureLine]
    broken: Sequence[tuple[str, str]]
    by_departure: Chart | None
    by_room: Chart | None
    guides: Sequence[tuple[str, float | None]]
    rooms: Choices
    rules: Mapping[str, str]
    form: Form
    planned: Mapping[str, Any] | None = None
    dropped: str = ""
    steps: Sequence[int] = STEPS


@dataclass(frozen=True)
class DeparturePage:
    """One departure to change."""

    date: dt.date
    ref: str
    name: str
    rules: Mapping[str, str]
    form: Form


def days_page(session: Session, today: dt.date) -> DaysPage:
    """The list of days."""
    lines = [DayLine(*one) for one in queries.days(session)]
    coming = sorted((line for line in lines if line.date >= today), key=lambda line: line.date)
    return DaysPage(today, coming, [line for line in lines if line.date < today])


def day_page(
    session: Session,
    viewer: Viewer,
    date: dt.date,
    rules: Rules,
    *,
    form: Form | None = None,
    planned: Mapping[str, Any] | None = None,
    dropped: str = "",
) -> DayPage:
    """One day as it stands, with what breaks."""
    day = day_of(session, viewer, date, rules)
    letters = {row.ref: letter(at) for at, row in enumerate(day.rows)}
    found = clashes(day.problem, day.times)
    loud = exposures(day.problem)
    named = sorted({row.guide for row in day.rows if row.guide})
    used = {stay.room for one in day.problem.goings for stay in one.rooms}
    return DayPage(
        date=date,
        lines=[_line(day, row, letters[row.ref]) for row in day.rows],
        broken=[(clash_told(day.problem, one, day.times, day.names), advice(day.problem, one)) for one in found],
        by_departure=by_departure(day, letters, found),
        by_room=by_room(day, letters, found),
        guides=[(name, loud.get(name)) for name in named],
        rooms=[(room.ref, room.name) for floor in day.floors for room in floor.rooms if room.ref in used],
        rules=rules_said(rules),
        form=form or empty_form(session),
        planned=planned,
        dropped=dropped,
    )


def departure_page(session: Session, row: Departure, rules: Rules, form: Form | None = None) -> DeparturePage:
    """The form of one departure, as it stands or as it was just filled in."""
    given = {
        "tour": row.tour.ref if row.tour else "",
        "guide": row.guide,
        "group_size": row.group_size,
        "earliest": padded(row.earliest),
        "latest": padded(row.latest),
        "leaves": padded(row.leaves) if row.leaves is not None else "",
        "fixed": "yes" if row.fixed else "",
        "note": row.note,
    }
    name = row.tour.name if row.tour else ""
    return DeparturePage(row.day, row.ref, name, rules_said(rules), form or filled(session, given))


def empty_form(session: Session) -> Form:
    """The form of a new departure."""
    return filled(session, {"earliest": "10:00", "latest": "16:00", "group_size": "12"})


def filled(session: Session, given: Mapping[str, Any], faults: Sequence[Fault] = ()) -> Form:
    """A form with what was given, and under each field what is wrong with it."""
    names = {account.name for account in accounts(session) if account.active and account.role != "reader"}
    return Form(
        tours=[(tour.ref, _offered(tour)) for tour in queries.offered_tours(session)],
        guides=sorted(names | set(queries.guides(session))),
        given=given,
        faults={fault.where: f"{fault.found}. {fault.allowed}." for fault in faults},
    )


def padded(minute: int) -> str:
    """A minute of the day as a field for a time holds it: 09:05."""
    return f"{minute // 60 % 24:02}:{minute % 60:02}"


def letter(at: int) -> str:
    """A, B, and so on; after Z come A2, B2."""
    turn, place = divmod(at, 26)
    return string.ascii_uppercase[place] + (str(turn + 1) if turn else "")


def _offered(tour: Tour) -> str:
    return f"{tour.name} ({tour.minutes:g} min)"


def _line(day: Day, row: Departure, mark: str) -> DepartureLine:
    sheet = day.sheets.get(row.ref)
    going = day.problem.by_ref.get(row.ref)
    back = minute_told(row.leaves + -(-going.tenths // 10)) if going and row.leaves is not None else ""
    return DepartureLine(
        row=row,
        letter=mark,
        tour=sheet.tour.name if sheet else "",
        leaves=padded(row.leaves) if row.leaves is not None else "",
        back=back,
        window=f"{minute_told(row.earliest)} to {minute_told(row.latest)}",
        refused=[f"{item.title}. {' '.join(item.clearance.lacking)}" for item in sheet.refusals if item.clearance]
        if sheet
        else [],
    )
