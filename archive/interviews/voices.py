"""Voices that were told apart, named once and written beside every line that they say. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from archive.interviews.transcripts.lines import Line
from archive.values.timecode import Span

_SAMPLES = 3
_SHORTEST_SAMPLE_MS, _LONGEST_SAMPLE_MS = 2_000, 8_000


@dataclass(frozen=True)
class Called:
    """Who a voice is: a person's reference, or a label for somebody who is not known here; neither leaves it open."""

    speaker: str = ""
    label: str = ""


def named(lines: Sequence[Line], voices: Sequence[int], names: Mapping[int, Called], *, over: bool) -> list[Line]:
    """The lines with the speakers named; a line that has a speaker keeps it, unless it is said that it need not."""
    found = []
    for line, voice in zip(lines, voices, strict=True):
        called = names.get(voice, Called())
        taken = has_speaker(line) and not over
        open_ = not (called.speaker or called.label)
        found.append(line if taken or open_ else replace(line, speaker=called.speaker, label=called.label))
    return found


def has_speaker(line: Line) -> bool:
    """Whether anything is said of who speaks."""
    return bool(line.speaker or line.label)


def samples_of(lines: Sequence[Line], sure: Sequence[float], mine: Sequence[int], closed: Sequence[Span]) -> list[Span]:
    """A few stretches in which one voice is heard best: where that is surest, some seconds each, none closed."""
    heard = [
        Span(lines[at].start_ms, min(lines[at].end_ms, lines[at].start_ms + _LONGEST_SAMPLE_MS))
        for at in sorted(mine, key=lambda at: (lines[at].end_ms - lines[at].start_ms < _SHORTEST_SAMPLE_MS, -sure[at]))
    ]
    open_ = [span for span in heard if not any(span.overlaps(each) for each in closed)]
    return sorted(open_[:_SAMPLES])
