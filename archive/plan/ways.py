"""Ways from station to station for a party with needs: how far, how long, and what to say.

A way is the quickest for the party: walking at its pace, slower on stairs, the lift in loads. The last of a party comes
through the narrowest place of a way after the first, and the way's minutes end when all are there.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

import networkx as nx
from sqlalchemy.orm import Session

from archive.plan.directions import Telling, directions
from archive.plan.house import premises_of
from archive.plan.network import Crossing, Network, Node, Ride, Step, Walk, arriving, leaving, seconds_for
from archive.plan.pace import tail_seconds
from archive.plan.parties import Needs, Party
from archive.plan.premises import Premises
from archive.store.freshness import memory

__all__ = ["Leg", "Needs", "Party", "Spot", "Ways", "open_ways_of", "ways_of"]

_HELD = 16


@dataclass(frozen=True)
class Spot:
    """A point of a way, on a floor, in metres of its drawing."""

    floor: str
    x_m: float
    y_m: float


@dataclass(frozen=True)
class Leg:
    """The quickest way between two stations. `metres` are those walked; a lift adds none."""

    start: str
    finish: str
    spots: tuple[Spot, ...]
    metres: float
    minutes: float
    directions: tuple[str, ...]


class Ways:
    """The house on one day, ready to be asked for ways. What was found is kept.

    `half_m` sets how far the middle of a body stays off walls and machines, whatever the needs; 0 is a point.
    """

    def __init__(self, premises: Premises, *, half_m: float | None = None) -> None:
        self._premises, self._half_m = premises, half_m
        self._levels = {level.ref: level for level in premises.levels}
        self._networks: dict[Needs, Network] = {}
        self._graphs: dict[tuple[Needs, Party], nx.DiGraph[Node]] = {}
        self._found: dict[tuple[str, Needs, Party], dict[str, tuple[Step, ...]]] = {}

    def leg(self, start: str, finish: str, needs: Needs, party: Party) -> Leg | None:
        """The way between two stations; None where there is none."""
        steps = self._from(start, needs, party).get(finish)
        if steps is None:
            return None
        stations = self._network(needs).stations
        telling = Telling(stations[start], stations[finish], self._levels, party.size)
        return Leg(
            start=start,
            finish=finish,
            spots=tuple(_spots(steps)),
            metres=sum(step.metres for step in steps),
            minutes=_minutes(steps, party),
            directions=directions(steps, telling),
        )

    def minutes(self, refs: Iterable[str], needs: Needs, party: Party) -> dict[tuple[str, str], float]:
        """The minutes from each station to each other one; a missing pair has no way."""
        stations = tuple(dict.fromkeys(refs))
        return {
            (start, finish): _minutes(steps, party)
            for start in stations
            for finish, steps in self._from(start, needs, party).items()
            if finish != start and finish in stations
        }

    def why_not(self, start: str, finish: str, needs: Needs, party: Party) -> str:
        """Why there is no way between two stations, in a few words; "" where there is one."""
        if self.leg(start, finish, needs, party):
            return ""
        for name, why in _WHY:
            if getattr(needs, name) and self.leg(start, finish, replace(needs, **{name: False}), party):
                return why
        if self.leg(start, finish, Needs(), party):
            return "no way fits all these needs together"
        if self._premises.closed and Ways(replace(self._premises, closed=frozenset())).leg(
            start, finish, Needs(), party
        ):
            return "a door, passage, room or station on the way is out of use"
        return "the plan has no way there"

    def _from(self, start: str, needs: Needs, party: Party) -> dict[str, tuple[Step, ...]]:
        """The steps of the quickest way to every station that can be reached, by its reference."""
        key = start, needs, party
        if key not in self._found:
            self._found[key] = self._search(start, needs, party)
        return self._found[key]

    def _search(self, start: str, needs: Needs, party: Party) -> dict[str, tuple[Step, ...]]:
        graph = self._graph(needs, party)
        found: dict[str, tuple[Step, ...]] = {}
        if start in self._network(needs).stations and leaving(start) in graph:
            ways = nx.single_source_dijkstra_path(graph, leaving(start), weight="seconds")
            for node, way in ways.items():
                if node == arriving(node[1]):
                    found[node[1]] = tuple(graph.edges[pair]["step"] for pair in itertools.pairwise(way))
            found[start] = ()
        return found

    def _graph(self, needs: Needs, party: Party) -> nx.DiGraph[Node]:
        key = needs, party
        if key not in self._graphs:
            self._graphs[key] = self._network(needs).graph(party)
        return self._graphs[key]

    def _network(self, needs: Needs) -> Network:
        if needs not in self._networks:
            self._networks[needs] = Network(self._premises, needs, self._half_m)
        return self._networks[needs]


_WHY = (
    ("step_free", "it needs stairs, a step or a steep slope"),
    ("narrow", "the way is too narrow for a wheelchair or a pushchair"),
    ("no_lift", "it needs the lift"),
    ("quiet", "it leads into a noisy room"),
)


def ways_of(session: Session, on: dt.date, *, noisy_rooms: frozenset[str] = frozenset()) -> Ways:
    """The ways of the collection's house on a day, without the places that are out of use then.

    The graph is kept until the plan, or what is out of use, changes; other changes leave it as it is.
    """
    held = memory(session)
    key = "ways", on, noisy_rooms
    if key not in held:
        held[key] = _ways(premises_of(session, on, noisy_rooms))
    ways: Ways = held[key]
    return ways


def open_ways_of(session: Session) -> Ways:
    """The ways of the collection's house with everything in use."""
    held = memory(session)
    if "open ways" not in held:
        held["open ways"] = _ways(replace(premises_of(session, dt.date.min), closed=frozenset()))
    ways: Ways = held["open ways"]
    return ways


@lru_cache(maxsize=_HELD)
def _ways(premises: Premises) -> Ways:
    return Ways(premises)


def _minutes(steps: Iterable[Step], party: Party) -> float:
    """Until the last of the party is there."""
    taken = list(steps)
    widths = [step.door.width_m for step in taken if isinstance(step, Crossing)]
    widths += [step.passage.width_m for step in taken if isinstance(step, Ride) and step.passage.kind != "lift"]
    tail = tail_seconds(party.size, min(widths)) if widths else 0.0
    return (sum(seconds_for(step, party) for step in taken) + tail) / 60


def _spots(steps: Iterable[Step]) -> Iterator[Spot]:
    """The points of the stretches inside rooms, one after the other; one that is met twice stands once."""
    last: Spot | None = None
    for step in steps:
        if isinstance(step, Walk):
            for x, y in step.stretch.points:
                spot = Spot(step.room.floor, x, y)
                if spot != last:
                    yield spot
                last = spot
