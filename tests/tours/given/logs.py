"""Logs for tests, as a device hands them in."""

from __future__ import annotations

import datetime as dt
from typing import Any

KEY = "0123456789abcdef01234567"
START = dt.datetime(2026, 11, 25, 10, 30, tzinfo=dt.UTC)
PLANNED = [
    {"station": "st-door", "walk": 0, "tellings": [{"ref": "tl-welcome", "minutes": 2.0}]},
    {
        "station": "st-press",
        "walk": 0.5,
        "tellings": [{"ref": "tl-voice", "minutes": 0.5}, {"ref": "tl-run", "minutes": 4.0}],
    },
    {"station": "st-bench", "walk": 1.5, "tellings": [{"ref": "tl-badge", "minutes": 1.5}]},
]


def entry(name: str, minute: float, kind: str, **more: Any) -> dict[str, Any]:
    """One line, so many minutes after the start."""
    at = (START + dt.timedelta(minutes=minute)).isoformat()
    outing = more.pop("outing", KEY)
    return {"key": f"{outing}.{name}.0", "at": at, "kind": kind, **more}


def log(*entries: dict[str, Any], key: str = KEY, **more: Any) -> dict[str, Any]:
    """A log of the short tour."""
    outing = {
        "key": key,
        "tour": "t-short",
        "guide": "guide",
        "given_on": "2026-11-25",
        "group_size": 7,
        "planned": PLANNED,
        **more,
    }
    return {"outing": outing, "entries": list(entries)}


def whole_walk(key: str = KEY, *, longer: float = 0.0, **more: Any) -> dict[str, Any]:
    """A log of the whole tour, with so many minutes more at the first stop than the plan's two."""
    ends = 2.0 + longer
    steps = [
        ("s", 0.0, "started", "st-door"),
        ("a0", 0.0, "arrived", "st-door"),
        ("l0", ends, "left", "st-door"),
        ("a1", ends + 0.6, "arrived", "st-press"),
        ("l1", ends + 5.1, "left", "st-press"),
        ("a2", ends + 6.6, "arrived", "st-bench"),
        ("l2", ends + 8.1, "left", "st-bench"),
        ("f", ends + 8.1, "finished", "st-bench"),
    ]
    return log(*(entry(n, at, kind, station=where, outing=key) for n, at, kind, where in steps), key=key, **more)
