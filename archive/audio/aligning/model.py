"""What goes into an alignment and what comes out of it. Times are whole milliseconds."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from archive.values.timecode import Span

# Below this share of words that agree, a person should look.
DOUBTFUL_BELOW = 0.5

Progress = Callable[[float, str], None]
Stop = Callable[[], bool]


@dataclass(frozen=True)
class GivenLine:
    """A line of text. Where `start_ms` is known, it is kept, and what lies on either side of it stays there."""

    text: str
    start_ms: int | None = None
    end_ms: int | None = None


@dataclass(frozen=True)
class Heard:
    """A word that was made out in the sound, from when to when."""

    word: str
    start_ms: int
    end_ms: int


@dataclass(frozen=True)
class AlignedLine:
    """When a line is said; `confidence`, 0 to 1, is the share of its words that two ways of listening agree on."""

    start_ms: int
    end_ms: int
    confidence: float
    doubtful: bool


@dataclass(frozen=True)
class Alignment:
    """A time for each line; the stretches of speech that no line tells; the numbers, from 0, of lines not in the sound.

    Lines stand in order, within the sound, and none runs into the next.
    """

    lines: Sequence[AlignedLine]
    untold: Sequence[Span] = ()
    unheard: Sequence[int] = ()


class StoppedError(Exception):
    """Raised inside when it was asked to stop; what is finished is kept in the folder for the next time."""
