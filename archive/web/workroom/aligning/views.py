"""Asking for the times of a recording's words, and seeing what came of it. For keepers alone."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.interviews.transcripts.queries import recording_in_care
from archive.rights.decisions import Role
from archive.tasks.aligning import ask_for, wanted_of
from archive.tasks.queue import hand_over
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request
from archive.web.workroom.aligning.page import aligning_page

aligning = Blueprint("aligning", __name__, url_prefix="/workroom/recordings/<ref>/align")
aligning.before_request(only_for(Role.KEEPER))


@aligning.get("")
def page(ref: str) -> ResponseReturnValue:
    """What would be done, and what a person should look at."""
    recording = recording_in_care(session(), keeper_in_care(), ref)
    return show("workroom/aligning/align.html", aligning_page(session(), recording, request.args.get("done", "")[:64]))


@aligning.post("")
def ask(ref: str) -> ResponseReturnValue:
    """Ask for it, and lead on to the work; what cannot be done is refused at once."""
    recording_in_care(session(), keeper_in_care(), ref)
    store = store_of_request()
    wanted_of(store, session(), ref)
    with store.changing(current_user.name) as change:
        job, new = ask_for(change, ref, current_user.name, anew=request.form.get("anew") == "yes")
        key = job.key
    if new:
        hand_over(store, key)
    return redirect(url_for("jobs.job", key=key), 303)
