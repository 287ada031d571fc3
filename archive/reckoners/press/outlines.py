"""Outlines of blanks as people write them: a circle, a regular shape, corners, or an SVG path."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from shapely import Polygon

from archive.reckoners.measures import convert, unit_written
from archive.reckoners.press.svg_path import points_of_path
from archive.reckoners.quantities import read_amount
from archive.reckoners.shape import refuse
from archive.reckoners.unread import NotRead

REGULAR = {
    "triangle": 3, "square": 4, "pentagon": 5, "hexagon": 6, "heptagon": 7, "octagon": 8, "nonagon": 9, "decagon": 10,
}  # fmt: skip
# Corners at every half degree: those of the closest packing, at 0, 60 and 90 degrees, are exact.
CIRCLE_CORNERS = 720
MOST_CORNERS = 300
_LONGEST = 6000
_LEAST_MM, _GREATEST_MM = 0.2, 3000.0
_HOW = (
    "Write “circle 18 mm”, “rectangle 30 x 20 mm”, “hexagon 12 mm” (its side; also triangle, square, pentagon, "
    "heptagon, octagon, nonagon, decagon), “polygon 0,0 20,0 10,15 mm” (corners in turn), or an SVG path “M 0 0 …”"
)
_PAIR = re.compile(r"([+-]?\d*\.?\d+)\s*,\s*([+-]?\d*\.?\d+)")


@dataclass(frozen=True)
class Outline:
    """The outline of a blank in millimetres; its area is exact for a circle, and turning it may change nothing."""

    name: str
    corners: tuple[tuple[float, float], ...]
    area_mm2: float
    is_circle: bool = False

    @property
    def polygon(self) -> Polygon:
        """The outline as a polygon."""
        return Polygon(self.corners)

    @property
    def is_convex(self) -> bool:
        """Whether no side bends inwards."""
        polygon = self.polygon
        return bool(polygon.convex_hull.area <= polygon.area * (1 + 1e-9))


def outline_written(text: str, key: str) -> Outline:
    """The outline that the text tells; raises Unacceptable for the field `key`."""
    try:
        return _read(text.strip())
    except NotRead as error:
        raise refuse(key, error.found, error.allowed) from error


@lru_cache(maxsize=64)
def _read(text: str) -> Outline:
    if len(text) > _LONGEST:
        raise NotRead("The outline is too long", f"Write up to {_LONGEST} characters")
    word, _, rest = text.partition(" ")
    if word.lower() in ("circle", "round"):
        return _circle(_length(rest))
    if word.lower() in REGULAR:
        return _regular(word.lower(), _length(rest))
    if word.lower() == "rectangle":
        return _rectangle(rest)
    if word.lower() == "polygon":
        corners, unit = _without_unit(rest)
        return _polygon([(float(x), float(y)) for x, y in _pairs(corners)], unit, "polygon")
    if re.match(r"[Mm]\s*[-+.\d]", text):
        path, unit = _without_unit(text)
        return _polygon(points_of_path(path), unit, "outline")
    raise NotRead(f"“{text[:40]}” is not an outline", _HOW)


def _length(text: str) -> float:
    """A length that must be one figure."""
    amount = read_amount(text, "mm")
    if not amount.exact or not _LEAST_MM <= amount.point <= _GREATEST_MM:
        raise NotRead(f"“{text[:40]}” is no size of a blank", f"Give one length from {_LEAST_MM:g} to 3,000 mm")
    return amount.point


def _circle(across_mm: float) -> Outline:
    step = math.tau / CIRCLE_CORNERS
    corners = [(across_mm / 2 * math.cos(i * step), across_mm / 2 * math.sin(i * step)) for i in range(CIRCLE_CORNERS)]
    return Outline(f"circle of {across_mm:g} mm", tuple(corners), math.pi * across_mm**2 / 4, is_circle=True)


def _regular(name: str, side_mm: float) -> Outline:
    """A regular shape by its side, lying on it."""
    sides = REGULAR[name]
    radius, first = side_mm / (2 * math.sin(math.pi / sides)), -math.pi / 2 - math.pi / sides
    angles = [first + math.tau * i / sides for i in range(sides)]
    corners = tuple((radius * math.cos(angle), radius * math.sin(angle)) for angle in angles)
    return _checked(Outline(f"{name} of side {side_mm:g} mm", corners, Polygon(corners).area))


def _rectangle(text: str) -> Outline:
    sides = re.split(r"\s*(?:x|×|by)\s*", text.strip())
    if len(sides) != 2:
        raise NotRead(f"“{text[:40]}” is not two sides", "Write “rectangle 30 x 20 mm”")
    unit = re.sub(r"^[\d.,/ ]+", "", sides[1])
    first = sides[0] if re.search(r"[^\d.,/ ]", sides[0]) else f"{sides[0]} {unit}"
    wide, high = _length(first), _length(sides[1])
    corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    return Outline(f"rectangle of {wide:g} × {high:g} mm", corners, wide * high)


def _pairs(text: str) -> list[tuple[str, str]]:
    found = _PAIR.findall(text)
    if _PAIR.sub("", text).strip(" ;"):
        raise NotRead(f"“{text[:40]}” is not a list of corners", "Write “polygon 0,0 20,0 10,15 mm”")
    return found


def _without_unit(text: str) -> tuple[str, str]:
    """The text and the unit at its end, millimetres if there is none."""
    found = re.search(r"(?<=[\sZz\d])(mm|cm|in|inch|inches|thou)\s*$", text)
    unit = unit_written(found[1], "length") if found else None
    return (text[: found.start()], unit.symbol) if found and unit else (text, "mm")


def _polygon(corners: list[tuple[float, float]], unit: str, name: str) -> Outline:
    scaled = [(convert(x, unit, "mm"), convert(y, unit, "mm")) for x, y in corners]
    tidy = [corner for i, corner in enumerate(scaled) if math.dist(corner, scaled[i - 1]) > 1e-6]
    if not 3 <= len(tidy) <= MOST_CORNERS:
        raise NotRead(f"The outline has {len(tidy)} corners", f"Give 3 to {MOST_CORNERS}")
    polygon = Polygon(tidy)
    if not polygon.is_valid or polygon.area <= 0:
        raise NotRead("The outline crosses itself or holds nothing", "Give the corners in turn around the blank")
    low_x, low_y, _, _ = polygon.bounds
    moved = tuple((x - low_x, y - low_y) for x, y in tidy)
    return _checked(Outline(f"{name} of {len(tidy)} corners", moved, polygon.area))


def _checked(outline: Outline) -> Outline:
    low_x, low_y, high_x, high_y = outline.polygon.bounds
    wide, high = high_x - low_x, high_y - low_y
    if max(wide, high) > _GREATEST_MM or min(wide, high) < _LEAST_MM:
        raise NotRead(f"The outline is {wide:.4g} × {high:.4g} mm", "Give one from 0.2 to 3,000 mm across")
    return outline
