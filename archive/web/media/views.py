"""Sound, pictures and captions."""

from __future__ import annotations

from flask import Blueprint

media = Blueprint("media", __name__, url_prefix="/media")
