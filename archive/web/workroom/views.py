"""The Workroom: what is in the home, what changes soon, and whether the files are sound."""

from __future__ import annotations

from flask import Blueprint
from flask.typing import ResponseReturnValue

from archive.rights.decisions import Role
from archive.web.pages import show
from archive.web.requests import only_for, session, today
from archive.web.workroom.home_page import home_page

workroom = Blueprint("workroom", __name__, url_prefix="/workroom")
workroom.before_request(only_for(Role.KEEPER))


@workroom.get("/")
def home() -> ResponseReturnValue:
    """What stands in the home."""
    return show("workroom/home.html", home_page(session(), today()))
