"""Houses to walk through in tests: bare rooms, a small house of two floors, and the same measured on a fine grid."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

import networkx as nx
import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from archive.plan.premises import (
    Climb,
    Doorway,
    Level,
    Outline,
    PassageEnd,
    Point,
    Premises,
    RoomShape,
    Standpoint,
)

GROUND, UPPER = Level("ground", "Ground floor", 0), Level("upper", "Upper floor", 1)
# Steps to the right and down and their mirror images: with them each spot has 16 neighbours.
_STEPS = [(1, 0), (0, 1), (1, 1), (1, -1), (1, 2), (2, 1), (1, -2), (2, -1)]


def box(left: float, top: float, right: float, bottom: float) -> Outline:
    """A rectangle."""
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def one_room(outline: Outline, *obstacles: Outline, **stations: Point) -> Premises:
    """A house of one room."""
    return Premises(
        levels=(GROUND,),
        rooms=(RoomShape("room", "Room", "ground", outline, obstacles),),
        stations=tuple(Standpoint(ref, f"Station {ref}", "room", at) for ref, at in stations.items()),
    )


def two_floors() -> Premises:
    """Two shops side by side with a narrow and a wide door, and a loft over them, by stairs and a lift.

    The narrow door lies on the straight line from "a" to "b" and is one-way; it is low and has a step.
    """
    return Premises(
        levels=(GROUND, UPPER),
        rooms=(
            RoomShape("west", "West shop", "ground", box(0, 0, 6, 8)),
            RoomShape("east", "East shop", "ground", box(6, 0, 12, 8)),
            RoomShape("loft", "Loft", "upper", box(0, 0, 12, 8)),
        ),
        doors=(
            Doorway("near", ("west", "east"), (6, 4), 0.7, headroom_m=1.7, step_mm=120, one_way=True),
            Doorway("far", ("west", "east"), (6, 1), 1.2),
        ),
        stations=(
            Standpoint("a", "Anvil", "west", (2, 4)),
            Standpoint("b", "Bench", "east", (10, 4)),
            Standpoint("c", "Crane", "loft", (6, 4)),
        ),
        passages=(
            Climb("stair", "stairs", "Main stair", _ends(11, 2), 1.0, steps=20, rise_mm=150),
            Climb("lift", "lift", "Hoist lift", _ends(11, 6), 0.9, capacity=4, cycle_s=60),
        ),
    )


def _ends(x: float, y: float) -> tuple[PassageEnd, ...]:
    return PassageEnd("east", (x, y)), PassageEnd("loft", (x, y))


def on_a_grid(floor: BaseGeometry, spacing: float) -> nx.Graph[Point]:
    """The fine grid over a floor, each spot joined to its sixteen neighbours where the straight line is free."""
    left, top, right, bottom = floor.bounds
    across, down = (int(round((far - near) / spacing)) + 1 for near, far in ((left, right), (top, bottom)))
    spots = {(i, j): (left + i * spacing, top + j * spacing) for i, j in itertools.product(range(across), range(down))}
    pairs = [
        (spots[i, j], spots[i + di, j + dj])
        for (i, j), (di, dj) in itertools.product(spots, _STEPS)
        if (i + di, j + dj) in spots
    ]
    free = shapely.covers(_prepared(floor), shapely.linestrings(np.array(pairs)))
    graph: nx.Graph[Point] = nx.Graph()
    graph.add_weighted_edges_from((*pair, math.dist(*pair)) for pair, seen in zip(pairs, free, strict=True) if seen)
    return graph


def grid_metres(graph: nx.Graph[Point], start: Point, finish: Point) -> float:
    """The shortest way on a grid; infinite where there is none."""
    if start not in graph or finish not in graph or not nx.has_path(graph, start, finish):
        return math.inf
    return float(nx.shortest_path_length(graph, start, finish, weight="weight"))


def lines(points: Iterable[Point]) -> list[shapely.LineString]:
    """A way as its straight stretches."""
    return [shapely.LineString(pair) for pair in itertools.pairwise(points)]


def _prepared(floor: BaseGeometry) -> BaseGeometry:
    shapely.prepare(floor)
    return floor
