"""Shortest ways inside one room, round machines, barriers and jutting walls, for a body of some breadth. Pure.

The free floor is where the middle of the body may be: the room with its doorways, drawn in by half the body's
breadth, less every obstacle grown by as much (corners stay sharp, so the body keeps a little further off them). A
shortest way turns only at corners that jut into the free floor, so the graph of all corners and spots that see each
other holds it exactly.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import networkx as nx
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from archive.plan import premises
from archive.plan.premises import Outline

# Lines along the edge of the free floor count as inside it.
_GRAZING_M = 1e-6
# How far a doorway's opening is drawn beyond its middle, and how much wider than the body at the least.
_BEYOND_M = 0.02

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Opening:
    """A doorway as one room sees it."""

    at: premises.Point
    width_m: float


@dataclass(frozen=True)
class Mark:
    """A named spot that ways lead to, and how far off it one may stand instead when it is not free."""

    name: str
    at: premises.Point
    within_m: float
    joins: bool = True


@dataclass(frozen=True)
class Stretch:
    """A way inside a room: its points, from mark to mark, and its length."""

    points: tuple[premises.Point, ...]
    metres: float

    def reversed(self) -> Stretch:
        """The same way, walked back."""
        return Stretch(self.points[::-1], self.metres)


def free_floor(
    outline: Outline, obstacles: Iterable[Outline], openings: Iterable[Opening], half_m: float
) -> BaseGeometry:
    """Where the middle of a body may be."""
    room = orient(Polygon(outline))
    doors = [_opening_shape(room, opening, half_m) for opening in openings]
    within = shapely.union_all([room, *doors])
    blocked = [_valid(obstacle) for obstacle in obstacles]
    if half_m:
        within = within.buffer(-half_m, join_style="mitre")
        blocked = [shape.buffer(half_m, join_style="mitre") for shape in blocked]
    return within.difference(shapely.union_all(blocked)) if blocked else within


@lru_cache(maxsize=1024)
def stretches(
    outline: Outline,
    obstacles: tuple[Outline, ...],
    openings: tuple[Opening, ...],
    marks: tuple[Mark, ...],
    half_m: float,
) -> Mapping[tuple[str, str], Stretch]:
    """The shortest stretch between every two marks that can reach each other; each pair both ways."""
    floor = free_floor(outline, obstacles, openings, half_m)
    parts = [part for part in _polygons(floor) if part.area > 0]
    standing = _standing(parts, marks)
    found: dict[tuple[str, str], Stretch] = {}
    for part in parts:
        here = [name for name, (home, _spot) in standing.items() if home is part]
        if len(here) > 1:
            spots = {name: standing[name][1] for name in here}
            found |= _among(part, spots)
    return found


def standing_spot(
    parts: Iterable[BaseGeometry], at: premises.Point
) -> tuple[BaseGeometry | None, premises.Point, float]:
    """The part of the free floor nearest to a spot, the nearest point of it, and how far that is."""
    spot = Point(at)
    part = min(parts, key=spot.distance, default=None)
    if part is None:
        return None, at, float("inf")
    away = spot.distance(part)
    if away == 0:
        return part, at, 0.0
    near = shapely.get_coordinates(shapely.shortest_line(part, spot))[0]
    return part, (float(near[0]), float(near[1])), away


def _standing(parts: list[Polygon], marks: Iterable[Mark]) -> dict[str, tuple[BaseGeometry, premises.Point]]:
    """Where one stands for each mark. Spots that join the room to others come first: a station is told from a part of
    the floor that can be reached, even if a pocket behind a machine is nearer."""
    ordered = sorted(marks, key=lambda mark: not mark.joins)
    found: dict[str, tuple[BaseGeometry, premises.Point]] = {}
    reached: list[BaseGeometry] = []
    for mark in ordered:
        part, spot, away = standing_spot(parts if mark.joins or not reached else reached, mark.at)
        if part is None or away > mark.within_m:
            continue
        found[mark.name] = part, spot
        if mark.joins and part not in reached:
            reached.append(part)
    return found


def _among(part: Polygon, spots: Mapping[str, premises.Point]) -> dict[tuple[str, str], Stretch]:
    names = list(spots)
    corners = np.vstack([np.array([spots[name] for name in names]), _turning_points(part)])
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(corners)))
    graph.add_weighted_edges_from(_sight_lines(part, corners))
    places = [(float(x), float(y)) for x, y in corners]
    found: dict[tuple[str, str], Stretch] = {}
    for number, name in enumerate(names):
        ways = nx.single_source_dijkstra_path(graph, number)
        for other in range(number):
            if other in ways:
                points = tuple(places[step] for step in ways[other])
                stretch = Stretch(points, sum(itertools.starmap(math.dist, itertools.pairwise(points))))
                found[name, names[other]] = stretch
                found[names[other], name] = stretch.reversed()
    return found


def _sight_lines(part: Polygon, points: Array) -> list[tuple[int, int, float]]:
    """Every two points that see each other, with their distance."""
    one, other = np.triu_indices(len(points), 1)
    lengths = np.hypot(*(points[one] - points[other]).T)
    lines = shapely.linestrings(np.stack([points[one], points[other]], axis=1))
    seen_through = part.buffer(_GRAZING_M, join_style="mitre")
    shapely.prepare(seen_through)
    seen = shapely.covers(seen_through, lines) | (lengths < _GRAZING_M)
    return list(zip(one[seen].tolist(), other[seen].tolist(), lengths[seen].tolist(), strict=True))


def _turning_points(part: Polygon) -> Array:
    """The corners that jut into the free floor."""
    shape = orient(part)
    found = [_jutting(np.asarray(ring.coords)[:-1]) for ring in (shape.exterior, *shape.interiors)]
    return np.vstack(found)


def _jutting(ring: Array) -> Array:
    """The corners of a ring, its inside to the left, where it turns to the right."""
    into = ring - np.roll(ring, 1, axis=0)
    out = np.roll(ring, -1, axis=0) - ring
    turn = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    kept: Array = ring[turn < 0]
    return kept


def _opening_shape(room: Polygon, opening: Opening, half_m: float) -> Polygon:
    """The opening in the wall: as wide as the door, and so deep that the body's middle comes to the door's middle."""
    start, finish = _nearest_side(room, opening.at)
    along = (finish - start) / np.hypot(*(finish - start))
    outward = np.array([along[1], -along[0]])
    middle = np.array(opening.at)
    side = along * max(opening.width_m / 2, half_m + _BEYOND_M)
    beyond = outward * (half_m + _BEYOND_M)
    inward = -outward * (max(0.0, float((middle - start) @ outward)) + _BEYOND_M)
    corners = [middle + side + inward, middle - side + inward, middle - side + beyond, middle + side + beyond]
    return Polygon(corners)


def _nearest_side(room: Polygon, at: premises.Point) -> tuple[Array, Array]:
    ring = np.asarray(room.exterior.coords)
    sides = shapely.linestrings(np.stack([ring[:-1], ring[1:]], axis=1))
    nearest = int(np.argmin(shapely.distance(sides, Point(at))))
    return ring[nearest], ring[nearest + 1]


def inward(outline: Outline, at: premises.Point) -> premises.Point:
    """The direction that leads straight into a room from a doorway."""
    start, finish = _nearest_side(orient(Polygon(outline)), at)
    along = (finish - start) / np.hypot(*(finish - start))
    return -float(along[1]), float(along[0])


def _valid(outline: Outline) -> BaseGeometry:
    shape = Polygon(outline)
    return shape if shape.is_valid else shape.buffer(0)


def _polygons(floor: BaseGeometry) -> list[Polygon]:
    if isinstance(floor, Polygon):
        return [floor]
    pieces: Any = floor.geoms if isinstance(floor, MultiPolygon) or hasattr(floor, "geoms") else []
    return list(itertools.chain.from_iterable(_polygons(piece) for piece in pieces))
