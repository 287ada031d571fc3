"""Reads the interviews' scripts: who says what, with pauses, ties, clips and closures marked.

One line is one cue. "P-20:" at its head names who speaks from there on; (0.5) is a pause in seconds.
{...} alone on a line ties all lines up to the next such line; {...} at a line's end ties that line too.
<C-01 and C-01> in the braces open and close a span: a clip (C-...) or a closure (X...).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

_LINE = re.compile(r"(?:(?P<speaker>P-\d+):)?\s*(?P<words>[^{}]*?)\s*(?:\{(?P<marks>[^{}]*)\})?")
_PAUSE = re.compile(r"\s*\((\d(?:\.\d)?)\)\s*")
_SPAN = re.compile(r"<(?P<opens>\w[\w-]*)|(?P<closes>\w[\w-]*)>")


@dataclass(frozen=True)
class Part:
    """Words spoken in one breath, and the pause after them."""

    words: str
    pause_s: float


@dataclass(frozen=True)
class Line:
    """One cue: who says it, in which parts, what it speaks of, and whether a new matter starts here."""

    speaker: str
    parts: tuple[Part, ...]
    ties: tuple[str, ...]
    new_matter: bool

    @property
    def text(self) -> str:
        return " ".join(part.words for part in self.parts)


@dataclass(frozen=True)
class Script:
    """The lines of one interview, and its named spans as (first line, last line)."""

    ref: str
    lines: tuple[Line, ...]
    spans: dict[str, tuple[int, int]]


def _parts(words: str) -> tuple[Part, ...]:
    pieces = _PAUSE.split(words.strip())
    pauses = [float(pause) for pause in pieces[1::2]] + [0.0]
    return tuple(Part(said, pause) for said, pause in zip(pieces[::2], pauses, strict=True) if said)


def _is_mark(mark: str) -> bool:
    return _SPAN.fullmatch(mark) is None


def read_script(path: Path) -> Script:
    """The script in a file; raises ValueError naming the line that is not understood."""
    lines: list[Line] = []
    opened: dict[str, int] = {}
    spans: dict[str, tuple[int, int]] = {}
    speaker, standing, new_matter = "", (), True
    for number, row in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not row.strip() or row.startswith("#"):
            continue
        found = _LINE.fullmatch(row)
        if found is None:
            raise ValueError(f"{path.name}, line {number}: '{row[:60]}' is not a line of a script")
        marks = (found["marks"] or "").split()
        if not found["words"]:
            standing, new_matter = tuple(marks), True
            continue
        speaker = found["speaker"] or speaker
        for mark in filter(None, map(_SPAN.fullmatch, marks)):
            if mark["opens"]:
                opened[mark["opens"]] = len(lines)
            else:
                spans[mark["closes"]] = (opened.pop(mark["closes"]), len(lines))
        ties = dict.fromkeys((*standing, *filter(_is_mark, marks)))
        lines.append(Line(speaker, _parts(found["words"]), tuple(ties), new_matter))
        new_matter = False
    if opened:
        raise ValueError(f"{path.name}: {', '.join(opened)} opens and is never closed")
    return Script(path.stem, tuple(lines), spans)
