"""A run as a device hands it in: every fault told, the day taken from the device's own zone."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from archive.errors import Unacceptable
from archive.objects.running.handed import read_run

LATEST = dt.datetime(2026, 11, 25, 23, 0, tzinfo=dt.UTC)
GOOD: dict[str, Any] = {
    "key": "a" * 32,
    "machine": "SM.1",
    "demonstration": "dm-press",
    "operator": "P-5",
    "started_at": "2026-11-25T00:30:00+02:00",
    "minutes": 4.26,
    "confirmed": ["Guards."],
    "faults": " A loose stop. ",
}


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("key", "short"),
        ("key", "<script>alert(1)</script>"),
        ("machine", ""),
        ("demonstration", 7),
        ("operator", None),
        ("started_at", "2026-11-25T10:00:00"),
        ("started_at", "yesterday"),
        ("started_at", "2026-11-26T10:00:00+00:00"),
        ("minutes", -1),
        ("minutes", float("nan")),
        ("minutes", True),
        ("minutes", "4"),
        ("confirmed", "all"),
        ("confirmed", [1]),
        ("confirmed", ["x"] * 1000),
        ("faults", "x" * 5000),
        ("faults", 3),
        ("outing", "../x"),
    ],
)
def test_what_cannot_be_is_refused_by_name(name: str, value: Any) -> None:
    """The field that is wrong is named, and it alone."""
    with pytest.raises(Unacceptable) as refused:
        read_run({**GOOD, name: value}, latest=LATEST)
    assert {fault.where for fault in refused.value.faults} == {name}


@pytest.mark.parametrize("data", [None, [], "run", {}])
def test_what_is_no_run_is_refused(data: object) -> None:
    """Nothing breaks on it."""
    with pytest.raises(Unacceptable):
        read_run(data, latest=LATEST)


def test_a_run_is_kept_in_utc_and_judged_by_the_day_in_the_house() -> None:
    """Half past midnight there is still the day before in UTC."""
    run = read_run(GOOD, latest=LATEST)
    assert run.started_at == dt.datetime(2026, 11, 24, 22, 30)
    assert run.day == dt.date(2026, 11, 25)
    assert (run.minutes, run.faults, run.by_hand) == (4.3, "A loose stop.", False)


def test_a_run_that_goes_on_has_no_minutes_yet() -> None:
    """None is taken as it is."""
    assert read_run({**GOOD, "minutes": None}, latest=LATEST).minutes is None
