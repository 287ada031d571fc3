"""The Workroom: what is in the home, for keepers."""

from __future__ import annotations

from flask import Blueprint

workroom = Blueprint("workroom", __name__, url_prefix="/workroom")


@workroom.get("/")
def home() -> str:
    """To be written."""
    return "workroom"
