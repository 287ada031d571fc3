"""One piece of work in the background: how far it is, and a way to stop it."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Blueprint, jsonify, redirect, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_login import current_user

from archive.errors import NotFound
from archive.jobs import edits, queries
from archive.jobs.model import Job
from archive.rights.decisions import Role
from archive.tasks import day_planning, tour_planning
from archive.web.pages import show
from archive.web.requests import only_for, role, session, store_of_request

jobs = Blueprint("jobs", __name__, url_prefix="/desk/jobs")
jobs.before_request(only_for(Role.GUIDE, Role.KEEPER))

DESK_KINDS = frozenset({tour_planning.KIND, day_planning.KIND})


@dataclass(frozen=True)
class JobPage:
    """One job, and what is to be said of it."""

    job: Job
    says: str

    @property
    def desk(self) -> bool:
        """Whether it is work of the Desk; all other is the Workroom's."""
        return self.job.kind in DESK_KINDS

    @property
    def frame(self) -> str:
        """What the page stands in."""
        return "desk/frame.html" if self.desk else "workroom/frame.html"


@jobs.get("/<key>")
def job(key: str) -> ResponseReturnValue:
    """How far it is; once done, the way leads on to what came of it."""
    row = _mine(key)
    address = address_of(row)
    return redirect(address, 303) if address else show("desk/jobs/job.html", JobPage(row, says(row)))


@jobs.get("/<key>.json")
def job_data(key: str) -> ResponseReturnValue:
    """The same for the page's script."""
    row = _mine(key)
    return jsonify(state=row.state, share=row.share, says=says(row), ended=row.ended, address=address_of(row))


@jobs.post("/<key>/stop")
def stop(key: str) -> ResponseReturnValue:
    """Ask it to stop."""
    _mine(key)
    with store_of_request().changing(current_user.name) as change:
        edits.stop(change, key)
    return redirect(url_for("jobs.job", key=key), 303)


def _mine(key: str) -> Job:
    """A job that this person asked for; a keeper sees every job."""
    row = queries.job(session(), key)
    if role() is not Role.KEEPER and row.who != current_user.name:
        raise NotFound(f"There is no work '{key[:40]}' here.")
    return row


def address_of(row: Job) -> str:
    """Where a job that is done leads on to; a page of this home, always."""
    address = row.outcome.get("address", "") if row.state == "done" and isinstance(row.outcome, dict) else ""
    return address if address.startswith("/") and not address.startswith("//") else ""


def says(row: Job) -> str:
    """Where it stands, in words."""
    if row.says:
        return row.says
    plain = {
        "waiting": _("Waiting for its turn."),
        "working": _("At work."),
        "done": _("Done."),
        "failed": _("It did not work."),
        "stopped": _("Stopped."),
    }
    return str(plain[row.state])
