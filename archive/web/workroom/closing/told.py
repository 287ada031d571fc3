"""What is said of closures in words: their guard, and what was done to them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _

from archive.audio.guarding import AFTER_MS, BEFORE_MS
from archive.interviews.closing_history import stood
from archive.rights.decisions import spoken_date
from archive.store.model import Change
from archive.values.timecode import Span
from archive.web.workroom.closing.asked import written


@dataclass(frozen=True)
class DeedLine:
    """One deed on a closure: its key, when, by whom, in words, and whether it can be undone as things are."""

    key: int
    at: dt.datetime
    who: str
    words: str
    can_undo: bool


def guard_words(closed: Span, masked: Span, duration_ms: int) -> tuple[str, str]:
    """How far the mask reaches beyond what is closed, before it and after it."""
    before, after = closed.start_ms - masked.start_ms, masked.end_ms - closed.end_ms
    return (_before(before, masked.start_ms), _after(after, masked.end_ms, duration_ms))


def _before(guard: int, start_ms: int) -> str:
    if start_ms == 0:
        return str(_("from the beginning of the recording"))
    if guard > BEFORE_MS:
        return str(_("%(ms)s ms before it, where a pause ends", ms=guard))
    return str(_("%(ms)s ms before it", ms=guard))


def _after(guard: int, end_ms: int, duration_ms: int) -> str:
    if end_ms >= duration_ms:
        return str(_("to the end of the recording"))
    if guard > AFTER_MS:
        return str(_("%(ms)s ms after it, where a pause begins", ms=guard))
    return str(_("%(ms)s ms after it", ms=guard))


def deed_line(change: Change, *, can_undo: bool) -> DeedLine:
    """A change of the history as a line."""
    return DeedLine(change.id, change.at, change.who, _words(change), can_undo)


def _words(change: Change) -> str:
    before, after = change.before, change.after
    if before is None:
        return str(_("Closed: %(what)s", what=_whole(after or {})))
    if after is None:
        return str(_("Opened again: %(what)s", what=_whole(before)))
    told = [
        f"{said}: {_value(name, before.get(name))} → {_value(name, after.get(name))}"
        for name, said in _names().items()
        if name in after
    ]
    return str(_("Changed: %(what)s", what="; ".join(told)))


def _names() -> dict[str, str]:
    return {"start_ms": _("from"), "end_ms": _("to"), "reason": _("reason"), "review_on": _("review")}


def _whole(values: Mapping[str, Any]) -> str:
    closure = stood(None, values)
    review = spoken_date(closure.review_on) if closure.review_on else _("no day")
    times = f"{written(closure.span.start_ms)} – {written(closure.span.end_ms)}"
    return str(_("%(times)s. %(reason)s Review: %(day)s.", times=times, reason=_sentence(closure.reason), day=review))


def _sentence(text: str) -> str:
    return text if not text or text.endswith((".", "!", "?")) else f"{text}."


def _value(name: str, value: Any) -> str:
    if value is None or value == "":
        return str(_("none"))
    if name == "review_on":
        return spoken_date(dt.date.fromisoformat(value))
    return written(value) if name in ("start_ms", "end_ms") else f"“{value}”"
