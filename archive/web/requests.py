"""What a request carries: its store and session, its day, and the viewer who asks."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable
from typing import Any, cast

from flask import Flask, current_app, g, request
from flask_login import current_user
from sqlalchemy.orm import Session

from archive.errors import Fault, NotAllowed, Unacceptable
from archive.rights.decisions import AGREED, MAY_ASK, OWN_PURPOSE, Purpose, Role, Viewer
from archive.store.session import Store

_STORE = "lemel.store"
# What JSON writes for half a sign: a text that was cut in the middle of one. No database keeps it.
_HALF_SIGN = re.compile(rb"\\u[dD][89a-fA-F]")


def attach_store(app: Flask, store: Store) -> None:
    """Give an app its store, and close each request's session when the request is done."""
    app.extensions[_STORE] = store
    app.teardown_appcontext(_close_session)


def store_of_request() -> Store:
    """The home's store."""
    return cast(Store, current_app.extensions[_STORE])


def session() -> Session:
    """The request's session to read with; made once, closed at its end."""
    if "session_context" not in g:
        g.session_context = store_of_request().session()
        g.session = g.session_context.__enter__()
    return cast(Session, g.session)


def _close_session(_error: BaseException | None) -> None:
    context = g.pop("session_context", None)
    g.pop("session", None)
    if context is not None:
        context.__exit__(None, None, None)


def today() -> dt.date:
    """The day on which agreements and clearances are judged; tests may set another."""
    clock = cast(Callable[[], dt.date], current_app.config["TODAY"])
    return clock()


def role() -> Role:
    """The role of whoever is signed in; a visitor when nobody is."""
    return Role(current_user.role) if current_user.is_authenticated else Role.VISITOR


def viewer(purpose: Purpose | None = None) -> Viewer:
    """The viewer of this request for a purpose, or for the role's own; NotAllowed when the role may not ask it."""
    who = role()
    chosen = purpose or OWN_PURPOSE[who]
    asking = Viewer(who, chosen, today())
    if not asking.may_ask:
        allowed = ", ".join(sorted(MAY_ASK[who] & set(AGREED)))
        raise NotAllowed(f"As {_article(who)} you may not ask for the purpose {chosen}. You may ask for: {allowed}.")
    return asking


def keeper_in_care() -> Viewer:
    """The keeper at work on the collection itself, who may have what is closed; NotAllowed for everybody else."""
    asking = Viewer(role(), Purpose.CARE, today())
    if not asking.in_care:
        raise NotAllowed(f"This is for a keeper. You are signed in as {_article(role())}.")
    return asking


def purpose_asked(parameter: str = "purpose") -> Purpose | None:
    """The purpose named in the address, if any; Unacceptable when it is not one."""
    text = request.args.get(parameter, "")
    if not text:
        return None
    if text not in AGREED:
        allowed = "Allowed are: " + ", ".join(AGREED)
        raise Unacceptable([Fault(parameter, 0, f"'{text[:30]}' is not a purpose", allowed)], "The address")
    return Purpose(text)


def whole_number(parameter: str, default: int, *, least: int = 0, most: int = 100_000) -> int:
    """A whole number from the address, kept within its bounds; Unacceptable when it is not a number."""
    text = request.args.get(parameter, "")
    if not text:
        return default
    if not text.isascii() or not text.isdigit() or len(text) > 9:
        fault = Fault(parameter, 0, f"'{text[:30]}' is not a whole number", f"Give a number from {least} to {most}")
        raise Unacceptable([fault], "The address")
    return min(max(int(text), least), most)


def _article(who: Role) -> str:
    return f"a {who.value}"


def read_json(content: bytes) -> Any:
    """What was sent as JSON; None where it cannot be read. For half a sign stands a question mark."""
    try:
        data = json.loads(content.decode("utf-8-sig"))
        if _HALF_SIGN.search(content):
            data = json.loads(json.dumps(data, ensure_ascii=False).encode("utf-8", "replace"))
    except (ValueError, RecursionError):
        return None
    return data


def only_for(*allowed: Role) -> Callable[[], Any]:
    """A before-request guard: sends strangers to sign in, and refuses those of another role."""

    def guard() -> Any:
        if role() in allowed:
            return None
        if current_user.is_authenticated:
            wanted = " or ".join(who.value for who in allowed)
            raise NotAllowed(f"This page is for a {wanted}. You are signed in as {_article(role())}.")
        return current_app.login_manager.unauthorized()  # type: ignore[attr-defined]

    return guard
