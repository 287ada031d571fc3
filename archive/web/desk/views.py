"""The Desk: tours and their sheets, for guides."""

from __future__ import annotations

from flask import Blueprint

desk = Blueprint("desk", __name__, url_prefix="/desk")


@desk.get("/")
def tours() -> str:
    """To be written."""
    return "desk"
