"""Days: the list, one day, its departures by hand and by plan, and the sheets that are carried."""

from __future__ import annotations

import datetime as dt
from typing import Any

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Fault, NotFound, Unacceptable
from archive.jobs import queries as jobs
from archive.rights.decisions import Purpose, Role, Viewer
from archive.tasks.day_planning import KIND, job_inputs
from archive.tours.day import edits, queries
from archive.tours.day.asked import DepartureAsked, read_departure, read_rules, read_time, rules_said
from archive.tours.model import Departure
from archive.web.background import have_done
from archive.web.desk.day.pages import day_page, days_page, departure_page, filled
from archive.web.desk.day.sheets import guide_sheet, room_sheet
from archive.web.pages import show
from archive.web.requests import only_for, role, session, store_of_request, today, viewer

days = Blueprint("days", __name__, url_prefix="/desk/days")
days.before_request(only_for(Role.GUIDE, Role.KEEPER))


@days.get("/")
def every() -> ResponseReturnValue:
    """The days that have departures, and a way to open another."""
    return show("desk/day/days.html", days_page(session(), today()))


@days.get("/open")
def open_day() -> ResponseReturnValue:
    """On to the day that was chosen."""
    return redirect(url_for("days.day", date=_date(request.args.get("day", ""))), 303)


@days.get("/<date>/")
def day(date: str) -> ResponseReturnValue:
    """One day: what leaves when, what breaks, and the day as drawn."""
    on, rules = _date(date), read_rules(request.args)
    planned, dropped = _planned(request.args.get("planned", "")), _dropped(request.args.get("dropped", ""))
    page = day_page(session(), _guide(), on, rules, planned=planned, dropped=dropped)
    return show("desk/day/day.html", page)


@days.post("/<date>/departures")
def add(date: str) -> ResponseReturnValue:
    """One departure more."""
    on = _date(date)
    try:
        asked = _asked()
    except Unacceptable as refused:
        form = filled(session(), request.form, refused.faults)
        page = day_page(session(), _guide(), on, read_rules(request.args), form=form)
        return show("desk/day/day.html", page, form.status)
    with store_of_request().changing(current_user.name) as change:
        edits.add_departure(change, on, asked)
    return _to_day(on)


@days.get("/<date>/departures/<ref>")
def departure(date: str, ref: str) -> ResponseReturnValue:
    """One departure to change."""
    page = departure_page(session(), _of_day(date, ref), read_rules(request.args))
    return show("desk/day/departure.html", page)


@days.post("/<date>/departures/<ref>")
def change(date: str, ref: str) -> ResponseReturnValue:
    """Keep what was changed."""
    row = _of_day(date, ref)
    try:
        asked = _asked()
    except Unacceptable as refused:
        form = filled(session(), request.form, refused.faults)
        page = departure_page(session(), row, read_rules(request.args), form)
        return show("desk/day/departure.html", page, form.status)
    with store_of_request().changing(current_user.name) as change:
        edits.change_departure(change, ref, asked)
    return _to_day(row.day)


@days.post("/<date>/departures/<ref>/leave")
def leave(date: str, ref: str) -> ResponseReturnValue:
    """Let it leave at another time, set by hand; what that breaks is told on the day."""
    row = _of_day(date, ref)
    minute = read_time(request.form.get("leaves", ""))
    with store_of_request().changing(current_user.name) as change:
        edits.leave_at(change, ref, minute)
    return _to_day(row.day)


@days.post("/<date>/departures/<ref>/fix")
def fix(date: str, ref: str) -> ResponseReturnValue:
    """Fix its time, or let it go."""
    row = _of_day(date, ref)
    with store_of_request().changing(current_user.name) as change:
        edits.fix(change, ref, fixed=request.form.get("fixed") == "yes")
    return _to_day(row.day)


@days.post("/<date>/departures/<ref>/drop")
def drop(date: str, ref: str) -> ResponseReturnValue:
    """Take it off the day; the day offers to bring it back."""
    row = _of_day(date, ref)
    with store_of_request().changing(current_user.name) as change:
        edits.drop(change, ref)
    return _to_day(row.day, dropped=ref)


@days.post("/<date>/departures/<ref>/bring-back")
def bring_back(date: str, ref: str) -> ResponseReturnValue:
    """Undo the dropping."""
    with store_of_request().changing(current_user.name) as change:
        row = edits.bring_back(change, ref)
    return _to_day(row.day)


@days.post("/<date>/plan")
def plan(date: str) -> ResponseReturnValue:
    """Find times for the day, in the background."""
    on, rules, who = _date(date), read_rules(request.form), current_user.name
    inputs = job_inputs(on, rules, role=role(), on=today(), who=who)
    return have_done(KIND, inputs)


@days.get("/<date>/guides/<name>")
def guide(date: str, name: str) -> ResponseReturnValue:
    """A guide's day to print on A4."""
    page = guide_sheet(session(), _guide(), _date(date), name, read_rules(request.args))
    return show("desk/day/guide_sheet.html", page)


@days.get("/<date>/rooms/<ref>")
def room(date: str, ref: str) -> ResponseReturnValue:
    """A room's day to print on A4."""
    page = room_sheet(session(), _guide(), _date(date), ref, read_rules(request.args))
    return show("desk/day/room_sheet.html", page)


def _guide() -> Viewer:
    return viewer(Purpose.TOUR)


def _date(text: str) -> dt.date:
    try:
        return dt.datetime.strptime(text, "%Y-%m-%d").date()
    except ValueError:
        fault = Fault("day", 0, f"'{text[:20]}' is not a day", "Write it as 2026-11-25")
        raise Unacceptable([fault], "The address") from None


def _asked() -> DepartureAsked:
    return read_departure(request.form, {tour.ref for tour in queries.offered_tours(session())})


def _of_day(date: str, ref: str) -> Departure:
    row = queries.departure(session(), ref)
    if row.day != _date(date):
        raise NotFound(f"There is no departure '{ref[:40]}' on this day.")
    return row


def _to_day(on: dt.date, **more: str) -> ResponseReturnValue:
    """Back to the day, under the same rules."""
    parts: dict[str, Any] = {"date": on, **rules_said(read_rules(request.args)), **more}
    return redirect(url_for("days.day", **parts), 303)


def _planned(key: str) -> Any:
    """What came of a planning that this person asked for; nothing for any other."""
    if not key:
        return None
    row = jobs.job(session(), key)
    mine = row.kind == KIND and (role() is Role.KEEPER or row.who == current_user.name)
    return row.outcome if mine else None


def _dropped(ref: str) -> str:
    """The departure to bring back, while it is still gone."""
    return ref if ref and queries.is_dropped(session(), ref) else ""
