"""Uncertain dates as people read them: 14 October 1998, about 1952, the 1950s, 1948 to 1971."""

from __future__ import annotations

import re

_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_SEASONS = {"21": "spring", "22": "summer", "23": "autumn", "24": "winter"}
_ONE = re.compile(r"(-?\d{1,4}X{0,4})(?:-(\d\d|XX))?(?:-(\d\d|XX))?([~?%]?)")


def date_in_words(edtf: str) -> str:
    """The words of an EDTF text of level 0 or 1; a form that is not known here is given back as it is."""
    start, slash, end = edtf.partition("/")
    if not slash:
        return _one(edtf)
    if start in {"", ".."}:
        return f"until {_one(end)}"
    if end in {"", ".."}:
        return f"from {_one(start)}"
    return f"{_one(start)} to {_one(end)}"


def _one(text: str) -> str:
    match = _ONE.fullmatch(text)
    if match is None:
        return text
    year, month, day, doubt = match.groups()
    words = " ".join(part for part in (_day(day), _month(month), _year(year)) if part)
    return {"~": f"about {words}", "?": f"perhaps {words}", "%": f"perhaps about {words}"}.get(doubt, words)


def _year(year: str) -> str:
    if not year.endswith("X"):
        return year
    return f"the {year.replace('X', '0')}s"


def _month(month: str | None) -> str:
    if month is None or month == "XX":
        return ""
    if month in _SEASONS:
        return _SEASONS[month]
    return _MONTHS[int(month) - 1] if 1 <= int(month) <= 12 else month


def _day(day: str | None) -> str:
    return "" if day is None or day == "XX" else str(int(day))
