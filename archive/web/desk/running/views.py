"""Demonstrations: the list, the checks before the start, the start, runs handed in, and the log of a machine."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from flask import Blueprint, jsonify, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user
from flask_wtf.csrf import generate_csrf

from archive.errors import Unacceptable
from archive.interviews.names import shown_names
from archive.objects.queries import demonstration as demonstration_by_ref
from archive.objects.running import edits, queries
from archive.objects.running.handed import HandedRun, read_run
from archive.rights.decisions import Purpose, Role
from archive.web.desk.running import pages
from archive.web.desk.running.by_hand import run_by_hand
from archive.web.desk.running.lapses import lapsed
from archive.web.pages import show
from archive.web.requests import only_for, read_json, session, store_of_request, today, viewer

running = Blueprint("running", __name__, url_prefix="/desk")
running.before_request(only_for(Role.GUIDE, Role.KEEPER))

# A device's clock may be a little fast.
_AHEAD = dt.timedelta(minutes=10)


@running.get("/demonstrations/")
def every() -> ResponseReturnValue:
    """All demonstrations, and whether each may run today."""
    return show("desk/running/every.html", pages.demonstrations_page(session(), viewer(Purpose.TOUR)))


@running.get("/demonstrations/<ref>")
def demonstration(ref: str) -> ResponseReturnValue:
    """One demonstration: its papers, cautions and checks; started, stopped and written down here."""
    page = pages.demonstration_page(session(), viewer(Purpose.TOUR), ref)
    return show("desk/running/demonstration.html", page)


@running.get("/demonstrations/<ref>/card")
def card(ref: str) -> ResponseReturnValue:
    """The same to print on A4 and hang at the machine."""
    return show("desk/running/card.html", pages.demonstration_page(session(), viewer(Purpose.TOUR), ref))


@running.post("/demonstrations/<ref>/start")
def start(ref: str) -> ResponseReturnValue:
    """Write down that a run begins; refused while anything is lacking, whoever asks."""
    try:
        given = _handed()
    except Unacceptable as refused:
        return _refused(refused)
    who = viewer(Purpose.TOUR)
    with store_of_request().changing(current_user.name) as change:
        row = demonstration_by_ref(change, ref)
        checks = queries.before_start(change, row, who, shown_names(change, who))
        lacking = checks.missing(given.operator, given.confirmed)
        if (given.machine, given.demonstration) != (row.machine.ref, row.ref):
            lacking.append("The run that was handed in is of another machine.")
        if not lacking:
            edits.take_run(change, given, current_user.key, lapsed=edits.lapsed_on(row.machine, given))
    return (jsonify(lacking=lacking), 409) if lacking else jsonify(key=given.key)


@running.get("/runs/token")
def token() -> ResponseReturnValue:
    """A fresh token for handing in, since a page may have been open, out of reach, for hours."""
    return jsonify(token=generate_csrf())


@running.post("/runs/")
def hand_in() -> ResponseReturnValue:
    """Take a run from a device, once by its key; one without a clearance in force is kept and marked."""
    try:
        given = _handed()
    except Unacceptable as refused:
        return _refused(refused)
    with store_of_request().changing(current_user.name) as change:
        row = edits.take_run(change, given, current_user.key, lapsed=lapsed(change, viewer(Purpose.TOUR), given))
        return jsonify(key=row.key, lapsed=row.lapsed)


@running.get("/machines/<ref>/log")
def log(ref: str) -> ResponseReturnValue:
    """The running log of a machine."""
    taken = request.args.get("taken") == "1"
    return show("desk/running/log.html", pages.log_page(session(), viewer(Purpose.TOUR), ref, taken=taken))


@running.post("/machines/<ref>/log")
def add_by_hand(ref: str) -> ResponseReturnValue:
    """A run that was written down elsewhere."""
    try:
        with store_of_request().changing(current_user.name) as change:
            row = queries.machine(change, ref)
            given = run_by_hand(row, request.form, latest=_latest())
            edits.take_run(change, given, current_user.key, lapsed=edits.lapsed_on(row, given))
    except Unacceptable as refused:
        told = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults}
        form = {name: str(value) for name, value in request.form.items()}
        page = pages.log_page(session(), viewer(Purpose.TOUR), ref, given=form, faults=told)
        return show("desk/running/log.html", page, 400)
    return redirect(url_for("running.log", ref=ref, taken=1), 303)


def _handed() -> HandedRun:
    data = read_json(request.get_data())
    return read_run(data if isinstance(data, Mapping) else None, latest=_latest())


def _refused(refused: Unacceptable) -> ResponseReturnValue:
    return jsonify(faults=[f"{each.found}. {each.allowed}." for each in refused.faults]), 400


def _latest() -> dt.datetime:
    """The last moment at which a run can have begun; on a day that tests set, the end of that day."""
    now = dt.datetime.now(dt.UTC) + _AHEAD
    end = dt.datetime.combine(today(), dt.time.max, dt.UTC) + dt.timedelta(hours=14)
    return min(now, end) if now.date() == today() else end
