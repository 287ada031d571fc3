"""The Flask app of one home."""

from __future__ import annotations

import datetime as dt
import os
import secrets
import tempfile
from contextlib import suppress
from pathlib import Path

from flask import Flask
from flask_babel import Babel
from flask_wtf import CSRFProtect

from archive.settings import Settings, shared_folder
from archive.store.session import Store
from archive.web import faults, guards, requests, searching
from archive.web.door import users
from archive.web.pages import template_globals, template_words
from archive.web.site import blueprints


def create_app(store: Store) -> Flask:
    """The app that serves one home. The store stays the caller's to close."""
    app = Flask(
        "lemel",
        static_folder=str(shared_folder("static")),
        template_folder=str(shared_folder("templates")),
    )
    app.config.update(
        SECRET_KEY=secret_key(store.settings),
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_NAME="lemel",
        PERMANENT_SESSION_LIFETIME=dt.timedelta(hours=12),
        MAX_CONTENT_LENGTH=1 << 20,
        MAX_FORM_PARTS=200,
        BABEL_DEFAULT_LOCALE="en_GB",
        TODAY=dt.date.today,
        TESTING=store.settings.testing,
    )
    app.jinja_env.filters.update(template_words())
    app.jinja_env.globals.update(template_globals())
    requests.attach_store(app, store)
    searching.attach_index(app, store)
    Babel(app)
    CSRFProtect(app)
    users.install(app)
    faults.install(app)
    guards.install(app)
    for blueprint in blueprints():
        app.register_blueprint(blueprint)
    return app


def secret_key(settings: Settings) -> bytes:
    """The home's key for signing cookies, made at first need and readable by its owner alone."""
    settings.home.mkdir(parents=True, exist_ok=True, mode=0o700)
    if not settings.secret_file.exists():
        _write_secret(settings.secret_file)
    return settings.secret_file.read_bytes()


def _write_secret(place: Path) -> None:
    """Written aside and linked in: of two processes that start at once, the second finds the whole key of the first."""
    handle, name = tempfile.mkstemp(prefix=".new-", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(secrets.token_bytes(32))
        with suppress(FileExistsError):
            os.link(name, place)
    finally:
        Path(name).unlink()
