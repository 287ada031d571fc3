"""Outings at the Desk: handed in, listed, looked at, and learnt from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from flask import Blueprint, Response, jsonify, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_login import current_user
from flask_wtf.csrf import generate_csrf

from archive.accounts.queries import account_named, account_names
from archive.errors import Fault, Unacceptable
from archive.objects.running import edits as run_edits
from archive.objects.running.handed import HandedRun, read_run
from archive.rights.decisions import Purpose, Role
from archive.tours.given import edits
from archive.tours.given.handed import HandedLog, read_log
from archive.web.desk.giving.afterwards import AfterwardsPage, afterwards_page
from archive.web.desk.giving.outing_pages import outing_page, outings_page
from archive.web.desk.running.lapses import lapsed
from archive.web.pages import show
from archive.web.requests import only_for, read_json, role, session, store_of_request, viewer

outings_at_desk = Blueprint("outings", __name__, url_prefix="/desk")
outings_at_desk.before_request(only_for(Role.GUIDE, Role.KEEPER))

_MOST_OUTINGS = 200
# A device's clock may be a little fast.
_AHEAD = dt.timedelta(minutes=10)


@outings_at_desk.get("/outings/")
def every() -> ResponseReturnValue:
    """The outings of this guide; a keeper sees all."""
    only_incidents = request.args.get("show") == "incidents"
    page = outings_page(session(), _whose(), account_names(session()), only_incidents=only_incidents)
    return show("desk/giving/outings.html", page)


@outings_at_desk.get("/outings/token")
def token() -> Response:
    """A fresh token for handing in: the page may have stood open, out of reach, for longer than a token holds."""
    return jsonify(token=generate_csrf())


@outings_at_desk.post("/outings/")
def hand_in() -> ResponseReturnValue:
    """Take in a log from a device; as a file it may hold several. What is here already is not doubled."""
    uploaded = request.files.get("log")
    sent, runs = _in_file(uploaded.read()) if uploaded else ([read_json(request.get_data())], [])
    logs = [read_log(data) for data in sent]
    ran = [read_run(data, latest=dt.datetime.now(dt.UTC) + _AHEAD) for data in runs]
    keys = [_take_in(log) for log in logs]
    _take_runs(ran)
    address = url_for("outings.one", key=keys[0]) if len(keys) == 1 else url_for("outings.every")
    if uploaded:
        return redirect(address, 303)
    return jsonify(address=address, taken=[entry.key for log in logs for entry in log.entries])


@outings_at_desk.get("/outings/<int:key>")
def one(key: int) -> ResponseReturnValue:
    """One outing: planned against real, and what was written down."""
    page = outing_page(session(), viewer(Purpose.TOUR), key, _whose(), account_names(session()))
    return show("desk/giving/outing.html", page)


@outings_at_desk.get("/tours/<ref>/afterwards")
def afterwards(ref: str) -> ResponseReturnValue:
    """What the outings of a tour tell together."""
    return show("desk/giving/afterwards.html", _afterwards(ref))


@outings_at_desk.post("/tours/<ref>/afterwards/<station>/take-over")
def take_over(ref: str, station: str) -> ResponseReturnValue:
    """Give the tellings of a stop the minutes that they turned out to need."""
    offered = [new for stop in _afterwards(ref).stops if stop.timed.stop.station.ref == station for new in stop.offered]
    minutes = {new.telling.ref: new.minutes for new in offered}
    with store_of_request().changing(current_user.name) as change:
        edits.take_over(change, minutes)
    return redirect(url_for("outings.afterwards", ref=ref, _anchor=f"stop-{station}"), 303)


@outings_at_desk.post("/tours/<ref>/afterwards/<station>/put-back")
def put_back(ref: str, station: str) -> ResponseReturnValue:
    """Take the last change of minutes at a stop back."""
    undo = [last for stop in _afterwards(ref).stops if stop.timed.stop.station.ref == station for last in stop.undo]
    with store_of_request().changing(current_user.name) as change:
        for last in undo:
            edits.put_back(change, last.telling, now=last.after, before=last.before)
    return redirect(url_for("outings.afterwards", ref=ref, _anchor=f"stop-{station}"), 303)


def _afterwards(ref: str) -> AfterwardsPage:
    return afterwards_page(session(), viewer(Purpose.TOUR), ref)


def _whose() -> int | None:
    """A guide sees the outings of this account, a keeper those of all."""
    return None if role() is Role.KEEPER else current_user.key


def _take_in(log: HandedLog) -> int:
    """Under the guide who gave it, if that is an account here: on a shared device another may be signed in by now."""
    giver = account_named(session(), log.guide) if log.guide else None
    gave = giver.id if giver and giver.role in {Role.GUIDE, Role.KEEPER} else current_user.key
    with store_of_request().changing(current_user.name) as change:
        return edits.take_in(change, log, gave).id


def _take_runs(runs: Sequence[HandedRun]) -> None:
    """Machines that were run on these outings, for their running logs, once."""
    with store_of_request().changing(current_user.name) as change:
        for given in runs:
            lacking = lapsed(change, viewer(Purpose.TOUR), given)
            run_edits.take_run(change, given, current_user.key, lapsed=lacking)


def _in_file(content: bytes) -> tuple[list[object], list[object]]:
    """The logs in a file that a pack saved, and the runs of machines."""
    data = read_json(content)
    held = data if isinstance(data, dict) else {}
    found, runs = held.get("outings"), held.get("runs", [])
    if not isinstance(found, list) or not 0 < len(found) <= _MOST_OUTINGS or not isinstance(runs, list):
        raise _no_log()
    return found, runs[:_MOST_OUTINGS]


def _no_log() -> Unacceptable:
    allowed = _("The file that the pack saves: its name ends in -log.json")
    return Unacceptable([Fault("log", 0, _("this is no log of an outing"), allowed)], "The file")
