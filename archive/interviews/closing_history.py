"""What was done to closures, as the history wrote it down: whether it can be turned back, and to what. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from archive.rights.model import Closure
from archive.store.model import Change
from archive.values.timecode import Span

# A closure's own words. Its guard follows from them and from the sound, so it is worked out and not turned back.
_OWN = ("start_ms", "end_ms", "reason", "review_on")


@dataclass(frozen=True)
class Stand:
    """A closure as it stood: from when to when, why, and when it is looked at again."""

    span: Span
    reason: str
    review_on: dt.date | None


def number_of(change: Change) -> int:
    """The key of the closure that a change was of."""
    return int(change.record.partition(":")[2])


def is_deed(change: Change) -> bool:
    """Whether somebody did it: a guard that moved because the sound was measured is nobody's deed."""
    return any(name in _OWN for name in (*(change.before or {}), *(change.after or {})))


def still_so(closure: Closure | None, change: Change) -> bool:
    """Whether a closure is as a change left it, so that turning the change back loses no later one."""
    if closure is None or change.after is None:
        return closure is None and change.after is None
    now = _told(closure)
    return all(now[name] == value for name, value in change.after.items() if name in _OWN)


def stood(closure: Closure | None, values: Mapping[str, Any]) -> Stand:
    """How a closure stood by what the history says; what it does not say is as it is now."""
    said = {**(_told(closure) if closure else {}), **values}
    review = said.get("review_on")
    return Stand(
        span=Span(said["start_ms"], said["end_ms"]),
        reason=said.get("reason", ""),
        review_on=dt.date.fromisoformat(review) if review else None,
    )


def _told(closure: Closure) -> dict[str, Any]:
    """What a closure says now, as the history writes it."""
    review = closure.review_on
    return {
        "start_ms": closure.start_ms,
        "end_ms": closure.end_ms,
        "reason": closure.reason,
        "review_on": review.isoformat() if review else None,
    }
