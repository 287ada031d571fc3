"""The fields of one record, asked for by name and kind; what is wrong with one becomes a fault at its place."""

from __future__ import annotations

import datetime as dt
import math
import re
from abc import ABC, abstractmethod
from collections.abc import Collection, Sequence

from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.folder_files import NAME_ALLOWED, is_file_name
from archive.values.dates import UncertainDate, parse_date
from archive.values.identifiers import REF_ALLOWED, is_language_tag, is_ref
from archive.values.timecode import Span, parse_timecode

LONG_TEXT = 100_000
_FORBIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
LANGUAGE_ALLOWED = "Write a language tag, such as en-GB"


class Fields(ABC):
    """One record of a table; a wrong value is told once and read as empty, so that the rest is still checked."""

    def __init__(self, faults: FaultList) -> None:
        self._faults = faults

    @abstractmethod
    def place(self, key: str = "") -> Place:
        """Where the record, or one of its fields, stands."""

    @abstractmethod
    def _as_text(self, key: str) -> str | None:
        """The field as text, None where it is absent or no text."""

    @abstractmethod
    def _as_number(self, key: str) -> float | int | None:
        """The field as a number, None where it is absent or no number."""

    @abstractmethod
    def _as_flag(self, key: str) -> bool | None:
        """The field as yes or no, None where it is absent or neither."""

    @abstractmethod
    def _as_list(self, key: str) -> list[str]:
        """The field as a list of texts, empty where it is absent or no list."""

    def fault(self, key: str, found: str, allowed: str) -> None:
        """One thing wrong with a field."""
        self._faults.add(self.place(key), found, allowed)

    def missing(self, key: str) -> None:
        """A field that must be given and is not."""
        self.fault(key, f"'{key}' is missing", "It must be given")

    def text(self, key: str, *, required: bool = False, limit: int = LONG_TEXT, default: str = "") -> str:
        """Plain text, without white space around it."""
        text = self._as_text(key)
        if text is None or not text.strip():
            if required and not self._told(key):
                self.missing(key)
            return default if text is None else ""
        return self._good_text(key, text, limit)

    def ref(self, key: str, *, required: bool = True) -> str:
        """The reference of this or another record; "" where there is none."""
        text = self.text(key, required=required)
        if text and not is_ref(text):
            self.fault(key, f"'{key}' is {shown(text)}", REF_ALLOWED)
            return ""
        return text

    def refs(self, key: str) -> tuple[str, ...]:
        """References, each once."""
        found = self.texts(key)
        for ref in found:
            if not is_ref(ref):
                self.fault(key, f"'{key}' has {shown(ref)}", REF_ALLOWED)
        return tuple(ref for ref in found if is_ref(ref))

    def texts(self, key: str, *, limit: int = 2000, once: bool = True) -> tuple[str, ...]:
        """A list of texts; `once` makes a repeated one a fault."""
        found = tuple(self._good_text(key, text, limit) for text in self._as_list(key))
        for text in {text for text in found if once and found.count(text) > 1}:
            self.fault(key, f"'{key}' names {shown(text)} more than once", "Name it once")
        if "" in found:
            self.fault(key, f"'{key}' has an empty entry", "Take it out or fill it in")
        return tuple(text for text in dict.fromkeys(found) if text) if once else found

    def choice(self, key: str, allowed: Sequence[str], default: str = "") -> str:
        """One of a closed list; must be given if there is no default."""
        text = self.text(key, required=not default) or default
        if text and text not in allowed:
            self.fault(key, f"'{key}' is {shown(text)}", f"It may be {_list(allowed)}")
            return default or allowed[0]
        return text or allowed[0]

    def choices(self, key: str, allowed: Sequence[str]) -> tuple[str, ...]:
        """Any of a closed list."""
        found = self.texts(key)
        for text in found:
            if text not in allowed:
                self.fault(key, f"'{key}' has {shown(text)}", f"It may have {_list(allowed)}")
        return tuple(text for text in found if text in allowed)

    def number(self, key: str, low: float, high: float, default: float | None = None) -> float:
        """A finite number between two bounds; must be given if there is no default."""
        value = self._as_number(key)
        if value is None:
            if default is None and not self._told(key):
                self.missing(key)
            return low if default is None else default
        if not (math.isfinite(value) and low <= value <= high):
            self.fault(key, f"'{key}' is {shown(value)}", f"It may be from {low:g} to {high:g}")
            return low
        return float(value)

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """A whole number between two bounds."""
        value = self.number(key, low, high, default)
        if value != int(value):
            self.fault(key, f"'{key}' is {shown(value)}", "It must be a whole number")
        return int(value)

    def flag(self, key: str, default: bool | None = None) -> bool:
        """Yes or no; must be given if there is no default."""
        value = self._as_flag(key)
        if value is None:
            if default is None and not self._told(key):
                self.missing(key)
            return bool(default)
        return value

    def uncertain_date(self, key: str) -> UncertainDate | None:
        """A date in EDTF, or None."""
        text = self.text(key, limit=64)
        if not text:
            return None
        try:
            return parse_date(text)
        except ValueError as problem:
            found, _, allowed = str(problem).partition(". ")
            self.fault(key, f"'{key}': {found}", allowed)
            return None

    def day(self, key: str, *, required: bool = False) -> dt.date | None:
        """One day of the calendar, or None."""
        text = self.text(key, required=required, limit=64)
        if not text:
            return None
        try:
            if not _DAY.fullmatch(text):
                raise ValueError(text)
            return dt.date.fromisoformat(text)
        except ValueError:
            self.fault(key, f"'{key}' is {shown(text)}", "Write a day as 2031-05-03")
            return None

    def time(self, key: str) -> int | None:
        """A time in a recording, in milliseconds."""
        text = self.text(key, required=True, limit=64)
        if not text:
            return None
        try:
            return parse_timecode(text)
        except ValueError:
            self.fault(key, f"'{key}' is {shown(text)}", "Write a time as m:ss, m:ss.mmm or h:mm:ss")
            return None

    def span(self) -> Span | None:
        """From `start` to `end`."""
        start, end = self.time("start"), self.time("end")
        if start is None or end is None:
            return None
        if end <= start:
            self.fault("end", f"it ends at {shown(self.text('end'))}, not after its start", "The end comes later")
            return None
        return Span(start, end)

    def language(self, key: str, default: str = "") -> str:
        """A language tag."""
        text = self.text(key, required=not default, limit=35) or default
        if text and not is_language_tag(text):
            self.fault(key, f"'{key}' is {shown(text)}", LANGUAGE_ALLOWED)
        return text

    def file_name(self, key: str, endings: Collection[str] | None, *, required: bool = True) -> str:
        """The plain name of a file, of the kinds given; "" where there is none or it is no good."""
        text = self.text(key, required=required)
        return text if text and self.is_good_file(key, text, endings) else ""

    def is_good_file(self, key: str, text: str, endings: Collection[str] | None) -> bool:
        """Whether a name can be taken; a fault if not."""
        if not is_file_name(text):
            self.fault(key, f"'{key}' is {shown(text)}", NAME_ALLOWED)
            return False
        if endings is not None and not text.lower().endswith(tuple(endings)):
            self.fault(key, f"'{key}' is {shown(text)}", f"It must end in {_list(tuple(endings))}")
            return False
        return True

    def _told(self, key: str) -> bool:
        """Whether a fault stands at this field already (it was given, but of a wrong kind)."""
        return False

    def _good_text(self, key: str, text: str, limit: int) -> str:
        if _FORBIDDEN.search(text):
            self.fault(key, f"'{key}' holds a control character", "Write plain text")
            return ""
        if len(text) > limit:
            self.fault(key, f"'{key}' has {len(text)} letters", f"It may have up to {limit}")
            return text[:limit].strip()
        return text.strip()


def _list(allowed: Sequence[str]) -> str:
    return allowed[0] if len(allowed) == 1 else ", ".join(allowed[:-1]) + " or " + allowed[-1]
