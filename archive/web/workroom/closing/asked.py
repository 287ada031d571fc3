"""What a keeper writes into the form of a closure, read with every fault beside its field."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from archive.errors import Fault, Unacceptable
from archive.values.timecode import Span, parse_timecode

MOST_REASON = 2_000
_AS = "Write it as 0:01:02.500"


@dataclass(frozen=True)
class Asked:
    """A closure as it is asked for."""

    span: Span
    reason: str
    review_on: dt.date


def written(ms: int) -> str:
    """A time as the form writes it: `0:01:02.500`, always with hours and thousandths."""
    seconds, part = divmod(ms, 1000)
    return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.{part:03d}"


def read_closure(form: Mapping[str, str], duration_ms: int, on: dt.date) -> Asked:
    """The closure in a form's words; Unacceptable with all faults, named by field."""
    faults: list[Fault] = []
    span = _span(form, duration_ms, faults)
    reason = form.get("reason", "").strip()
    if not reason:
        faults.append(Fault("reason", 0, "The reason is missing", "Say in a sentence why it is closed"))
    if len(reason) > MOST_REASON:
        faults.append(Fault("reason", 0, "The reason is too long", f"Up to {MOST_REASON} characters"))
    review_on = _review(form, on, faults)
    if faults or span is None or review_on is None:
        raise Unacceptable(faults, "The closure")
    return Asked(span, reason, review_on)


def read_stretch(form: Mapping[str, str], duration_ms: int) -> Span:
    """The times alone, for looking at what they would do."""
    faults: list[Fault] = []
    span = _span(form, duration_ms, faults)
    if span is None:
        raise Unacceptable(faults, "The closure")
    return span


def _span(form: Mapping[str, str], duration_ms: int, faults: list[Fault]) -> Span | None:
    start, end = _time(form, "start", faults), _time(form, "end", faults)
    told = written(duration_ms)
    if start is not None and start >= duration_ms:
        faults.append(Fault("start", 0, "It starts after the recording ends", f"Give a time before {told}"))
    if end is not None and end > duration_ms:
        faults.append(Fault("end", 0, "It ends after the recording does", f"Give a time up to {told}"))
    if start is not None and end is not None and end <= start:
        faults.append(Fault("end", 0, "It ends before it starts", f"Give a time after {written(start)}"))
    wrong = start is None or end is None or any(fault.where in ("start", "end") for fault in faults)
    return None if wrong else Span(start or 0, end or 0)


def _time(form: Mapping[str, str], name: str, faults: list[Fault]) -> int | None:
    text = form.get(name, "").strip()
    try:
        return parse_timecode(text)
    except ValueError:
        found = f"'{text[:20]}' is not a time" if text else "The time is missing"
        faults.append(Fault(name, 0, found, _AS))
        return None


def _review(form: Mapping[str, str], on: dt.date, faults: list[Fault]) -> dt.date | None:
    text = form.get("review", "").strip()
    try:
        day = dt.date.fromisoformat(text)
    except ValueError:
        found = f"'{text[:20]}' is not a day" if text else "The day of the review is missing"
        faults.append(Fault("review", 0, found, "Year, month and day, like 2031-05-03"))
        return None
    if day <= on:
        faults.append(Fault("review", 0, "The day of the review is not to come", "Give a day after today"))
    return day
