"""No-fit polygons: all the places of a second blank where it would lie over the first, as a Minkowski sum."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon

from archive.reckoners.press.outlines import Outline

Points = NDArray[np.float64]
_ARC_QUARTERS = 12
# A round join is drawn in straight pieces inside its arc, each of up to one and a half of these parts of a quarter. The
# bridge is widened by what that may take off, half a per cent, so that it is never less than asked.
_ARC_SHORT = math.cos(1.5 * math.pi / 4 / _ARC_QUARTERS)


def no_fit(outline: Outline, *, turned: bool, bridge_mm: float) -> Points:
    """Corners of the region of v such that the outline, moved by v, comes nearer than the bridge to the outline at 0.

    That is P + (-P) for one laid the same way, P + P for one turned by half a turn, grown by the bridge. Holes and
    pockets closed all round are filled, which can only waste, never overlap.
    """
    if outline.is_circle:
        across = 2 * math.sqrt(outline.area_mm2 / math.pi)
        return np.asarray(outline.corners) * (2 * (across + bridge_mm) / across)
    first = np.asarray(outline.corners)
    second = first if turned else -first
    region = _minkowski_sum(first, second, outline.is_convex)
    if bridge_mm > 0:
        region = region.buffer(bridge_mm / _ARC_SHORT, quad_segs=_ARC_QUARTERS, join_style="round")
    solid = max(region.geoms, key=lambda part: part.area) if isinstance(region, MultiPolygon) else region
    return np.asarray(solid.exterior.coords)[:-1]


def _minkowski_sum(first: Points, second: Points, convex: bool) -> Polygon | MultiPolygon:
    """All sums of a point of one and a point of the other; for shapes that bend inwards, piece by piece."""
    if convex:
        return _hull_of_sums(first, second)
    sums = [_hull_of_sums(a, b) for a, b in product(convex_pieces(first), convex_pieces(second))]
    return shapely.union_all(sums)


def _hull_of_sums(first: Points, second: Points) -> Polygon:
    every = (first[:, None, :] + second[None, :, :]).reshape(-1, 2)
    return shapely.convex_hull(shapely.multipoints(every))


def convex_pieces(corners: Points) -> list[Points]:
    """The outline cut into convex pieces: triangles, joined while the joined piece is still convex."""
    triangles = list(shapely.constrained_delaunay_triangles(Polygon(corners)).geoms)
    pieces: list[Polygon] = []
    while triangles:
        piece = triangles.pop()
        grown = True
        while grown:
            grown = False
            for other in triangles:
                joined = _joined(piece, other)
                if joined is not None:
                    triangles.remove(other)
                    piece, grown = joined, True
                    break
        pieces.append(piece)
    return [np.asarray(piece.exterior.coords)[:-1] for piece in pieces]


def _joined(first: Polygon, second: Polygon) -> Polygon | None:
    """The two as one convex piece, or None."""
    if not first.touches(second):
        return None
    hull = shapely.convex_hull(shapely.union(first, second))
    together = first.area + second.area
    return hull if isinstance(hull, Polygon) and hull.area <= together * (1 + 1e-9) else None
