"""The kiosk: the plan and everything on it, for visitors."""

from __future__ import annotations

from flask import Blueprint

kiosk = Blueprint("kiosk", __name__, url_prefix="/kiosk")


@kiosk.get("/")
def plan() -> str:
    """To be written."""
    return "kiosk"
