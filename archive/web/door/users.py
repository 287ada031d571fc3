"""Who is signed in, as the session cookie knows them."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Flask, redirect, request, url_for
from flask.typing import ResponseReturnValue
from flask_login import LoginManager, UserMixin

from archive.accounts.model import Account
from archive.accounts.queries import account
from archive.web.requests import session


@dataclass(frozen=True)
class SignedIn(UserMixin):  # type: ignore[misc]
    """The signed-in person: name and role, read anew from the database on every request."""

    key: int
    name: str
    role: str

    @classmethod
    def of(cls, record: Account) -> SignedIn:
        """From the account's record."""
        return cls(record.id, record.name, record.role)

    def get_id(self) -> str:
        """What the cookie holds."""
        return str(self.key)


def install(app: Flask) -> None:
    """Make an app know who is signed in, and send strangers to the sign-in page."""
    manager = LoginManager(app)
    manager.session_protection = "basic"
    manager.user_loader(_load)
    manager.unauthorized_handler(_to_sign_in)


def _load(key: str) -> SignedIn | None:
    record = account(session(), int(key)) if key.isdigit() else None
    return SignedIn.of(record) if record else None


def _to_sign_in() -> ResponseReturnValue:
    wanted = request.full_path.rstrip("?") if request.method == "GET" else None
    return redirect(url_for("door.sign_in", next=wanted), 303)
