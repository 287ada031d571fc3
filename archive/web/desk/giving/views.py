"""Giving a tour: the page on the floor, its voices, and what is carried out of reach."""

from __future__ import annotations

import hashlib
import io

from flask import Blueprint, Response, jsonify, request, send_file
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.rights.decisions import Purpose, Role
from archive.settings import shared_folder
from archive.tours.given.cuts import MEDIA_TYPE
from archive.web.desk.giving import carrying
from archive.web.desk.giving.floor import starts_asked
from archive.web.desk.giving.sounds import clip_mark, open_clip, sound_of_clip
from archive.web.media.answers import CACHING
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


@giving.get("/tours/<ref>/clips/<clip>.mp3")
def clip(ref: str, clip: str) -> ResponseReturnValue:
    """The sound of a clip, cut from its recording; whether it is open is asked on every request."""
    wanted = open_clip(session(), viewer(Purpose.TOUR), clip)
    return _sent(sound_of_clip(store_of_request().files, wanted), MEDIA_TYPE, clip_mark(wanted))


@giving.get("/tours/<ref>/pack.json")
def kept(ref: str) -> Response:
    """What a device may keep of the tour today."""
    return jsonify(carrying.kept_tour(session(), viewer(Purpose.TOUR), ref, current_user.name).as_answer())


@giving.get("/tours/<ref>/pack.zip")
def pack(ref: str) -> Response:
    """The tour as a ZIP that opens from disk."""
    content = carrying.pack_of(session(), viewer(Purpose.TOUR), store_of_request().files, ref, current_user.name)
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


def _sent(content: bytes, media_type: str, mark: str) -> Response:
    """Bytes with ranges, and for caches that ask again each time."""
    answer = send_file(io.BytesIO(content), mimetype=media_type, etag=False, conditional=False)
    answer.headers["Cache-Control"] = CACHING
    answer.set_etag(hashlib.sha256(mark.encode()).hexdigest())
    answer.make_conditional(request, accept_ranges=True, complete_length=len(content))
    return answer
