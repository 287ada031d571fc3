"""All recordings, one of them, and new interviews."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Unacceptable
from archive.interviews.intake import edits, queries
from archive.interviews.intake.new_interview import read_new_interview
from archive.interviews.model import Interview
from archive.rights.decisions import Role
from archive.store.queries import collection
from archive.tasks import intake
from archive.web.background import have_done
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request, viewer
from archive.web.workroom.intake.interview_page import new_interview_page
from archive.web.workroom.intake.list_page import recordings_page
from archive.web.workroom.intake.recording_page import recording_page

recordings = Blueprint("recordings", __name__, url_prefix="/workroom")
recordings.before_request(only_for(Role.KEEPER))

_LISTS = ("narrators", "interviewers", "allowed")


@recordings.get("/recordings/")
def every() -> ResponseReturnValue:
    """The list of all recordings."""
    asked = {name: request.args.get(name, "")[:64] for name in ("interview", "words", "only")}
    falling = request.args.get("falling") == "1"
    page = recordings_page(session(), asked, request.args.get("sort", ""), falling=falling)
    return show("workroom/intake/recordings.html", page)


@recordings.get("/recordings/<ref>")
def recording(ref: str) -> ResponseReturnValue:
    """One recording: facts, events, copies, and where work on it is done."""
    keeper_in_care()
    return show("workroom/intake/recording.html", recording_page(session(), viewer(), ref))


@recordings.post("/recordings/<ref>/measure")
def measure(ref: str) -> ResponseReturnValue:
    """Ask for what was never measured of a recording."""
    row = queries.recording(session(), ref)
    return have_done(intake.MEASURE, {"recording": row.ref, "who": current_user.name})


@recordings.get("/interviews/new")
def new_interview() -> ResponseReturnValue:
    """The form of a new interview."""
    return show("workroom/intake/new_interview.html", new_interview_page(session(), viewer(), {}, {}, {}))


@recordings.post("/interviews/new")
def add_interview() -> ResponseReturnValue:
    """Make an interview, and lead on to where its recordings are sent."""
    given = {name: value[:20_001] for name, value in request.form.items()}
    chosen = {name: request.form.getlist(name) for name in _LISTS}
    try:
        with store_of_request().changing(current_user.name) as change:
            taken = queries.refs_ever(change, Interview)
            people = {person.ref for person in queries.narrators_known(change)}
            asked = read_new_interview(given, chosen, taken=taken, people=people)
            row = edits.add_interview(change, asked, collection(change).language)
    except Unacceptable as refused:
        faults = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults}
        return show(
            "workroom/intake/new_interview.html", new_interview_page(session(), viewer(), given, chosen, faults), 400
        )
    return redirect(url_for("uploads.page", interview=row.ref), 303)
