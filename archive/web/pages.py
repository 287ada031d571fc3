"""Rendering: every template gets one named page, a frozen dataclass, and nothing loose."""

from __future__ import annotations

import datetime as dt
from typing import Any

from flask import render_template
from flask_babel import get_locale
from markupsafe import Markup

from archive.rights.decisions import spoken_date
from archive.values.dayclock import house_time, minute_told
from archive.values.timecode import format_clock, format_timecode
from archive.web import requests
from archive.web.prose import prose


def show(template: str, page: Any, status: int = 200) -> tuple[str, int]:
    """The rendered page with its status."""
    return render_template(template, page=page), status


def minutes_read(minutes: float) -> str:
    """Minutes as people read them: 4½ min, 12 min, ¼ min."""
    quarters = round(minutes * 4)
    whole, part = divmod(quarters, 4)
    fraction = ("", "¼", "½", "¾")[part]
    return f"{whole or ('' if fraction else 0)}{fraction} min"


def moment_read(moment: dt.datetime) -> str:
    """A moment as people read it, on the clocks of the house: 3 May 2031, 14:05."""
    here = house_time(moment)
    return f"{spoken_date(here)}, {here:%H:%M}"


def template_words() -> dict[str, Any]:
    """The filters that templates share."""
    return {
        "clock": format_clock,
        "exact": format_timecode,
        "minutes": minutes_read,
        "minute_of_day": minute_told,
        "day": spoken_date,
        "moment": moment_read,
        "prose": lambda text: Markup(prose(text)),
    }


def template_globals() -> dict[str, Any]:
    """The names that every template may ask for."""
    return {"role": requests.role, "language": lambda: str(get_locale()).replace("_", "-")}
