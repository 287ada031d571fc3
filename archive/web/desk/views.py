"""The Desk: tours, their sheets, and what may be told at each station, for guides."""

from __future__ import annotations

from flask import Blueprint
from flask.typing import ResponseReturnValue

from archive.rights.decisions import Purpose, Role
from archive.web.desk import pages
from archive.web.desk.giving.carrying import page_with_sounds
from archive.web.desk.giving.floor import starts_asked
from archive.web.pages import show
from archive.web.requests import only_for, session, viewer

desk = Blueprint("desk", __name__, url_prefix="/desk")
desk.before_request(only_for(Role.GUIDE, Role.KEEPER))


@desk.get("/")
def tours() -> ResponseReturnValue:
    """All tours, each as a strip of its stops."""
    return show("desk/tours.html", pages.tours_page(session(), viewer(Purpose.TOUR)))


@desk.get("/tours/<ref>")
def tour(ref: str) -> ResponseReturnValue:
    """One tour: the walked line on the plan, the strip, and what is told."""
    return show("desk/tour.html", pages.tour_page(session(), viewer(Purpose.TOUR), ref))


@desk.get("/tours/<ref>/sheet")
def sheet(ref: str) -> ResponseReturnValue:
    """One tour to print on A4 and carry."""
    page = page_with_sounds(session(), viewer(Purpose.TOUR), ref, guide="", starts=starts_asked())
    return show("desk/sheet.html", page)


@desk.get("/stations/<ref>")
def station(ref: str) -> ResponseReturnValue:
    """What may be told at one station, and on what evidence."""
    return show("desk/station.html", pages.station_page(session(), viewer(Purpose.TOUR), ref))
