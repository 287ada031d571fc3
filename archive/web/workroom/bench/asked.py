"""What the bench's script sends, read with care: every fault is told, nothing is guessed."""

from __future__ import annotations

import datetime as dt
from typing import Any

from flask import request

from archive.errors import Fault, Unacceptable
from archive.interviews.transcripts.lines import Line
from archive.values.timecode import Span

MOST_LINES = 20_000
# Two whole transcripts at most: mine, and what it was made from.
LARGEST = 24 << 20


def body() -> dict[str, Any]:
    """The JSON object that was sent."""
    given = request.get_json(silent=True)
    if not isinstance(given, dict):
        raise _fault("body", "it is no JSON object", "Load the page again")
    return given


def lines(given: dict[str, Any], name: str = "lines") -> list[Line]:
    """Lines, each [start, end, speaker, label, text, confidence, doubtful, key]."""
    rows = given.get(name)
    if not isinstance(rows, list) or len(rows) > MOST_LINES:
        raise _fault(name, "they are no list of lines, or too many", f"Up to {MOST_LINES} lines")
    return [_line(row, name, number) for number, row in enumerate(rows, start=1)]


def number(given: dict[str, Any], name: str) -> int:
    """A whole number that is not negative."""
    value = given.get(name)
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < 1 << 53:
        raise _fault(name, "it is no whole number", "Load the page again")
    return value


def words(given: dict[str, Any], name: str) -> str:
    """A text."""
    value = given.get(name, "")
    if not isinstance(value, str) or len(value) > 20_000:
        raise _fault(name, "it is no text, or too long", "Load the page again")
    return value


def texts(given: dict[str, Any]) -> list[str]:
    """The texts of lines in order."""
    value = given.get("texts")
    if not isinstance(value, list) or len(value) > MOST_LINES or not all(isinstance(each, str) for each in value):
        raise _fault("texts", "they are no list of texts", "Load the page again")
    return value


def span(given: dict[str, Any]) -> Span:
    """A stretch of the recording."""
    start, end = number(given, "start"), number(given, "end")
    if start >= end:
        raise _fault("start", "it ends before it starts", "Give a start before the end")
    return Span(start, end)


def day(given: dict[str, Any], name: str) -> dt.date | None:
    """A day, or None where none is given."""
    text = words(given, name)
    try:
        return dt.date.fromisoformat(text) if text else None
    except ValueError:
        raise _fault(name, f"'{text[:20]}' is no day", "Write a day as 2031-05-03") from None


def pairs(given: dict[str, Any], name: str) -> list[tuple[str, str]]:
    """Kinds and references."""
    value = given.get(name, [])
    if not isinstance(value, list) or not all(isinstance(each, list) and len(each) == 2 for each in value):
        raise _fault(name, "they are no pairs", "Load the page again")
    return [(str(kind), str(ref)) for kind, ref in value]


def _line(row: Any, name: str, at: int) -> Line:
    match row:
        case [int(), int(), str(), str(), str(), int() | float() | None, bool(), int() | None]:
            return Line(*row)
    raise Unacceptable([Fault(name, at, "it is no line", "Load the page again")], "What was sent")


def _fault(where: str, found: str, allowed: str) -> Unacceptable:
    return Unacceptable([Fault(where, 0, found, allowed)], "What was sent")
