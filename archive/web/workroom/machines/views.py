"""Papers of machines: looked over, added, renewed, corrected, withdrawn, undone; faults marked mended."""

from __future__ import annotations

from collections.abc import Callable

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import current_user
from sqlalchemy.orm import Session

from archive.errors import Unacceptable
from archive.objects.model import MuseumObject
from archive.objects.running import edits, queries
from archive.objects.running.papers import Paper, read_paper
from archive.rights.decisions import Role
from archive.web.pages import show
from archive.web.requests import only_for, session, store_of_request, today, viewer, whole_number
from archive.web.workroom.machines import pages

machines = Blueprint("machines", __name__, url_prefix="/workroom/machines")
machines.before_request(only_for(Role.KEEPER))

_LARGEST = 10**9
MOST_NOTE = 2000


@machines.get("/")
def every() -> ResponseReturnValue:
    """All machines with the state of their papers."""
    return show("workroom/machines/every.html", pages.machines_page(session(), viewer()))


@machines.get("/<ref>")
def machine(ref: str) -> ResponseReturnValue:
    """One machine: papers, faults, history."""
    undone = request.args.get("undone") == "1"
    return show("workroom/machines/machine.html", pages.machine_page(session(), viewer(), ref, undone=undone))


@machines.get("/<ref>/papers/new")
def new_paper(ref: str) -> ResponseReturnValue:
    """The form of a new paper, which may renew an older one."""
    renews = whole_number("renews", 0, most=_LARGEST) or None
    return show("workroom/machines/paper.html", pages.paper_page(session(), viewer(), ref, renews=renews))


@machines.post("/<ref>/papers/new")
def add_paper(ref: str) -> ResponseReturnValue:
    """Keep a new paper."""

    def add(change: Session, row: MuseumObject, given: Paper) -> None:
        edits.add_paper(change, row, given)

    return _kept(ref, add, paper=None, renews=whole_number("renews", 0, most=_LARGEST) or None)


@machines.get("/<ref>/papers/<int:key>")
def paper(ref: str, key: int) -> ResponseReturnValue:
    """The form of one paper, to put it right."""
    return show("workroom/machines/paper.html", pages.paper_page(session(), viewer(), ref, paper=key))


@machines.post("/<ref>/papers/<int:key>")
def correct_paper(ref: str, key: int) -> ResponseReturnValue:
    """Put a paper right."""

    def correct(change: Session, row: MuseumObject, given: Paper) -> None:
        edits.correct_paper(change, queries.paper(change, row, key), given)

    return _kept(ref, correct, paper=key, renews=None)


@machines.post("/<ref>/papers/<int:key>/withdraw")
def withdraw_paper(ref: str, key: int) -> ResponseReturnValue:
    """Take a paper away."""
    with store_of_request().changing(current_user.name) as change:
        row = queries.machine(change, ref)
        edits.withdraw_paper(change, row, queries.paper(change, row, key))
    return redirect(url_for("machines.machine", ref=ref), 303)


@machines.post("/<ref>/changes/<int:key>/undo")
def undo(ref: str, key: int) -> ResponseReturnValue:
    """Turn one change back."""
    with store_of_request().changing(current_user.name) as change:
        edits.undo_change(change, queries.machine(change, ref), key)
    return redirect(url_for("machines.machine", ref=ref, undone=1), 303)


@machines.post("/<ref>/runs/<int:key>/mended")
def mended(ref: str, key: int) -> ResponseReturnValue:
    """Mark the fault of a run mended."""
    note = request.form.get("note", "").strip()[:MOST_NOTE]
    with store_of_request().changing(current_user.name) as change:
        edits.mend(queries.run(change, ref, key), on=today(), who=current_user.name, note=note)
    return redirect(url_for("machines.machine", ref=ref), 303)


@machines.post("/<ref>/runs/<int:key>/open-again")
def open_again(ref: str, key: int) -> ResponseReturnValue:
    """A fault is open again."""
    with store_of_request().changing(current_user.name) as change:
        edits.open_again(queries.run(change, ref, key))
    return redirect(url_for("machines.machine", ref=ref), 303)


def _kept(
    ref: str, deed: Callable[[Session, MuseumObject, Paper], None], *, paper: int | None, renews: int | None
) -> ResponseReturnValue:
    """Do the deed with the paper of the form, or show the form again with its faults."""
    try:
        with store_of_request().changing(current_user.name) as change:
            row = queries.machine(change, ref)
            deed(change, row, read_paper(request.form))
    except Unacceptable as refused:
        faults = {fault.where: f"{fault.found}. {fault.allowed}." for fault in refused.faults}
        form = {name: str(value) for name, value in request.form.items()}
        page = pages.paper_page(session(), viewer(), ref, paper=paper, renews=renews, given=form, faults=faults)
        return show("workroom/machines/paper.html", page, 400)
    return redirect(url_for("machines.machine", ref=ref), 303)
