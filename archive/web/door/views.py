"""The front page and signing in and out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from flask import Blueprint, Response, jsonify, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext as _
from flask_login import login_user, logout_user
from flask_wtf import FlaskForm
from wtforms import PasswordField, StringField
from wtforms.validators import InputRequired, Length

from archive import __version__
from archive.accounts.edits import note_failed_try
from archive.accounts.model import Account
from archive.accounts.passwords import matches
from archive.accounts.queries import account_named, tries_since
from archive.store.base import utc_now
from archive.store.model import Collection
from archive.store.queries import collection, has_collection
from archive.web.door.users import SignedIn
from archive.web.pages import show
from archive.web.requests import session, store_of_request

TRIES = 8
WINDOW = dt.timedelta(minutes=10)
HOME_OF_ROLE = {"guide": "desk.tours", "reader": "reading.room", "keeper": "workroom.home"}

door = Blueprint("door", __name__)


@dataclass(frozen=True)
class FrontPage:
    """The card of the collection."""

    collection: Collection


@dataclass(frozen=True)
class SignInPage:
    """The form, and what was wrong with the last try."""

    form: FlaskForm
    problem: str


class SignInForm(FlaskForm):  # type: ignore[misc]
    """Name and password."""

    name = StringField(_("Name"), [InputRequired(_("Give your name.")), Length(max=80)])
    password = PasswordField(_("Password"), [InputRequired(_("Give your password.")), Length(max=1000)])


@door.get("/")
def front() -> ResponseReturnValue:
    """The first page: where to go."""
    return show("door/front.html", FrontPage(collection(session())))


@door.get("/healthz")
def health() -> Response:
    """Whether the app answers and has a collection."""
    return jsonify({"ok": True, "version": __version__, "collection": has_collection(session())})


@door.get("/sign-in")
def sign_in() -> ResponseReturnValue:
    """The empty form."""
    return show("door/sign_in.html", SignInPage(SignInForm(), ""))


@door.post("/sign-in")
def try_sign_in() -> ResponseReturnValue:
    """Sign in, or say in one sentence why not; never which of name and password was wrong."""
    form = SignInForm()
    if not form.validate_on_submit():
        return show("door/sign_in.html", SignInPage(form, _("Fill in both fields.")), 400)
    name, address = form.name.data or "", request.remote_addr or ""
    if tries_since(session(), utc_now() - WINDOW, name, address) >= TRIES:
        return show("door/sign_in.html", SignInPage(form, _("Too many tries. Wait ten minutes, then try again.")), 429)
    account = account_named(session(), name)
    if account is None or not matches(form.password.data or "", account.password_hash):
        return _refuse(form, account, name, address)
    login_user(SignedIn.of(account))
    return redirect(_safe_next() or url_for(HOME_OF_ROLE[account.role]), 303)


@door.post("/sign-out")
def sign_out() -> ResponseReturnValue:
    """Sign out and go to the first page."""
    logout_user()
    return redirect(url_for("door.front"), 303)


def _refuse(form: SignInForm, account: Account | None, name: str, address: str) -> ResponseReturnValue:
    if account is None:
        matches("", None)  # takes as long as a real check, so that the time does not tell which names exist
    with store_of_request().changing("door") as changing:
        note_failed_try(changing, name, address)
    return show("door/sign_in.html", SignInPage(form, _("Name and password do not go together.")), 401)


def _safe_next() -> str:
    """Where the person was going, if it is a place on this site."""
    wanted = request.args.get("next", "")
    inside = wanted.startswith("/") and not wanted.startswith(("//", "/\\")) and "\\" not in wanted
    return wanted if inside and wanted.isprintable() else ""
