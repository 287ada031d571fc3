"""Asking for the voices of a recording to be told apart, and naming them. For keepers alone."""

from __future__ import annotations

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_login import current_user

from archive.errors import Conflict
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import LONGEST_LABEL
from archive.interviews.transcripts.queries import lines_of, recording_in_care
from archive.interviews.voices import Called, named
from archive.rights.decisions import Role
from archive.tasks.queue import hand_over
from archive.tasks.telling_apart import ask_for
from archive.web.pages import show
from archive.web.requests import keeper_in_care, only_for, session, store_of_request, whole_number
from archive.web.workroom.turns.page import apart_of, turns_page

turns = Blueprint("turns", __name__, url_prefix="/workroom/recordings/<ref>/turns")
turns.before_request(only_for(Role.KEEPER))

SAID = "Voices told apart and named"


@turns.get("")
def page(ref: str) -> ResponseReturnValue:
    """What would be done, or the voices that were found."""
    recording = recording_in_care(session(), keeper_in_care(), ref)
    kept = request.args.get("named") == "yes"
    return show(
        "workroom/turns/turns.html", turns_page(session(), recording, whole_number("voices", 0, most=9), named=kept)
    )


@turns.post("")
def ask(ref: str) -> ResponseReturnValue:
    """Ask for it, and lead on to the work."""
    keeper_in_care()
    store = store_of_request()
    with store.changing(current_user.name) as change:
        job, new = ask_for(change, ref, current_user.name)
        key = job.key
    if new:
        hand_over(store, key)
    return redirect(url_for("jobs.job", key=key), 303)


@turns.post("/names")
def name(ref: str) -> ResponseReturnValue:
    """Write each voice's name beside its lines, as one version; what was named is told on the page."""
    asked = request.form.get("voices", "")
    with store_of_request().changing(current_user.name) as change:
        row = recording_in_care(change, keeper_in_care(), ref)
        apart = apart_of(change, row, int(asked) if asked.isascii() and asked.isdigit() else 0)
        if apart is None:
            raise Conflict(_("The words have changed since the voices were told apart. Ask for it again."))
        called = {voice: _called(voice + 1) for voice in range(apart.chosen)}
        before = lines_of(change, row)
        lines = named(before, apart.voices, called, over=request.form.get("over") == "yes")
        if [line.said for line in lines] == [line.said for line in before]:
            problem = _("No line got another speaker. Say who at least one of the voices is.")
            return show("workroom/turns/turns.html", turns_page(change, row, apart.chosen, problem=problem), 400)
        keep_lines(change, row, lines, who=current_user.name, said=SAID, based_on=row.transcript_version)
    return redirect(url_for("turns.page", ref=ref, named="yes"), 303)


def _called(number: int) -> Called:
    """Who a voice is, as the form says it; a person who is known goes before a label."""
    who = request.form.get(f"who-{number}", "")[:64]
    label = " ".join(request.form.get(f"label-{number}", "").split())[:LONGEST_LABEL]
    return Called(who) if who else Called("", label)
