"""What a shape of a drawing covers of the floor: itself, the hull of a group, or a thin strip for a drawn line."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from shapely.geometry import LineString, MultiPoint, Polygon

from archive.exchange import svg_shapes
from archive.exchange.svg_numbers import Matrix, Point

# Points are kept to a thousandth of a unit, as outlines are.
_DIGITS = 3


def footprint(element: Element, matrix: Matrix, thickness: float) -> list[Point]:
    """One ring in user units; a line, such as a rope, is given a thickness. ValueError for what is no shape.

    A group covers everything between its shapes: the hull of all their points.
    """
    lines = svg_shapes.moved_lines(element, matrix)
    if len(lines) == 1 and svg_shapes.is_open(element, lines[0]):
        return _ring(LineString(lines[0]).buffer(thickness / 2, cap_style="flat", join_style="mitre"))
    if len(lines) == 1:
        return svg_shapes.outline(element, matrix)
    hull = MultiPoint([point for line in lines for point in line]).convex_hull
    return _ring(hull if isinstance(hull, Polygon) else hull.buffer(thickness / 2, cap_style="flat"))


def _ring(shape: object) -> list[Point]:
    if not isinstance(shape, Polygon) or shape.is_empty:
        raise ValueError("it covers nothing")
    return [(round(x, _DIGITS), round(y, _DIGITS)) for x, y in list(shape.exterior.coords)[:-1]]
