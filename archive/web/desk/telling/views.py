"""Listing tellings, writing them, looking them over, withdrawing and restoring them."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Unacceptable
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.queries import collection
from archive.tours.telling import edits
from archive.tours.telling.asked import Asked, asked_in
from archive.web.desk.telling.form_page import form_asked, form_page
from archive.web.desk.telling.list_page import list_page, sieve_in
from archive.web.desk.telling.looked_page import looked_asked
from archive.web.desk.telling.telling_page import telling_page
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request, viewer

tellings = Blueprint("tellings", __name__, url_prefix="/desk/tellings")
tellings.before_request(only_for(Role.GUIDE, Role.KEEPER))


@tellings.get("/")
def every() -> ResponseReturnValue:
    """The list, sifted as the address says."""
    return show("desk/telling/list.html", list_page(session(), _guide(), sieve_in(request.args)))


@tellings.get("/new")
def new() -> ResponseReturnValue:
    """An empty form, at a station if one is named."""
    asked = Asked(station=request.args.get("station", "")[:64], language=collection(session()).language)
    return show("desk/telling/form.html", form_page(session(), _guide(), asked, who=current_user.name))


@tellings.post("/new")
def add() -> ResponseReturnValue:
    """Keep a new telling; where it cannot be taken, or is only to be looked over, the form again as it was typed."""
    asked = _asked()
    if request.form.get("deed") != "keep":
        return _again(asked)
    try:
        with store_of_request().changing(current_user.name) as change:
            ref = edits.add_telling(change, _guide(), asked).ref
    except Unacceptable as refused:
        return _again(asked, refused=refused)
    return redirect(url_for("tellings.one", ref=ref, did="kept"), 303)


@tellings.route("/look", methods=["GET", "POST"])
def look() -> ResponseReturnValue:
    """What was typed so far, looked over: a part of the page, for its script. Nothing is kept."""
    asked = asked_in(request.values, dict(request.values.lists()))
    pace = collection(session()).speaking_pace_wpm
    return show("desk/telling/looked.html", looked_asked(session(), _guide(), asked, pace))


@tellings.get("/<ref>")
def one(ref: str) -> ResponseReturnValue:
    """One telling, looked over."""
    return show("desk/telling/telling.html", telling_page(session(), _guide(), ref, request.args.get("did", "")))


@tellings.get("/<ref>/edit")
def edit(ref: str) -> ResponseReturnValue:
    """The form of a kept telling."""
    asked = form_asked(session(), _guide(), ref)
    return show("desk/telling/form.html", form_page(session(), _guide(), asked, ref=ref, who=current_user.name))


@tellings.post("/<ref>/edit")
def change(ref: str) -> ResponseReturnValue:
    """Keep it as typed; where somebody was faster, both are shown and nothing is kept."""
    asked = _asked()
    if request.form.get("deed") != "keep":
        return _again(asked, ref)
    try:
        with store_of_request().changing(current_user.name) as changing:
            edits.change_telling(changing, _guide(), ref, asked, request.form.get("stamp", ""))
    except Unacceptable as refused:
        return _again(asked, ref, refused=refused)
    except edits.Overtaken:
        return _again(asked, ref, overtaken=True)
    return redirect(url_for("tellings.one", ref=ref, did="kept"), 303)


@tellings.post("/<ref>/withdraw")
def withdraw(ref: str) -> ResponseReturnValue:
    """Take it out of use; it can be restored at once."""
    with store_of_request().changing(current_user.name) as changing:
        edits.withdraw(changing, _guide(), ref)
    return redirect(url_for("tellings.one", ref=ref, did="withdrawn"), 303)


@tellings.post("/<ref>/restore")
def restore(ref: str) -> ResponseReturnValue:
    """Put it back into use."""
    with store_of_request().changing(current_user.name) as changing:
        edits.restore(changing, _guide(), ref)
    return redirect(url_for("tellings.one", ref=ref, did="restored"), 303)


def _again(
    asked: Asked, ref: str | None = None, *, refused: Unacceptable | None = None, overtaken: bool = False
) -> ResponseReturnValue:
    """The form again, as it was typed."""
    page = form_page(
        session(),
        _guide(),
        asked,
        ref=ref,
        stamp=request.form.get("stamp", ""),
        find=request.form.get("find", "").strip()[:100],
        faults=refused.faults if refused else (),
        overtaken=overtaken,
        sent=True,
        who=current_user.name,
    )
    return show("desk/telling/form.html", page, 400 if refused else 409 if overtaken else 200)


def _asked() -> Asked:
    return asked_in(request.form, dict(request.form.lists()))


def _guide() -> Viewer:
    return viewer(Purpose.TOUR)
