"""Time codes and spans of a recording, held as whole milliseconds."""

from __future__ import annotations

import re
from dataclasses import dataclass

_CODE = re.compile(r"(?:(\d{1,3}):)?(\d{1,3}):([0-5]\d)(?:[.,](\d{1,3}))?", re.ASCII)


def parse_timecode(text: str) -> int:
    """Milliseconds of `m:ss`, `m:ss.mmm` or `h:mm:ss.mmm`; raises ValueError on anything else."""
    match = _CODE.fullmatch(text.strip())
    if not match:
        raise ValueError(f"'{text[:40]}' is not a time; write m:ss, m:ss.mmm or h:mm:ss")
    hours, minutes, seconds, fraction = match.groups()
    if hours is not None and int(minutes) > 59:
        raise ValueError(f"'{text[:40]}' is not a time; minutes after hours go from 00 to 59")
    whole = (int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)
    return whole * 1000 + int((fraction or "0").ljust(3, "0"))


def format_timecode(ms: int) -> str:
    """The exact time code of a file: `h:mm:ss.mmm` or `m:ss.mmm`, without `.000`."""
    fraction = f".{ms % 1000:03d}" if ms % 1000 else ""
    return format_clock(ms) + fraction


def format_clock(ms: int) -> str:
    """The time code that people read: `0:07`, `12:05`, `1:02:03`."""
    seconds = ms // 1000
    hours, minutes = seconds // 3600, seconds // 60 % 60
    if hours:
        return f"{hours}:{minutes:02d}:{seconds % 60:02d}"
    return f"{minutes}:{seconds % 60:02d}"


@dataclass(frozen=True, order=True)
class Span:
    """A half-open stretch [start_ms, end_ms) of a recording."""

    start_ms: int
    end_ms: int

    def __post_init__(self) -> None:
        if not 0 <= self.start_ms < self.end_ms:
            raise ValueError(f"a span runs from 0 or later to a later end, not {self.start_ms} to {self.end_ms} ms")

    def overlaps(self, other: Span) -> bool:
        """Whether the two share any instant; touching ends do not overlap."""
        return self.start_ms < other.end_ms and other.start_ms < self.end_ms

    @property
    def length_ms(self) -> int:
        """How long it lasts."""
        return self.end_ms - self.start_ms


def parse_media_fragment(fragment: str) -> tuple[float, float | None]:
    """Start and end in seconds of a W3C Media Fragments `t=` value (normal play time).

    Source: W3C Media Fragments URI 1.0, section 4.2.1. Raises ValueError where the text is invalid.
    """
    text = fragment.removeprefix("npt:")
    start_text, comma, end_text = text.partition(",")
    if not start_text and not end_text or (comma and not end_text):
        raise ValueError(f"'{fragment[:40]}' is not a time fragment; write t=12.5 or t=12.5,20")
    start = _npt(start_text) if start_text else 0.0
    end = _npt(end_text) if end_text else None
    if end is not None and end <= start:
        raise ValueError(f"'{fragment[:40]}' ends before it starts")
    return start, end


def format_seconds(ms: int) -> str:
    """Seconds as a time fragment writes them: `12`, `12.5`, `0.04`."""
    return f"{ms // 1000}.{ms % 1000:03d}".rstrip("0").rstrip(".")


def media_fragment(start_ms: int, end_ms: int | None = None) -> str:
    """The W3C Media Fragment of a stretch: `t=12.5,20`, or `t=12.5` without an end."""
    end = "" if end_ms is None else f",{format_seconds(end_ms)}"
    return f"t={format_seconds(start_ms)}{end}"


# No recording is a thousand million seconds long; a longer row of figures would be no number that fits.
_NPT = re.compile(r"(?:(?:(\d{1,6}):)?([0-5]\d):)?(\d{1,9})(?:\.(\d{0,9})\d*)?", re.ASCII)


def _npt(text: str) -> float:
    match = _NPT.fullmatch(text)
    if not match:
        raise ValueError(f"'{text[:40]}' is not normal play time")
    hours, minutes, seconds, fraction = match.groups()
    if minutes is not None and (len(seconds) != 2 or int(seconds) > 59):
        raise ValueError(f"'{text[:40]}' is not normal play time; seconds after minutes go from 00 to 59")
    return int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(seconds) + float("0." + (fraction or "0"))
