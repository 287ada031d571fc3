"""Times as typists write them: at the start of a line, alone on one, or in the middle of what is said. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archive.exchange.typed.model import Times

# Hours, minutes, seconds, and a fraction or the frames of a film, which are less than a second.
_CODE = r"\d{1,3}:\d{2}(?::\d{2})?(?:[.,:;]\d{1,3})?"
_BRACKETED = re.compile(rf"[\[(<{{]\s*({_CODE})(?:\s*(?:-->|-|–|—|to)\s*({_CODE}))?\s*[\])>}}]")
_BARE = re.compile(rf"({_CODE})(?:\s*(?:-->|-|–|—|to)\s*({_CODE}))?(?=\s|$)(?:\s*[-–—|]\s)?")
_PARTS = re.compile(r"(\d{1,3}):(\d{2})(?::(\d{2}))?(?:([.,:;])(\d{1,3}))?")


@dataclass(frozen=True)
class Stamp:
    """A time in a text: where it stands, from when, and to when if it says so."""

    at: int
    after: int
    start_ms: int
    end_ms: int | None
    written: str


def clock_ms(text: str, times: Times) -> int | None:
    """Milliseconds of a time as it is written; None when it is none. Two parts are read as `times` says."""
    match = _PARTS.fullmatch(text.strip())
    if not match:
        return None
    first, second, third, mark, fraction = match.groups()
    if third is None and mark in (":", ";"):
        third, mark, fraction = fraction, None, None
    if third is None and times is not Times.HOURS:
        hours, minutes, seconds = 0, int(first), int(second)
    else:
        hours, minutes, seconds = int(first), int(second), int(third or 0)
        if minutes > 59:
            return None
    if seconds > 59:
        return None
    thousandths = int((fraction or "0").ljust(3, "0")) if mark in (".", ",") else 0
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths


def seconds_ms(text: str, times: Times) -> int | None:
    """The same for a cell of a table, where plain seconds such as 12.5 may stand too."""
    bare = text.strip().strip("[]()").replace(",", ".")
    if re.fullmatch(r"\d{1,6}(?:\.\d{1,6})?", bare, re.ASCII):
        return round(float(bare) * 1000)
    return clock_ms(text.strip().strip("[]()"), times)


def leading(text: str, times: Times, *, bare: bool) -> Stamp | None:
    """The time at the start of a text; without brackets only where `bare` says that such are times."""
    at = len(text) - len(text.lstrip())
    for pattern in (_BRACKETED, _BARE) if bare else (_BRACKETED,):
        match = pattern.match(text, at)
        if match and (stamp := _stamp(match, times)):
            return stamp
    return None


def bracketed(text: str, times: Times) -> Iterator[Stamp]:
    """Every time in brackets, in order."""
    for match in _BRACKETED.finditer(text):
        if stamp := _stamp(match, times):
            yield stamp


def _stamp(match: re.Match[str], times: Times) -> Stamp | None:
    start = clock_ms(match[1], times)
    end = clock_ms(match[2], times) if match[2] else None
    if start is None or (match[2] and end is None):
        return None
    return Stamp(match.start(), match.end(), start, end if end is not None and end > start else None, match[0].strip())
