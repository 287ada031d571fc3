"""Real times beside planned ones, from whatever a log holds."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from archive.tours.given.planned import PlannedStop, PlannedTelling
from archive.tours.given.timing import real_tour

START = dt.datetime(2026, 11, 25, 10, 30)
STOPS = (
    PlannedStop("st-a", 0.0, (PlannedTelling("tl-1", 2.0), PlannedTelling("tl-2", 1.0))),
    PlannedStop("st-b", 1.0, (PlannedTelling("tl-3", 4.0),)),
    PlannedStop("st-a", 1.0, (PlannedTelling("tl-4", 1.0),)),
)


@dataclass(frozen=True)
class Line:
    """One line of a log."""

    at: dt.datetime
    kind: str
    station: str = ""
    telling: str = ""


def line(minute: float, kind: str, station: str = "", telling: str = "") -> Line:
    """A line so many minutes after half past ten."""
    return Line(START + dt.timedelta(minutes=minute), kind, station, telling)


def test_a_log_without_a_start_tells_no_times() -> None:
    """A note alone is no tour."""
    real = real_tour(STOPS, [line(0, "note")])
    assert real.started is None
    assert all(stop.missed for stop in real.stops)


def test_a_stop_that_was_not_reached_is_told_so() -> None:
    """The tour broke off at the second stop."""
    real = real_tour(
        STOPS, [line(0, "started"), line(0, "arrived", "st-a"), line(3, "left", "st-a"), line(5, "arrived", "st-b")]
    )
    assert [stop.arrived for stop in real.stops] == [0.0, 5.0, None]
    assert [stop.minutes for stop in real.stops] == [3.0, None, None]
    assert real.minutes is None
    assert real.stops[1].walked == 2.0
    assert real.planned_minutes == 10.0


def test_a_station_visited_twice_takes_its_arrivals_in_turn() -> None:
    """The second arrival is the third stop's."""
    lines = [
        line(0, "started"),
        line(0, "arrived", "st-a"),
        line(3, "left", "st-a"),
        line(4, "arrived", "st-b"),
        line(8, "left", "st-b"),
        line(9, "arrived", "st-a"),
        line(11, "left", "st-a"),
        line(11, "finished"),
    ]
    real = real_tour(STOPS, reversed(lines))
    assert [stop.minutes for stop in real.stops] == [3.0, 4.0, 2.0]
    assert [stop.due for stop in real.stops] == [0.0, 4.0, 9.0]
    assert real.minutes == 11.0


def test_the_last_mark_counts() -> None:
    """What was skipped and told after all was told, and a stop of which something was skipped is not whole."""
    lines = [
        line(0, "started"),
        line(0, "arrived", "st-a"),
        line(1, "dropped", "st-a", "tl-1"),
        line(2, "told", "st-a", "tl-1"),
        line(2, "dropped", "st-a", "tl-2"),
        line(3, "left", "st-a"),
    ]
    first = real_tour(STOPS, lines).stops[0]
    assert (first.told, first.dropped) == (("tl-1",), ("tl-2",))
    assert not first.whole
