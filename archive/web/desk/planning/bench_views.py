"""Changing a tour by hand: each deed is sent, the tour is worked out anew, and the page shows it."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Fault, Unacceptable
from archive.rights.decisions import Purpose, Role
from archive.tours import edits
from archive.tours.queries import tour
from archive.web.desk.pages import tour_sheet_of
from archive.web.desk.planning.deeds import do_deed
from archive.web.desk.planning.edit_page import edit_page
from archive.web.desk.planning.standing import wishes_with_pins
from archive.web.desk.planning.views import hand_on
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request, viewer

bench = Blueprint("bench", __name__, url_prefix="/desk/tours")
bench.before_request(only_for(Role.GUIDE, Role.KEEPER))


@bench.get("/<ref>/edit")
def edit(ref: str) -> ResponseReturnValue:
    """The tour under the hand."""
    did = request.args.get("did", "")
    return show("desk/planning/edit.html", edit_page(session(), viewer(Purpose.TOUR), ref, did=did))


@bench.post("/<ref>/deeds")
def deed(ref: str) -> ResponseReturnValue:
    """Do one thing to it."""
    asked, version = request.form.get("deed", ""), request.form.get("version", "")
    guide = viewer(Purpose.TOUR)
    with store_of_request().changing(current_user.name) as change:
        did = do_deed(change, guide, current_user.name, ref, version=version, deed=asked)
    return redirect(url_for("bench.edit", ref=ref, did=did), 303)


@bench.post("/<ref>/finish")
def finish(ref: str) -> ResponseReturnValue:
    """Have the rest planned around what is pinned."""
    sheet = tour_sheet_of(session(), viewer(Purpose.TOUR), tour(session(), ref))
    return hand_on(wishes_with_pins(sheet), ref)


@bench.post("/<ref>/name")
def describe(ref: str) -> ResponseReturnValue:
    """Give it another name or summary."""
    name, summary = (" ".join(request.form.get(field, "").split()) for field in ("name", "summary"))
    if not 0 < len(name) <= 200 or len(summary) > 600:
        raise Unacceptable([Fault("name", 0, "The name is empty or too long", "Give a name of up to 200 letters")])
    with store_of_request().changing(current_user.name) as change:
        edits.describe(change, current_user.name, tour(change, ref), name=name, summary=summary)
    return redirect(url_for("bench.edit", ref=ref, did="done"), 303)


@bench.post("/<ref>/away")
def put_away(ref: str) -> ResponseReturnValue:
    """Take it out of the list, or put it back."""
    with store_of_request().changing(current_user.name) as change:
        deed_done = edits.restore if request.form.get("deed") == "restore" else edits.withdraw
        deed_done(change, current_user.name, tour(change, ref))
    return redirect(url_for("bench.edit", ref=ref, did="done"), 303)
