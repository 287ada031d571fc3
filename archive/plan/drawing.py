"""A floor's drawing made ready to lie inside a page: its frame, its strokes and its markup. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

_ROOT = re.compile(r"<svg\b(?P<attributes>[^>]*)>(?P<markup>.*)</svg\s*>", re.DOTALL)
_FRAME = re.compile(r"""\bviewBox\s*=\s*["']([^"']*)["']""")
_STROKES = re.compile(r"""\b(?:fill|stroke|stroke-[a-z]+|opacity|font-[a-z]+)\s*=\s*(?:"[^"<>]*"|'[^'<>]*')""")

Point = Sequence[float]


@dataclass(frozen=True)
class Frame:
    """A stretch of a drawing, in its own units."""

    x: float
    y: float
    width: float
    height: float

    def __str__(self) -> str:
        return " ".join(f"{number:g}" for number in (self.x, self.y, self.width, self.height))

    def grown(self, margin: float) -> Frame:
        """The frame with a margin on every side."""
        return Frame(self.x - margin, self.y - margin, self.width + 2 * margin, self.height + 2 * margin)


@dataclass(frozen=True)
class Drawing:
    """What is inside an SVG file's root: to be put in a group with the root's own strokes."""

    frame: Frame
    strokes: str
    markup: str


@lru_cache(maxsize=64)
def drawing_of(svg: str) -> Drawing:
    """The parts of a clean SVG file. A file without a readable viewBox gets a frame of no size."""
    root = _ROOT.search(svg)
    if root is None:
        return Drawing(Frame(0, 0, 0, 0), "", "")
    attributes = root["attributes"]
    return Drawing(_frame(attributes), " ".join(_STROKES.findall(attributes)), root["markup"])


def frame_around(outlines: Iterable[Iterable[Point]]) -> Frame:
    """The smallest frame that holds some outlines."""
    points = [point for outline in outlines for point in outline]
    if not points:
        return Frame(0, 0, 0, 0)
    left, top = min(point[0] for point in points), min(point[1] for point in points)
    right, bottom = max(point[0] for point in points), max(point[1] for point in points)
    return Frame(left, top, right - left, bottom - top)


def _frame(attributes: str) -> Frame:
    found = _FRAME.search(attributes)
    numbers = re.split(r"[\s,]+", found[1].strip()) if found else []
    try:
        x, y, width, height = map(float, numbers)
    except ValueError:
        return Frame(0, 0, 0, 0)
    return Frame(x, y, width, height)
