"""Ways through the house: from spot to spot through doors and over stairs, as lines on each floor. Pure.

Inside a room the line is straight; it turns at doors and at the ends of stairs, lifts and ramps.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import networkx as nx


@dataclass(frozen=True)
class Spot:
    """A named point in one or two rooms of a floor: a station in one, a doorway in both that it joins. In metres."""

    name: str
    floor: str
    rooms: tuple[str, ...]
    x_m: float
    y_m: float


@dataclass(frozen=True)
class Link:
    """Two spots joined by stairs, a lift or a ramp, with the metres that it counts as."""

    first: str
    second: str
    metres: float
    kind: str


class House:
    """All spots and links of a plan, ready to be asked for ways."""

    def __init__(self, spots: Iterable[Spot], links: Iterable[Link]) -> None:
        self.spots = {spot.name: spot for spot in spots}
        self._graph: nx.Graph[str] = nx.Graph()
        self._graph.add_nodes_from(self.spots)
        for room in {room for spot in self.spots.values() for room in spot.rooms}:
            inside = [spot for spot in self.spots.values() if room in spot.rooms]
            for one, other in itertools.combinations(inside, 2):
                self._join(one.name, other.name, math.dist((one.x_m, one.y_m), (other.x_m, other.y_m)), "floor")
        for link in links:
            self._join(link.first, link.second, link.metres, link.kind)

    def way(self, start: str, finish: str, *, without: frozenset[str] = frozenset()) -> list[Spot]:
        """The spots along the shortest way, both ends included; empty when there is none.

        `without` names kinds of link that may not be used, such as {"stairs"}.
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

    def _join(self, one: str, other: str, metres: float, kind: str) -> None:
        if not self._graph.has_edge(one, other) or self._graph[one][other]["metres"] > metres:
            self._graph.add_edge(one, other, metres=metres, kind=kind)
