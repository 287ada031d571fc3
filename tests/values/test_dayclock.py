"""The clocks of the house: times of the day, and moments in the zone that its machine is set to."""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Iterator

import pytest

from archive.values.dayclock import at_house, house_time, minute_told, read_minute


@pytest.fixture
def far_east(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A machine in a zone that is five and a half hours ahead."""
    monkeypatch.setenv("TZ", "XXX-5:30")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize("text", ["24:00", "9", "9:5", "-1:00", "9:60", "", "nine"])
def test_what_is_no_time_of_the_day(text: str) -> None:
    """Neither an hour nor a minute too many."""
    assert read_minute(text) is None


def test_a_minute_of_the_day_is_read_and_told() -> None:
    """After midnight the next day begins."""
    assert [read_minute(text) for text in ("9:05", "09:05", "23:59")] == [545, 545, 1439]
    assert [minute_told(minute) for minute in (545, 1439.9, 1441)] == ["9:05", "23:59", "0:01"]


@pytest.mark.usefixtures("far_east")
def test_a_moment_is_shown_on_the_clocks_of_the_house_and_read_back() -> None:
    """Late in the evening in UTC it is the next day in the house."""
    shown = house_time(dt.datetime(2026, 11, 24, 20, 15))
    assert (shown.date(), f"{shown:%H:%M}") == (dt.date(2026, 11, 25), "01:45")
    back = at_house(shown.date(), shown.time())
    assert back.astimezone(dt.UTC).replace(tzinfo=None) == dt.datetime(2026, 11, 24, 20, 15)
