"""Wishing for a tour, and having it planned in the background."""

from __future__ import annotations

from flask import Blueprint, request
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import NotFound, Unacceptable
from archive.jobs import queries as jobs
from archive.jobs.model import Job
from archive.rights.decisions import Purpose, Role, Viewer
from archive.tasks.tour_planning import KIND, job_inputs
from archive.tours.planning.building import problem_of
from archive.tours.queries import tour
from archive.tours.wishes import Wishes, read_wishes
from archive.web.background import have_done
from archive.web.desk.planning.filled import filled_form, filled_with, wishes_asked
from archive.web.desk.planning.nothing_fits import helped, nothing_fits_page, wishes_of
from archive.web.desk.planning.standing import wishes_like
from archive.web.desk.planning.wishes_page import usual_wishes, wishes_page
from archive.web.pages import show
from archive.web.requests import only_for, role, session, today, viewer

planning = Blueprint("planning", __name__, url_prefix="/desk")
planning.before_request(only_for(Role.GUIDE, Role.KEEPER))


@planning.get("/tours/new")
def new() -> ResponseReturnValue:
    """The form: as usual, as another tour was wished for, or as it was asked when nothing fitted."""
    like, asked = request.args.get("like", ""), request.args.get("wishes", "")
    model = tour(session(), like) if like else None
    wishes = usual_wishes(session(), today(), current_user.name)
    if model:
        wishes = wishes_like(model, today())
    elif asked:
        wishes = wishes_of(_mine(asked))
    return show("desk/planning/wishes.html", wishes_page(session(), _guide(), filled_with(wishes), like=model))


@planning.post("/tours/new")
def plan() -> ResponseReturnValue:
    """Plan what is wished; where it cannot be read, the form again as it was typed."""
    filled = filled_form(request.form)
    try:
        wishes = read_wishes(wishes_asked(filled))
        problem_of(session(), wishes, _guide())
    except Unacceptable as refused:
        page = wishes_page(session(), _guide(), filled, faults=refused.faults)
        return show("desk/planning/wishes.html", page, page.status)
    return hand_on(wishes)


@planning.get("/planning/<key>")
def nothing_fits(key: str) -> ResponseReturnValue:
    """Why no tour could be planned from some wishes, and what would help."""
    row = _mine(key)
    if "conflict" not in (row.outcome or {}):
        raise NotFound(f"There is no planning '{key[:40]}' here that found nothing.")
    return show("desk/planning/nothing_fits.html", nothing_fits_page(session(), _guide(), row))


@planning.post("/planning/<key>/again")
def plan_again(key: str) -> ResponseReturnValue:
    """Plan again with one of the changes that would help."""
    row = _mine(key)
    return hand_on(helped(row, request.form.get("change", "")), row.inputs["ref"])


def hand_on(wishes: Wishes, ref: str | None = None) -> ResponseReturnValue:
    """Have a tour planned in the background, a new one or the rest of one that there is; the way leads to its page."""
    asked = job_inputs(wishes, role=role(), on=today(), who=current_user.name, ref=ref)
    return have_done(KIND, asked)


def _guide() -> Viewer:
    return viewer(Purpose.TOUR)


def _mine(key: str) -> Job:
    """A planning that this person asked for; a keeper sees every one."""
    row = jobs.job(session(), key)
    foreign = role() is not Role.KEEPER and row.who != current_user.name
    if foreign or row.kind != KIND:
        raise NotFound(f"There is no planning '{key[:40]}' here.")
    return row
