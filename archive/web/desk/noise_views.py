"""The map of noise, for guides: a page, and the part of it that changes."""

from __future__ import annotations

from flask import Blueprint
from flask.typing import ResponseReturnValue

from archive.rights.decisions import Purpose, Role
from archive.web.desk.noise_asked import noise_asked
from archive.web.desk.noise_page import noise_page
from archive.web.pages import show
from archive.web.requests import only_for, session, viewer

noise = Blueprint("noise", __name__, url_prefix="/desk/noise")
noise.before_request(only_for(Role.GUIDE, Role.KEEPER))


@noise.get("/")
def page() -> ResponseReturnValue:
    """A floor with the noise of its machines, and what is read at each station."""
    return show("desk/noise.html", noise_page(session(), viewer(Purpose.TOUR), noise_asked()))


@noise.get("/part")
def part() -> ResponseReturnValue:
    """What changes when a machine or a door is switched: the bands, and what is read."""
    return show("desk/noise/part.html", noise_page(session(), viewer(Purpose.TOUR), noise_asked()))
