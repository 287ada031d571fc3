"""Figures that were spoken as people read them: 1952, £7 10s 0d a week, 8 to 12 a minute, 2 thou."""

from __future__ import annotations

import math

from flask_babel import gettext as _
from flask_babel import lazy_gettext

from archive.interviews.said.spoken import Spoken
from archive.reckoners.money import pounds_shillings_pence

KIND_WORDS = {
    "quantity": lazy_gettext("How many"),
    "money": lazy_gettext("Money"),
    "date": lazy_gettext("Years"),
    "age": lazy_gettext("Ages"),
    "rate": lazy_gettext("How often, how fast"),
    "weight": lazy_gettext("Weights"),
    "length": lazy_gettext("Lengths"),
    "temperature": lazy_gettext("Heat"),
    "duration": lazy_gettext("How long"),
    "power": lazy_gettext("Electricity, power, noise"),
}
_UNIT_WORDS = {
    "s": lazy_gettext("seconds"), "min": lazy_gettext("minutes"), "h": lazy_gettext("hours"),
    "day": lazy_gettext("days"), "week": lazy_gettext("weeks"), "month": lazy_gettext("months"),
    "year": lazy_gettext("years"), "pt": lazy_gettext("pints"), "gal": lazy_gettext("gallons"),
    "quart": lazy_gettext("quarts"), "mile": lazy_gettext("miles"), "ton": lazy_gettext("tons"),
    "gr": lazy_gettext("grains"), "in": lazy_gettext("inches"), "ft": lazy_gettext("feet"),
    "yd": lazy_gettext("yards"),
}  # fmt: skip
_ONE_WORDS = {
    "s": lazy_gettext("second"), "min": lazy_gettext("minute"), "h": lazy_gettext("hour"), "day": lazy_gettext("day"),
    "week": lazy_gettext("week"), "month": lazy_gettext("month"), "year": lazy_gettext("year"),
    "pt": lazy_gettext("pint"), "gal": lazy_gettext("gallon"), "quart": lazy_gettext("quart"),
    "mile": lazy_gettext("mile"), "ton": lazy_gettext("ton"), "gr": lazy_gettext("grain"), "in": lazy_gettext("inch"),
    "ft": lazy_gettext("foot"), "yd": lazy_gettext("yard"),
}  # fmt: skip
_PER_WORDS = {
    "s": lazy_gettext("a second"), "min": lazy_gettext("a minute"), "h": lazy_gettext("an hour"),
    "day": lazy_gettext("a day"), "week": lazy_gettext("a week"), "month": lazy_gettext("a month"),
    "year": lazy_gettext("a year"), "shift": lazy_gettext("a shift"), "gross": lazy_gettext("a gross"),
    "dozen": lazy_gettext("a dozen"), "night": lazy_gettext("a night"), "fortnight": lazy_gettext("a fortnight"),
    "great gross": lazy_gettext("a great gross"), "hundred": lazy_gettext("a hundred"),
    "thousand": lazy_gettext("a thousand"),
}  # fmt: skip


def figure_words(figure: Spoken) -> str:
    """A figure in digits, with its unit in words."""
    low, high = figure.low, figure.high
    unit, slash, per = figure.unit.partition("/")
    words = _between(low, high, figure.kind, unit)
    if figure.kind == "age":
        return str(_("%(years)s old", years=words))
    return f"{words} {_PER_WORDS.get(per, f'/ {per}')}" if slash else words


def unit_words(unit: str) -> str:
    """A unit as it stands in a list to choose from."""
    top, slash, per = unit.partition("/")
    named = str({"d": _("pounds, shillings and pence"), "p": _("new pence"), "": _("things")}.get(top)
                or _UNIT_WORDS.get(top, top))  # fmt: skip
    return f"{named} {_PER_WORDS.get(per, f'/ {per}')}" if slash else named


def _between(low: float, high: float, kind: str, unit: str) -> str:
    if math.isinf(high):
        return str(_("from %(value)s", value=_one(low, kind, unit)))
    if math.isinf(low):
        return str(_("up to %(value)s", value=_one(high, kind, unit)))
    if low == high:
        return _one(low, kind, unit)
    first = _one(low, kind, unit) if unit == "d" else _number(low, kind)
    return str(_("%(low)s to %(high)s", low=first, high=_one(high, kind, unit)))


def _one(value: float, kind: str, unit: str) -> str:
    if unit == "d":
        return pounds_shillings_pence(value)
    if kind == "date":
        return f"{value:.0f}"
    named = str((_ONE_WORDS if value == 1 else _UNIT_WORDS).get(unit, unit))
    joined = "" if named.startswith(("°", "%", "p")) and named in {"°", "°C", "°F", "%", "p"} else " "
    return f"{_number(value, kind)}{joined}{named}".rstrip()


def _number(value: float, kind: str) -> str:
    return f"{value:.0f}" if kind == "date" else f"{round(value, 3):,.10g}"
