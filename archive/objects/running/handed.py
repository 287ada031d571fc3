"""A run as a device or a form hands it in, read with all its faults told together. Pure."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass

from archive.errors import Fault, Unacceptable
from archive.values.identifiers import REF

_KEY = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{7,63}")
MOST_MINUTES = 24 * 60.0
MOST_WORDS, MOST_CHECKS = 4000, 60
BY_HAND = "hand-"


@dataclass(frozen=True)
class HandedRun:
    """A run: `minutes` is None while the machine still runs; `day` is the day by the device's own clock."""

    key: str
    machine: str
    demonstration: str
    operator: str
    started_at: dt.datetime
    day: dt.date
    minutes: float | None
    confirmed: tuple[str, ...]
    faults: str = ""
    outing: str = ""

    @property
    def by_hand(self) -> bool:
        """Whether it was written down afterwards, without the checks of the page."""
        return self.key.startswith(BY_HAND)


def read_run(data: object, *, latest: dt.datetime) -> HandedRun:
    """The run in a device's words; Unacceptable with every fault. `latest` is the last moment that can be, in UTC."""
    if not isinstance(data, Mapping):
        raise Unacceptable([Fault("run", 0, "This is no run", "A run is an object with a key")], "The run")
    reader = _Reader(data)
    started = reader.moment("started_at", latest)
    run = HandedRun(
        key=reader.word("key", _KEY, "8 to 64 letters, digits and hyphens"),
        machine=reader.word("machine", REF, "An accession number"),
        demonstration=reader.word("demonstration", REF, "The reference of a demonstration"),
        operator=reader.word("operator", REF, "The reference of a person"),
        started_at=started.astimezone(dt.UTC).replace(tzinfo=None, microsecond=0),
        day=started.date(),
        minutes=reader.minutes("minutes"),
        confirmed=reader.texts("confirmed"),
        faults=reader.text("faults"),
        outing=reader.word("outing", REF, "The key of an outing", required=False),
    )
    if reader.faults:
        raise Unacceptable(reader.faults, "The run")
    return run


class _Reader:
    """Reads one thing after another and gathers what is wrong."""

    def __init__(self, data: Mapping[str, object]) -> None:
        self.data = data
        self.faults: list[Fault] = []

    def word(self, name: str, form: re.Pattern[str], allowed: str, *, required: bool = True) -> str:
        text = self.data.get(name, "")
        if text == "" and not required:
            return ""
        if not isinstance(text, str) or not form.fullmatch(text):
            return self._fault(name, f"'{str(text)[:40]}' cannot be taken", allowed)
        return text

    def text(self, name: str) -> str:
        text = self.data.get(name, "")
        if not isinstance(text, str) or len(text) > MOST_WORDS:
            return self._fault(name, "It is no text, or too long", f"Up to {MOST_WORDS} characters")
        return text.strip()

    def texts(self, name: str) -> tuple[str, ...]:
        rows = self.data.get(name, [])
        good = isinstance(rows, list) and len(rows) <= MOST_CHECKS
        if not good or any(not isinstance(row, str) or len(row) > MOST_WORDS for row in rows):  # type: ignore[attr-defined]
            self._fault(name, "It is no list of checks", f"Up to {MOST_CHECKS} texts")
            return ()
        return tuple(rows)  # type: ignore[arg-type]

    def minutes(self, name: str) -> float | None:
        number = self.data.get(name)
        if number is None:
            return None
        if isinstance(number, bool) or not isinstance(number, int | float) or not 0 <= number <= MOST_MINUTES:
            self._fault(name, f"'{str(number)[:20]}' cannot be the minutes of a run", f"From 0 to {MOST_MINUTES:g}")
            return None
        return round(float(number), 1)

    def moment(self, name: str, latest: dt.datetime) -> dt.datetime:
        text = self.data.get(name)
        try:
            moment = dt.datetime.fromisoformat(str(text))
            moment.astimezone(dt.UTC)
        except (ValueError, OverflowError):
            moment = None
        if moment is None or moment.tzinfo is None:
            self._fault(name, f"'{str(text)[:40]}' is no moment", "Like 2026-11-25T10:30:00+00:00, with its zone")
            return latest
        if moment > latest:
            self._fault(name, f"{moment:%d %B %Y, %H:%M} has not come yet", "Set the clock of the device")
            return latest
        return moment

    def _fault(self, name: str, found: str, allowed: str) -> str:
        self.faults.append(Fault(name, 0, found, allowed))
        return ""
