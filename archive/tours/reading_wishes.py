"""Reading wishes out of a mapping: every fault is kept with the field it stands in. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from archive.errors import Fault
from archive.tours.model import THEMES
from archive.values.dayclock import DAY_MINUTES, read_minute
from archive.values.identifiers import is_ref

_MOST_REFS = 500
HEAVIEST = 3


class WishReader:
    """Takes fields out of a mapping one by one, and keeps the faults."""

    def __init__(self, given: Mapping[str, Any]) -> None:
        self._given = given
        self.faults: list[Fault] = []

    @property
    def faulty(self) -> frozenset[str]:
        """The fields that have faults."""
        return frozenset(fault.where for fault in self.faults)

    def fault(self, field: str, found: str, allowed: str) -> None:
        """Keep a fault."""
        self.faults.append(Fault(field, 0, found, allowed))

    def unknown(self, known: Iterable[str]) -> None:
        """Keep a fault for each field that is not one."""
        for field in sorted(set(map(str, self._given)) - set(known)):
            self.fault(field[:60], "This is not a wish", "Leave it out")

    def day(self, field: str) -> dt.date:
        """A day that must be given."""
        given = self._given.get(field)
        if isinstance(given, dt.date) and not isinstance(given, dt.datetime):
            return given
        try:
            return dt.date.fromisoformat(str(given))
        except ValueError:
            self.fault(
                field, "No day is given" if given in (None, "") else f"{_said(given)} is no day", "Write 2026-05-03"
            )
            return dt.date.min

    def number(self, field: str, default: float, least: float, most: float) -> float:
        """A number within bounds, or the default when none is given."""
        found = self.optional(field, least, most)
        return default if found is None else found

    def optional(self, field: str, least: float, most: float) -> float | None:
        """A number within bounds, or None when none is given."""
        given = self._given.get(field)
        if given is None or given == "":
            return None
        try:
            number = float(str(given)) if not isinstance(given, bool) else float("nan")
        except ValueError:
            number = float("nan")
        if least <= number <= most:
            return int(number) if number.is_integer() else number
        self.fault(
            field, f"{_said(given)} is not from {least:g} to {most:g}", f"Give a number from {least:g} to {most:g}"
        )
        return None

    def flag(self, field: str, *, default: bool = False) -> bool:
        """Yes or no."""
        given = self._given.get(field, default)
        if isinstance(given, bool):
            return given
        self.fault(field, f"{_said(given)} is neither yes nor no", "Give true or false")
        return default

    def text(self, field: str) -> str:
        """A short word, or nothing."""
        given = self._given.get(field)
        if given is None:
            return ""
        if isinstance(given, str) and len(given) <= 120:
            return given.strip()
        self.fault(field, f"{_said(given)} is not a short word", "Give up to 120 characters")
        return ""

    def choice(self, field: str, allowed: tuple[str, ...]) -> str:
        """One of a list, or nothing."""
        word = self.text(field)
        if word and word not in allowed:
            self.fault(field, f"{_said(word)} is none of the list", "Choose " + ", ".join(allowed))
            return ""
        return word

    def clock(self, field: str) -> int | None:
        """A time of the day in minutes, or None when none is given."""
        given = self._given.get(field)
        return None if given is None or given == "" else self._clock(field, given)

    def weights(self, field: str) -> dict[str, int]:
        """Themes with their weights; a list of themes gives each the weight 1."""
        given = self._given.get(field) or {}
        if isinstance(given, list | tuple):
            given = dict.fromkeys(map(str, given), 1)
        if not isinstance(given, Mapping):
            self.fault(field, f"{_said(given)} are not themes with weights", "Write {metal = 3, skill = 1}")
            return {}
        kept = {}
        for theme, weight in given.items():
            if theme not in THEMES:
                self.fault(field, f"{_said(theme)} is not a theme", "Choose " + ", ".join(THEMES))
            elif isinstance(weight, bool) or weight not in range(HEAVIEST + 1):
                self.fault(field, f"{theme} has the weight {_said(weight)}", f"Give 0 to {HEAVIEST}")
            elif weight:
                kept[str(theme)] = int(weight)
        return kept

    def refs(self, field: str) -> tuple[str, ...]:
        """References, each once."""
        return self._refs(field, self._given.get(field) or ())

    def windows(self, field: str) -> tuple[tuple[int, int], ...]:
        """Hours of the day, each a pair of times."""
        kept = []
        for pair in self._given.get(field) or ():
            if not isinstance(pair, list | tuple) or len(pair) != 2:
                self.fault(field, f"{_said(pair)} is not a pair of times", 'Write ["10:30", "11:15"]')
                continue
            start, end = (self._clock(field, one) for one in pair)
            if start is None or end is None:
                continue
            if end <= start:
                self.fault(field, f"{_said(pair)} ends before it begins", "Write the earlier time first")
            kept.append((start, end))
        return tuple(kept)

    def pins(self, field: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Stations with their tellings, in order."""
        kept = []
        for one in self._given.get(field) or ():
            if isinstance(one, Mapping):
                one = (one.get("station"), one.get("tellings") or ())
            if not isinstance(one, list | tuple) or len(one) != 2 or not isinstance(one[0], str):
                self.fault(field, f"{_said(one)} is not a stop", 'Write {station = "..", tellings = [".."]}')
                continue
            kept.append((one[0], self._refs(field, one[1])))
        return tuple(kept)

    def _clock(self, field: str, given: Any) -> int | None:
        if isinstance(given, int) and not isinstance(given, bool) and 0 <= given < DAY_MINUTES:
            return given
        minute = read_minute(str(given).strip())
        if minute is None:
            self.fault(field, f"{_said(given)} is not a time of the day", "Write 10:30")
        return minute

    def _refs(self, field: str, given: Any) -> tuple[str, ...]:
        if not isinstance(given, list | tuple) or not all(isinstance(one, str) and is_ref(one) for one in given):
            self.fault(
                field, f"{_said(given)} is not a list of references", "Write each reference as the collection does"
            )
            return ()
        if len(given) > _MOST_REFS:
            self.fault(field, f"{len(given)} are too many", f"Give {_MOST_REFS} at most")
        return tuple(dict.fromkeys(given))


def _said(given: object) -> str:
    return f"'{str(given)[:40]}'"
