"""Files sent by a browser: begun, sent piece by piece, gone on with after a break, dropped, taken in."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from flask import Blueprint, Response, jsonify, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user
from flask_wtf.csrf import generate_csrf

from archive.errors import Fault, LemelError, Unacceptable
from archive.interviews.intake import arriving, queries
from archive.interviews.model import Upload
from archive.rights.decisions import Role
from archive.tasks import intake
from archive.tasks.queue import hand_over
from archive.web.faults import status_of
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request
from archive.web.workroom.intake.upload_page import upload_line, upload_page

uploads = Blueprint("uploads", __name__, url_prefix="/workroom/upload")
uploads.before_request(only_for(Role.KEEPER))

View = Callable[..., ResponseReturnValue]


def told_to_a_script(view: View) -> View:
    """Answer errors of ours as data: their words, to be shown beside the file."""

    @wraps(view)
    def answered(**given: str) -> ResponseReturnValue:
        try:
            return view(**given)
        except Unacceptable as refused:
            says = " ".join(f"{fault.found[0].upper()}{fault.found[1:]}. {fault.allowed}." for fault in refused.faults)
            return jsonify(says=says), status_of(refused)
        except LemelError as problem:
            return jsonify(says=str(problem)), status_of(problem)

    return answered


@uploads.get("/")
def page() -> ResponseReturnValue:
    """What is on its way, and the form for more."""
    interview = request.args.get("interview", "")
    return show("workroom/intake/upload.html", upload_page(session(), store_of_request().settings, interview))


@uploads.post("/begin")
@told_to_a_script
def begin() -> ResponseReturnValue:
    """Make ready for a file."""
    form = request.form
    row = _begun(form.get("interview", ""), form.get("name", ""), _bytes("size", form.get("size", "")))
    answer = _state(row.key)
    answer.status_code = 201
    return answer


@uploads.get("/<key>.json")
@told_to_a_script
def state(key: str) -> ResponseReturnValue:
    """How far a file is, and a fresh token to go on with."""
    return _state(key)


@uploads.put("/<key>/bytes")
@told_to_a_script
def piece(key: str) -> ResponseReturnValue:
    """Take the next piece of a file; the last one begins the work."""
    offset = _bytes("from", request.args.get("from", ""))
    row = arriving.take_piece(store_of_request(), key, offset, request.get_data(), current_user.name)
    if row.state == "arrived":
        _take_in(key)
    return _state(key)


@uploads.post("/plain")
def plain() -> ResponseReturnValue:
    """A small file sent whole by the form itself, without scripts."""
    file = request.files.get("file")
    content = file.read() if file else b""
    row = _begun(request.form.get("interview", ""), (file.filename if file else "") or "", len(content))
    arriving.take_piece(store_of_request(), row.key, 0, content, current_user.name)
    return redirect(url_for("jobs.job", key=_take_in(row.key)), 303)


@uploads.post("/<key>/take")
def take(key: str) -> ResponseReturnValue:
    """Take a file in after all, though the same is there."""
    return redirect(url_for("jobs.job", key=_take_in(key, all_the_same=True)), 303)


@uploads.post("/<key>/drop")
def drop(key: str) -> ResponseReturnValue:
    """Give a file up."""
    store = store_of_request()
    with store.changing(current_user.name) as change:
        intake.let_go(change, queries.upload(change, key))
    arriving.drop(store, key, current_user.name)
    return redirect(url_for("uploads.page"), 303)


def _begun(interview: str, name: str, size: int) -> Upload:
    return arriving.begin(store_of_request(), interview=interview, name=name, size=size, who=current_user.name)


def _take_in(key: str, *, all_the_same: bool = False) -> str:
    """Ask for the work in one commit, then hand it over; gives its key."""
    store = store_of_request()
    with store.changing(current_user.name) as change:
        row = queries.upload(change, key)
        job = intake.ask_for(change, row, current_user.name, all_the_same=all_the_same)
    hand_over(store, job.key)
    return job.key


def _state(key: str) -> Response:
    """Read afresh, since the work may have been done meanwhile."""
    with store_of_request().session() as now:
        line = upload_line(now, queries.upload(now, key))
    return jsonify(**line.data, token=generate_csrf())


def _bytes(where: str, text: str) -> int:
    """A number of bytes; Unacceptable when it is none."""
    if text.isascii() and text.isdigit() and len(text) <= 18:
        return int(text)
    raise Unacceptable([Fault(where, 0, f"'{text[:30]}' is no number of bytes", "Give a whole number")], "The upload")
