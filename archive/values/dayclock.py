"""A time of the day, as minutes since midnight, read and told."""

from __future__ import annotations

import re

DAY_MINUTES = 24 * 60
_WRITTEN = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")


def read_minute(text: str) -> int | None:
    """The minute of 9:05, 09:05 or 14:30; None for what is no time of the day."""
    match = _WRITTEN.fullmatch(text)
    return int(match[1]) * 60 + int(match[2]) if match else None


def minute_told(minute: float) -> str:
    """The minute as people read it: 9:05. After midnight the next day begins."""
    whole = int(minute) % DAY_MINUTES
    return f"{whole // 60}:{whole % 60:02d}"
