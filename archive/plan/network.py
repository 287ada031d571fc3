"""The house as one graph for a party, weighed in seconds: stretches inside rooms, doors, stairs, lifts, ramps. Pure."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import networkx as nx

from archive.plan.inside import Mark, Opening, Stretch, stretches
from archive.plan.pace import climb_metres, climb_seconds
from archive.plan.parties import Needs, Party, carries, lets_through
from archive.plan.premises import Climb, Doorway, Outline, Point, Premises, RoomShape, Standpoint

# How far from a station's mark one may stand and still be at the station, and from a stair's or lift's mark.
STATION_M, END_M = 2.0, 1.0
# A station out of use is kept off by this much on each side.
_FENCE_M = 0.3

Node = tuple[str, str, str]


@dataclass(frozen=True)
class Walk:
    """A stretch inside a room."""

    room: RoomShape
    stretch: Stretch

    @property
    def metres(self) -> float:
        """How far it is."""
        return self.stretch.metres


@dataclass(frozen=True)
class Crossing:
    """A door gone through, from one room to the other, in no distance of its own."""

    door: Doorway
    into: RoomShape
    metres: float = 0.0


@dataclass(frozen=True)
class Ride:
    """Stairs, a lift or a ramp, from one end to another."""

    passage: Climb
    start: RoomShape
    finish: RoomShape
    metres: float


Step = Walk | Crossing | Ride


class Network:
    """What one kind of needs leaves of the house. Lengths inside rooms are found once and shared by all parties."""

    def __init__(self, premises: Premises, needs: Needs, half_m: float | None = None) -> None:
        self.premises, self.needs = premises, needs
        self.half_m = needs.half_m if half_m is None else half_m
        closed = premises.closed
        shut = {ref for kind, ref in closed if kind == "room"} | (premises.noisy if needs.quiet else frozenset())
        self.rooms = {room.ref: room for room in premises.rooms if room.ref not in shut}
        self.doors = [door for door in premises.doors if ("door", door.ref) not in closed and lets_through(door, needs)]
        self.passages = [one for one in premises.passages if ("passage", one.ref) not in closed and carries(one, needs)]
        self.stations = {one.ref: one for one in premises.stations if ("station", one.ref) not in closed}
        self._shut_spots = [one for one in premises.stations if ("station", one.ref) in closed]
        self._steps = [*self._walks(), *self._crossings(), *self._rides()]

    def graph(self, party: Party) -> nx.DiGraph[Node]:
        """The graph for a party; each edge holds its `seconds` and its `step`."""
        graph: nx.DiGraph[Node] = nx.DiGraph()
        for start, finish, step in self._steps:
            graph.add_edge(start, finish, seconds=seconds_for(step, party), step=step)
        return graph

    def _walks(self) -> Iterator[tuple[Node, Node, Step]]:
        nodes = self._nodes()
        doors = _by_room((room, door) for door in self.premises.doors for room in door.rooms if room)
        for room in self.rooms.values():
            mine = nodes.get(room.ref, {})
            openings = tuple(Opening(door.at, door.width_m) for door in doors.get(room.ref, ()))
            fences = tuple(_fence(station) for station in self._shut_spots if station.room == room.ref)
            marks = tuple(mark for mark, _leave, _arrive in mine.values())
            found = stretches(room.outline, room.obstacles + fences, openings, marks, self.half_m)
            for (start, finish), stretch in found.items():
                yield mine[start][1], mine[finish][2], Walk(room, stretch)

    def _nodes(self) -> dict[str, dict[str, tuple[Mark, Node, Node]]]:
        """The marks of each room by name, each with the node that is left from and the one that is arrived at.

        A station has two nodes, so that no way leads through it and out again.
        """
        found: dict[str, dict[str, tuple[Mark, Node, Node]]] = {}
        for door in self.doors:
            for room in door.rooms:
                node = ("door", door.ref, room)
                mark = Mark(f"door {door.ref}", door.at, door.width_m / 2)
                found.setdefault(room, {})[mark.name] = mark, node, node
        for passage in self.passages:
            for number, end in enumerate(passage.ends):
                node = ("end", passage.ref, str(number))
                mark = Mark(f"end {passage.ref} {number}", end.at, END_M)
                found.setdefault(end.room, {})[mark.name] = mark, node, node
        for station in self.stations.values():
            mark = Mark(f"station {station.ref}", station.at, STATION_M, joins=False)
            found.setdefault(station.room, {})[mark.name] = mark, leaving(station.ref), arriving(station.ref)
        return found

    def _crossings(self) -> Iterator[tuple[Node, Node, Step]]:
        for door in self.doors:
            first, second = door.rooms
            if first in self.rooms and second in self.rooms:
                one, other = ("door", door.ref, first), ("door", door.ref, second)
                yield one, other, Crossing(door, self.rooms[second])
                if not door.one_way:
                    yield other, one, Crossing(door, self.rooms[first])

    def _rides(self) -> Iterator[tuple[Node, Node, Step]]:
        """A lift goes from any of its ends to any other; stairs and ramps from each to the next."""
        for passage in self.passages:
            pairing: Callable[..., Iterator[tuple[int, int]]] = itertools.pairwise
            if passage.kind == "lift":
                pairing = _any_two
            for one, other in pairing(range(len(passage.ends))):
                start, finish = (self.rooms.get(passage.ends[number].room) for number in (one, other))
                if start and finish:
                    plain = math.dist(passage.ends[one].at, passage.ends[other].at)
                    metres = climb_metres(passage, plain)
                    below, above = ("end", passage.ref, str(one)), ("end", passage.ref, str(other))
                    yield below, above, Ride(passage, start, finish, metres)
                    yield above, below, Ride(passage, finish, start, metres)


def leaving(station: str) -> Node:
    """Where a way from a station begins."""
    return "from", station, ""


def arriving(station: str) -> Node:
    """Where a way to a station ends."""
    return "to", station, ""


def seconds_for(step: Step, party: Party) -> float:
    """How long a party takes for a step, waiting for a lift included."""
    if isinstance(step, Ride):
        return climb_seconds(step.passage, step.metres, party.size, party.pace_m_per_s)
    return step.metres / party.pace_m_per_s


def _any_two(numbers: range) -> Iterator[tuple[int, int]]:
    return itertools.combinations(numbers, 2)


def _by_room(pairs: Iterator[tuple[str, Doorway]]) -> dict[str, list[Doorway]]:
    found: dict[str, list[Doorway]] = {}
    for room, door in pairs:
        found.setdefault(room, []).append(door)
    return found


def _fence(station: Standpoint) -> Outline:
    (x, y), off = station.at, _FENCE_M
    corners: list[Point] = [(x - off, y - off), (x + off, y - off), (x + off, y + off), (x - off, y + off)]
    return tuple(corners)
