"""One time-coded stretch of a transcript, whatever the format it came in."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

_WHITE = re.compile(r"[ \t\n\f]+")


@dataclass(frozen=True)
class Cue:
    """From when to when, who speaks ("" if it is not said), and the words as plain text on one line."""

    start_ms: int
    end_ms: int
    speaker: str
    text: str
    line: int = field(default=0, compare=False)


def one_line(text: str) -> str:
    """The text with each run of white space made one space; a space that must not break stays."""
    return _WHITE.sub(" ", text).strip(" ")
