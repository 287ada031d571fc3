"""A time of the day, as minutes since midnight, read and told; and moments on the clocks of the house."""

from __future__ import annotations

import datetime as dt
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


def house_time(moment: dt.datetime) -> dt.datetime:
    """A moment, kept in UTC, as the clocks of the house show it: in the zone that its machine is set to."""
    return moment.replace(tzinfo=dt.UTC).astimezone()


def at_house(day: dt.date, time: dt.time) -> dt.datetime:
    """The moment at which the clocks of the house show a time on a day."""
    return dt.datetime.combine(day, time.replace(tzinfo=None)).astimezone()
