"""What is out of use, for guides and keepers: seen, added to, put back in use."""

from __future__ import annotations

import datetime as dt

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Fault, Unacceptable
from archive.plan.edits import back_in_use, put_out_of_use
from archive.rights.decisions import Role
from archive.web.desk.out_of_use.pages import out_of_use_page
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request, today

out_of_use = Blueprint("out_of_use", __name__, url_prefix="/desk/out-of-use")
out_of_use.before_request(only_for(Role.GUIDE, Role.KEEPER))


@out_of_use.get("/")
def places() -> ResponseReturnValue:
    """What is out of use today, will be, and was, with the form to add to it."""
    return show("desk/out_of_use.html", out_of_use_page(session(), today()))


@out_of_use.post("/")
def add() -> ResponseReturnValue:
    """Put a place out of use, or show the form again with its faults."""
    given = {name: request.form.get(name, "").strip() for name in ("place", "from", "until", "why")}
    try:
        with store_of_request().changing(current_user.name) as change:
            kind, _, place = given["place"].partition(":")
            from_day, until_day = _days(given)
            put_out_of_use(change, kind, place, from_day, until_day, given["why"])
    except Unacceptable as refused:
        faults = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults}
        return show("desk/out_of_use.html", out_of_use_page(session(), today(), given=given, faults=faults), 400)
    return redirect(url_for("out_of_use.places"), 303)


@out_of_use.post("/<int:key>/back")
def back(key: int) -> ResponseReturnValue:
    """Put a place back in use from today on."""
    with store_of_request().changing(current_user.name) as change:
        back_in_use(change, key, today())
    return redirect(url_for("out_of_use.places"), 303)


def _days(given: dict[str, str]) -> tuple[dt.date, dt.date | None]:
    found: dict[str, dt.date | None] = {}
    faults = []
    for name in ("from", "until"):
        try:
            found[name] = dt.date.fromisoformat(given[name]) if given[name] else None
        except ValueError:
            faults.append(Fault(name, 0, f"'{given[name][:20]}' is no day", "Write a day as 2031-05-03"))
    if faults:
        raise Unacceptable(faults, "What you gave")
    return found["from"] or today(), found["until"]
