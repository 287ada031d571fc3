"""Ways through the house: from spot to spot through doors and over stairs, as lines on each floor. Pure.

Inside a room the line is straight as far as one can see; it turns at doors, at the ends of stairs, lifts and ramps,
and round the corners that jut into a room.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import networkx as nx
from shapely.geometry import LineString, Point, Polygon

_ROUND_CORNERS_M = 0.4
_WALL_M = 0.3

Outline = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class Spot:
    """A named point in one or two rooms of a floor: a station in one, a doorway in both that it joins. In metres.

    A stepped spot is a doorway with a step in it: whatever leads to it is of the kind "step".
    """

    name: str
    floor: str
    rooms: tuple[str, ...]
    x_m: float
    y_m: float
    stepped: bool = False


@dataclass(frozen=True)
class Link:
    """Two spots joined by stairs, a lift or a ramp, with the metres that it counts as."""

    first: str
    second: str
    metres: float
    kind: str


class House:
    """All spots and links of a plan, ready to be asked for ways."""

    def __init__(
        self, spots: Iterable[Spot], links: Iterable[Link], outlines: Mapping[str, Outline] | None = None
    ) -> None:
        kept = list(spots)
        rooms = {room: Polygon(outline) for room, outline in (outlines or {}).items()}
        floors = {room: spot.floor for spot in kept for room in spot.rooms}
        kept += [
            corner for room, shape in rooms.items() if room in floors for corner in _corners(room, floors[room], shape)
        ]
        self.spots = {spot.name: spot for spot in kept}
        self._graph: nx.Graph[str] = nx.Graph()
        self._graph.add_nodes_from(self.spots)
        for room in {room for spot in kept for room in spot.rooms}:
            self._join_inside(room, rooms.get(room))
        for link in links:
            self._join(link.first, link.second, link.metres, link.kind)

    def way(self, start: str, finish: str, *, without: frozenset[str] = frozenset()) -> list[Spot]:
        """The spots along the shortest way, both ends included; empty when there is none.

        `without` names kinds of link that may not be used, such as {"stairs", "step"}.
        """

        def weight(_one: str, _other: str, edge: dict[str, object]) -> float | None:
            return None if edge["kind"] in without else float(edge["metres"])  # type: ignore[arg-type]

        try:
            return [self.spots[name] for name in nx.shortest_path(self._graph, start, finish, weight=weight)]
        except (nx.NetworkXNoPath, nx.NodeNotFound):
            return []

    def metres(self, way: Sequence[Spot]) -> float:
        """How long a way is."""
        return sum(float(self._graph[one.name][other.name]["metres"]) for one, other in itertools.pairwise(way))

    def _join_inside(self, room: str, shape: Polygon | None) -> None:
        """Join all spots of a room that see each other; a doorway lies in the wall, so the walls' width is allowed."""
        inside = [spot for spot in self.spots.values() if room in spot.rooms]
        seen_through = shape.buffer(_WALL_M, join_style="mitre") if shape else None
        for one, other in itertools.combinations(inside, 2):
            line = LineString([(one.x_m, one.y_m), (other.x_m, other.y_m)])
            if seen_through is None or seen_through.covers(line):
                kind = "step" if one.stepped or other.stepped else "floor"
                self._join(one.name, other.name, line.length, kind)

    def _join(self, one: str, other: str, metres: float, kind: str) -> None:
        if not self._graph.has_edge(one, other) or self._graph[one][other]["metres"] > metres:
            self._graph.add_edge(one, other, metres=metres, kind=kind)


def _corners(room: str, floor: str, shape: Polygon) -> Iterator[Spot]:
    """The corners that jut into a room, a little way off the wall."""
    ring = list(shape.normalize().exterior.coords)[:-1]
    for number, (x, y) in enumerate(ring):
        before, after = ring[number - 1], ring[(number + 1) % len(ring)]
        into, out = _toward((x, y), before), _toward((x, y), after)
        off = (x - (into[0] + out[0]) * _ROUND_CORNERS_M, y - (into[1] + out[1]) * _ROUND_CORNERS_M)
        if not shape.covers(LineString([_along((x, y), into), _along((x, y), out)])) and shape.covers(Point(off)):
            yield Spot(f"corner {room} {number}", floor, (room,), *off)


def _toward(here: tuple[float, float], there: tuple[float, float]) -> tuple[float, float]:
    length = math.dist(here, there) or 1.0
    return (there[0] - here[0]) / length, (there[1] - here[1]) / length


def _along(here: tuple[float, float], way: tuple[float, float]) -> tuple[float, float]:
    return here[0] + way[0] * _ROUND_CORNERS_M, here[1] + way[1] * _ROUND_CORNERS_M
