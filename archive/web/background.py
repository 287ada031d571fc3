"""Having work done in the background for whoever asks for it."""

from __future__ import annotations

from typing import Any

from flask import redirect, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user

from archive.jobs.edits import ask
from archive.tasks.queue import hand_over
from archive.web.requests import store_of_request


def have_done(kind: str, inputs: dict[str, Any]) -> ResponseReturnValue:
    """Ask for a job in a commit of its own, hand it over, and lead on to its page."""
    store = store_of_request()
    with store.changing(current_user.name) as change:
        key = ask(change, kind, inputs, current_user.name).key
    hand_over(store, key)
    return redirect(url_for("jobs.job", key=key), 303)
