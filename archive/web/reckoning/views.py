"""The sums of the trade as pages that work without script: a list, and a form with its answer for each."""

from __future__ import annotations

from flask import Blueprint, request
from flask.typing import ResponseReturnValue

from archive.web.pages import show
from archive.web.reckoning.list_page import list_page
from archive.web.reckoning.sum_page import FACE, sum_page
from archive.web.requests import session

reckoning = Blueprint("reckoning", __name__, url_prefix="/reckoners")


@reckoning.get("/")
def every() -> ResponseReturnValue:
    """Every sum, by room."""
    return show("reckoning/list.html", list_page(session(), kiosk=_kiosk()))


@reckoning.get("/<path:name>")
def one(name: str) -> ResponseReturnValue:
    """One sum: its form, and the answer to what the address gives."""
    given = [(key, value) for key, value in request.args.items(multi=True) if key != FACE]
    page = sum_page(session(), name, given, kiosk=_kiosk())
    return show("reckoning/sum.html", page, page.status)


def _kiosk() -> bool:
    """Whether the page is asked for in the kiosk's type."""
    return request.args.get(FACE) == "kiosk"
