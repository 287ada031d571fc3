"""Every version of a transcript: listed, two compared, one made the newest again."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Fault, Unacceptable
from archive.interviews.transcripts.edits import go_back
from archive.interviews.transcripts.queries import recording_in_care
from archive.rights.decisions import Role
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request, whole_number
from archive.web.workroom.bench.page import compare_page, versions_page

versions = Blueprint("versions", __name__, url_prefix="/workroom/recordings/<ref>/versions")
versions.before_request(only_for(Role.KEEPER))


@versions.get("/")
def every(ref: str) -> ResponseReturnValue:
    """The list."""
    recording = recording_in_care(session(), keeper_in_care(), ref)
    return show("workroom/bench/versions.html", versions_page(session(), recording))


@versions.get("/compare")
def compared(ref: str) -> ResponseReturnValue:
    """Two versions, line by line and word by word."""
    recording = recording_in_care(session(), keeper_in_care(), ref)
    older, newer = whole_number("older", 0), whole_number("newer", recording.transcript_version)
    return show("workroom/bench/compare.html", compare_page(session(), recording, older, newer))


@versions.post("/<int:number>/back")
def back(ref: str, number: int) -> ResponseReturnValue:
    """Make an older version the newest again."""
    viewer = keeper_in_care()
    given = request.form.get("now", "")
    if not given.isdigit():
        raise Unacceptable([Fault("now", 0, "it says no version", "Load the page again")], "The form")
    with store_of_request().changing(current_user.name) as change:
        recording = recording_in_care(change, viewer, ref)
        go_back(change, recording, number, who=current_user.name, based_on=int(given))
    return redirect(url_for("versions.every", ref=ref), 303)
