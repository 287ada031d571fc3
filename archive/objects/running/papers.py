"""A paper as a keeper gives it, and what was done to papers told in words. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from archive.errors import Fault, Unacceptable
from archive.objects.model import CLEARANCE_KINDS

MOST_WORDS = 2000
_COLUMNS = ("object_id", "kind", "person_id", "dated", "runs_out", "note")


@dataclass(frozen=True)
class Paper:
    """One paper: its kind, the person it names by reference, the day it is dated, its last day, a note."""

    kind: str
    who: str
    dated: dt.date
    runs_out: dt.date
    note: str


def read_paper(form: Mapping[str, str]) -> Paper:
    """The paper in a form's words; Unacceptable with every fault, named by field."""
    faults: list[Fault] = []
    kind, who, note = (form.get(name, "").strip() for name in ("kind", "who", "note"))
    if kind not in CLEARANCE_KINDS:
        faults.append(Fault("kind", 0, "Choose what kind of paper it is", "One of: " + ", ".join(CLEARANCE_KINDS)))
    if kind == "operator" and not who:
        faults.append(Fault("who", 0, "No operator is named", "Choose the person whom the paper clears"))
    if len(note) > MOST_WORDS:
        faults.append(Fault("note", 0, "The note is too long", f"Up to {MOST_WORDS} characters"))
    dated, runs_out = _day(form, "dated", faults), _day(form, "runs_out", faults)
    if dated and runs_out and runs_out < dated:
        faults.append(Fault("runs_out", 0, "It runs out before it is dated", "Give the same day or a later one"))
    if faults or dated is None or runs_out is None:
        raise Unacceptable(faults, "The paper")
    return Paper(kind, who, dated, runs_out, note)


def _day(form: Mapping[str, str], name: str, faults: list[Fault]) -> dt.date | None:
    text = form.get(name, "").strip()
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        found = f"'{text[:20]}' is not a day" if text else "The day is missing"
        faults.append(Fault(name, 0, found, "Year, month and day, like 2027-03-31"))
        return None


def still_so(now: Mapping[str, Any] | None, after: Mapping[str, Any] | None) -> bool:
    """Whether a paper is now as a change left it, so that the change can be undone without losing a later one."""
    if now is None or after is None:
        return now is None and after is None
    return all(now.get(name) == value for name, value in after.items() if name in _COLUMNS)


def touched(before: Mapping[str, Any] | None, after: Mapping[str, Any] | None) -> bool:
    """Whether a change is one of a paper's own words, not only of its place among the others."""
    return any(name in _COLUMNS for name in (*(before or {}), *(after or {})))


def values_of(values: Mapping[str, Any]) -> dict[str, Any]:
    """What the history wrote down, as a record takes it."""
    return {name: _value(name, value) for name, value in values.items() if name in (*_COLUMNS, "position")}


def _value(name: str, value: Any) -> Any:
    return dt.date.fromisoformat(value) if name in {"dated", "runs_out"} and value else value
