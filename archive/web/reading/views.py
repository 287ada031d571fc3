"""The Reading room: search and interviews, for readers."""

from __future__ import annotations

from flask import Blueprint

reading = Blueprint("reading", __name__, url_prefix="/reading")


@reading.get("/")
def room() -> str:
    """To be written."""
    return "reading"
