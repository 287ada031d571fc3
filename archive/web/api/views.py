"""The same answers for machines, as JSON."""

from __future__ import annotations

from flask import Blueprint

api = Blueprint("api", __name__, url_prefix="/api/v1")
