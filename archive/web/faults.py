"""The one table that turns a class of error into a status and a page."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Flask, Response, jsonify, request
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError

from archive.errors import Conflict, Fault, LemelError, NotAllowed, NotFound, NotReady, OutOfRange, Unacceptable
from archive.web.pages import show

STATUS: tuple[tuple[type[LemelError], int], ...] = (
    (NotFound, 404),
    (NotAllowed, 403),
    (Unacceptable, 400),
    (OutOfRange, 422),
    (Conflict, 409),
    (NotReady, 503),
    (LemelError, 500),
)


@dataclass(frozen=True)
class FaultPage:
    """What the page of an error needs: its status, heading, words, and the single faults if there are any."""

    status: int
    heading: str
    words: str
    faults: tuple[Fault, ...] = ()


def install(app: Flask) -> None:
    """Make an app answer errors by the table."""
    app.register_error_handler(LemelError, _answer_ours)
    app.register_error_handler(CSRFError, _answer_stale_form)
    app.register_error_handler(HTTPException, _answer_http)


def status_of(error: LemelError) -> int:
    """The status that an error of ours is answered with."""
    return next(code for kind, code in STATUS if isinstance(error, kind))


def _answer_ours(error: LemelError) -> ResponseReturnValue:
    status = status_of(error)
    if isinstance(error, NotFound):
        # Absent and closed are told alike, so the words say nothing of what was asked for.
        return _answer(_nothing_here())
    faults = error.faults if isinstance(error, Unacceptable) else ()
    words = _("What was sent has faults. Nothing was changed.") if faults else str(error)
    return _answer(FaultPage(status, _heading(status), words, faults))


def _answer_stale_form(_error: CSRFError) -> ResponseReturnValue:
    words = _("This form was open too long or came from elsewhere. Go back, load the page again, and send it again.")
    return _answer(FaultPage(400, _heading(400), words))


def _answer_http(error: HTTPException) -> ResponseReturnValue:
    if error.code is not None and error.code < 400:
        return error.get_response()
    if error.code == 404:
        return _answer(_nothing_here())
    status = error.code or 500
    broken = isinstance(error, InternalServerError)
    words = _("Something broke here. It has been written to the log; try again.") if broken else _http_words(status)
    answer = _answer(FaultPage(status, _heading(status), words))
    for name, value in error.get_headers():
        if name in {"Allow", "Content-Range", "Retry-After"}:
            answer.headers[name] = value
    return answer


def _nothing_here() -> FaultPage:
    return FaultPage(404, _("There is nothing here"), _("The page is not here, or is not open to you."))


def _heading(status: int) -> str:
    headings = {
        400: _("This could not be taken"),
        403: _("This is not open to you"),
        409: _("Not yet"),
        422: _("Beyond what can be worked out"),
        429: _("Too many tries"),
        503: _("Not ready yet"),
    }
    return str(headings.get(status, _("Something is wrong")))


def _http_words(status: int) -> str:
    words = {
        405: _("This page does not take that kind of request."),
        413: _("What was sent is too large."),
        414: _("The address is too long."),
        416: _("The recording has no such stretch."),
        429: _("Wait a few minutes, then try again."),
    }
    return str(words.get(status, _("The request could not be understood.")))


def _answer(page: FaultPage) -> Response:
    if request.path.startswith("/api/"):
        faults = [{"where": fault.where, "found": fault.found, "allowed": fault.allowed} for fault in page.faults]
        answer = jsonify({"error": page.heading, "words": page.words, "faults": faults})
    else:
        answer = Response(show("fault.html", page)[0])
    answer.status_code = page.status
    return answer
