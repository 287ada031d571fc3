"""Giving a tour: the page on the floor, and what is carried out of reach."""

from __future__ import annotations

from flask import Blueprint, Response, jsonify
from flask.typing import ResponseReturnValue
from flask_login import current_user
from sqlalchemy.orm import Session

from archive.rights.decisions import Purpose, Role, Viewer
from archive.settings import shared_folder
from archive.store.session import Store
from archive.web.desk.giving import carrying
from archive.web.desk.giving.floor import starts_asked
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request, viewer

giving = Blueprint("giving", __name__, url_prefix="/desk")
giving.before_request(only_for(Role.GUIDE, Role.KEEPER))

# Asked for by browsers without a sign-in too, when they look for a newer one; it holds nothing of the collection.
worker = Blueprint("giving_worker", __name__, url_prefix="/desk")


@giving.get("/tours/<ref>/give")
def give(ref: str) -> ResponseReturnValue:
    """The page that a tour is given with."""
    page = carrying.page_with_sounds(
        session(), viewer(Purpose.TOUR), ref, guide=current_user.name, starts=starts_asked()
    )
    return show("desk/giving/give.html", page)


@giving.get("/tours/<ref>/pack.json")
def kept(ref: str) -> Response:
    """What a device may keep of the tour today."""
    return jsonify(carrying.kept_tour(*_asked(), ref, current_user.name).as_answer())


@giving.get("/tours/<ref>/pack.zip")
def pack(ref: str) -> Response:
    """The tour as a ZIP that opens from disk."""
    content = carrying.pack_of(*_asked(), ref, current_user.name)
    answer = Response(content, mimetype="application/zip")
    answer.headers.set("Content-Disposition", "attachment", filename=f"{ref}.zip")
    return answer


@worker.get("/giving-worker.js")
def script() -> Response:
    """The worker that keeps tours for when the network is gone; from here it may answer for the whole Desk."""
    text = (shared_folder("static") / "js/desk/giving/worker.js").read_text("utf-8")
    answer = Response(text, mimetype="text/javascript")
    answer.headers["Cache-Control"] = "no-cache"
    return answer


def _asked() -> tuple[Store, Session, Viewer]:
    """What is asked, by whom."""
    return store_of_request(), session(), viewer(Purpose.TOUR)
