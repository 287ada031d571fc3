"""Asking for a draft of a recording's words, and saying that a person has checked them. For keepers alone."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.errors import Conflict
from archive.interviews.transcripts.edits import set_state
from archive.interviews.transcripts.queries import recording_in_care
from archive.rights.decisions import Role
from archive.tasks.drafting import ask_for
from archive.tasks.queue import hand_over
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request
from archive.web.workroom.drafting.page import draft_page

drafting = Blueprint("drafting", __name__, url_prefix="/workroom/recordings/<ref>")
drafting.before_request(only_for(Role.KEEPER))


@drafting.get("/draft")
def page(ref: str) -> ResponseReturnValue:
    """What is there, what is missing, and what came of it."""
    recording = recording_in_care(session(), keeper_in_care(), ref)
    settings, done = store_of_request().settings, request.args.get("done", "")[:64]
    return show("workroom/drafting/draft.html", draft_page(session(), settings, recording, done))


@drafting.post("/draft")
def ask(ref: str) -> ResponseReturnValue:
    """Ask for it, and lead on to the work; what cannot be done is refused at once."""
    keeper_in_care()
    store = store_of_request()
    with store.changing(current_user.name) as change:
        over, terms = (request.form.get(name) == "yes" for name in ("over", "terms"))
        job, new = ask_for(change, store.settings, ref, current_user.name, over=over, terms=terms)
        key = job.key
    if new:
        hand_over(store, key)
    return redirect(url_for("jobs.job", key=key), 303)


@drafting.post("/checked")
def checked(ref: str) -> ResponseReturnValue:
    """Say that a person has checked the words as they stand; or that they are a draft after all."""
    with store_of_request().changing(current_user.name) as change:
        row = recording_in_care(change, keeper_in_care(), ref)
        if row.transcript_state == "none":
            raise Conflict(f"{row.ref} has no words that could be checked.")
        set_state(row, checked=request.form.get("checked") == "yes")
    return redirect(url_for("recordings.recording", ref=ref), 303)
