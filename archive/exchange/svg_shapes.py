"""The outline and the middle of an SVG shape, its transforms applied."""

from __future__ import annotations

import math
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from archive.exchange.svg_numbers import Matrix, Point, joined, length, moved, numbers, pairs, path_points, transform

# Straight sides that stand for a circle.
_SIDES = 64
# Points are kept to a thousandth of a unit, so that a drawing read again gives the same.
_DIGITS = 3


def outline(element: Element, matrix: Matrix) -> list[Point]:
    """The one ring of a shape, its first point not repeated; raises ValueError for what encloses nothing."""
    lines = _lines(element)
    if len(lines) != 1 or _tag(element) == "line":
        raise ValueError("it is not one closed shape")
    ring = [_kept(moved(point, matrix)) for point in lines[0]]
    points = [point for place, point in enumerate(ring) if place == 0 or point != ring[place - 1]]
    if points[-1] == points[0]:
        points.pop()
    if len(points) < 3:
        raise ValueError("it encloses nothing")
    return points


def centre(element: Element, matrix: Matrix) -> Point:
    """The middle of the box around a shape, or around all shapes of a group."""
    points = [point for line in moved_lines(element, matrix) for point in line]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return _kept(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))


def moved_lines(element: Element, matrix: Matrix) -> list[list[Point]]:
    """Every line of a shape, or of all shapes of a group, its transforms applied; ValueError where there is none."""
    lines = list(_all_lines(element, matrix))
    if not lines:
        raise ValueError("it is no shape")
    return lines


def is_open(element: Element, line: list[Point]) -> bool:
    """Whether the one line of a shape is drawn from one end to another and encloses nothing."""
    return _tag(element) == "line" or (_tag(element) in ("polyline", "path") and line[0] != line[-1])


def _all_lines(element: Element, matrix: Matrix) -> Iterator[list[Point]]:
    if _tag(element) != "g":
        yield from ([moved(point, matrix) for point in line] for line in _lines(element))
        return
    for child in element:
        if _tag(child) in ("g", "rect", "circle", "ellipse", "line", "polyline", "polygon", "path"):
            yield from _all_lines(child, joined(matrix, transform(child.get("transform", ""))))


def _lines(element: Element) -> list[list[Point]]:
    """The lines of a shape before its transforms."""
    match _tag(element):
        case "rect":
            x, y, width, height = (_size(element, name) for name in ("x", "y", "width", "height"))
            return [[(x, y), (x + width, y), (x + width, y + height), (x, y + height)]]
        case "circle":
            radius = _size(element, "r")
            return [_ellipse(element, radius, radius)]
        case "ellipse":
            return [_ellipse(element, _size(element, "rx"), _size(element, "ry"))]
        case "line":
            x1, y1, x2, y2 = (_size(element, name) for name in ("x1", "y1", "x2", "y2"))
            return [[(x1, y1), (x2, y2)]]
        case "polyline" | "polygon":
            return [pairs(numbers(element.get("points", "")))]
        case "path":
            return path_points(element.get("d", ""))
    raise ValueError("it is no shape")


def _ellipse(element: Element, rx: float, ry: float) -> list[Point]:
    x, y = _size(element, "cx"), _size(element, "cy")
    angles = [2 * math.pi * side / _SIDES for side in range(_SIDES)]
    return [(x + rx * math.cos(angle), y + ry * math.sin(angle)) for angle in angles]


def _size(element: Element, name: str) -> float:
    return length(element.get(name, "0"))


def _tag(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _kept(point: Point) -> Point:
    x, y = (round(number, _DIGITS) + 0.0 for number in point)
    return x, y
