"""Times found for a transcript that somebody changed meanwhile: both brought together, line by line. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.merging import Part, merge


def beside_theirs(base: Sequence[Line], found: Sequence[Line], theirs: Sequence[Line]) -> tuple[list[Line], int]:
    """What somebody wrote stands, with the times found; and the number of lines that keep the times they gave.

    `base` are the lines as they were when the search began. Where a line was mended in its words alone, it takes the
    time found; where it was moved, confirmed, cut or joined, it stays as they have it.
    """
    taken: list[tuple[Line, bool]] = []
    for part in merge(base, found, theirs):
        taken.extend(_taken(part))
    return _in_turn(taken), sum(own for _line, own in taken)


def _taken(part: Part) -> Iterator[tuple[Line, bool]]:
    """The lines that stand, and of each whether its times are theirs."""
    if part.taken_from != "choose":
        own = part.taken_from == "theirs"
        yield from ((line, own) for line in part.lines)
    elif len(part.base) == len(part.mine) == len(part.theirs) == 1:
        (was,), (found,), (now,) = part.base, part.mine, part.theirs
        if (was.start_ms, was.end_ms, was.doubtful) != (now.start_ms, now.end_ms, now.doubtful):
            yield now, True
        else:
            yield replace(found, speaker=now.speaker, label=now.label, text=now.text, key=now.key), False
    else:
        yield from ((line, True) for line in part.theirs)


def _in_turn(taken: Sequence[tuple[Line, bool]]) -> list[Line]:
    """No line starts before the one above it: what gives way is doubtful, and what a person gave gives way last."""
    lines = [line for line, _own in taken]
    for at in reversed(range(len(lines) - 1)):
        line, after = lines[at], lines[at + 1]
        given = taken[at][1] and not line.doubtful
        if line.start_ms > after.start_ms and not given:
            lines[at] = _moved(line, after.start_ms)
    for at in range(1, len(lines)):
        if lines[at].start_ms < lines[at - 1].start_ms:
            lines[at] = _moved(lines[at], lines[at - 1].start_ms)
    return lines


def _moved(line: Line, start_ms: int) -> Line:
    confidence = 0.0 if line.confidence is None else line.confidence
    return replace(line, start_ms=start_ms, end_ms=max(line.end_ms, start_ms + 1), confidence=confidence, doubtful=True)
