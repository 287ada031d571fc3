"""How long the ways of a large house take, against the same house measured on a fine grid in the same run.

    pytest tests/benchmarks/test_ways_benchmark.py --override-ini addopts=--import-mode=importlib

The aim: all pairs of 60 stations on 3 floors, from nothing, under 2 s on two cores. The grid has a spot every 25 cm and
16 ways from each; its lengths must agree within 8 %, and never be shorter.
"""

from __future__ import annotations

import itertools
import random
import time
from typing import Any

import networkx as nx

from archive.plan.inside import free_floor, stretches
from archive.plan.pace import climb_seconds, stair_metres
from archive.plan.parties import Needs, Party
from archive.plan.premises import Climb, Doorway, Level, Outline, PassageEnd, Point, Premises, RoomShape, Standpoint
from archive.plan.ways import Ways
from tests.plan.houses import box, on_a_grid

FLOORS, COLUMNS, ROWS, SIDE_M, SPACING_M = 3, 4, 2, 8.0, 0.25
STATIONS = 60
PARTY = Party(12, 0.9)
Spot = tuple[str, Point]


def generated_house(seed: int = 4) -> Premises:
    """Three floors of eight rooms with six machines each, doors between neighbours, a stair and a lift."""
    chance = random.Random(seed)
    rooms = [_room(chance, *where) for where in itertools.product(range(FLOORS), range(COLUMNS), range(ROWS))]
    passages = [
        Climb(kind, kind, kind, tuple(PassageEnd(f"r{floor}-0-0", at) for floor in range(FLOORS)), 1.2, **more)
        for kind, at, more in [
            ("stairs", (0.5, 0.5), {"steps": 18, "rise_mm": 175}),
            ("lift", (0.5, 7.5), {"capacity": 6, "cycle_s": 60}),
        ]
    ]
    return Premises(
        levels=tuple(Level(f"f{floor}", f"Floor {floor}", floor) for floor in range(FLOORS)),
        rooms=tuple(rooms),
        doors=tuple(door for floor in range(FLOORS) for door in _doors(floor)),
        stations=tuple(_station(number, rooms[number % len(rooms)], chance) for number in range(STATIONS)),
        passages=tuple(passages),
    )


def test_all_pairs_of_sixty_stations(benchmark: Any) -> None:
    """Every stretch inside every room, the whole graph, and 3540 ways over it, from nothing each time."""
    house = generated_house()

    def whole() -> dict[tuple[str, str], float]:
        stretches.cache_clear()
        return Ways(house).minutes([station.ref for station in house.stations], Needs(), PARTY)

    found = benchmark.pedantic(whole, rounds=5, iterations=1)
    assert len(found) == STATIONS * (STATIONS - 1)
    assert benchmark.stats.stats.median < 2


def test_asked_again(benchmark: Any) -> None:
    """The same table once the house is known."""
    house = generated_house()
    ways, refs = Ways(house), [station.ref for station in house.stations]
    ways.minutes(refs, Needs(), PARTY)
    benchmark.pedantic(ways.minutes, args=(refs, Needs(), PARTY), rounds=20, iterations=1)


def test_against_the_fine_grid(benchmark: Any) -> None:
    """The lengths of all ways for a point, against the grid; the ratio of the two times stands in `extra_info`."""
    house = generated_house()
    refs = [station.ref for station in house.stations]
    pace = Party(1, 1.0)

    def ours() -> dict[tuple[str, str], float]:
        stretches.cache_clear()
        return Ways(house, half_m=0).minutes(refs, Needs(no_lift=True), pace)

    found = benchmark.pedantic(ours, rounds=3, iterations=1)
    start = time.perf_counter()
    on_grid = _grid_minutes(house)
    grid_s = time.perf_counter() - start
    ratios = [on_grid[pair] / minutes for pair, minutes in found.items()]
    benchmark.extra_info |= {
        "grid_s": round(grid_s, 2),
        "times_faster": round(grid_s / benchmark.stats.stats.median, 1),
        "longest_over_ours": round(max(ratios), 4),
    }
    assert min(ratios) >= 1 - 1e-6
    assert max(ratios) <= 1.08


def _room(chance: random.Random, floor: int, column: int, row: int) -> RoomShape:
    left, top = column * SIDE_M, row * SIDE_M
    machines: list[Outline] = []
    for across in range(3):
        for down in range(2):
            x, y = left + 1 + across * 2.25 + chance.choice([0, 0.25]), top + 1.25 + down * 3 + chance.choice([0, 0.5])
            machines.append(box(x, y, x + chance.choice([0.75, 1.0, 1.25]), y + chance.choice([1.0, 1.5, 2.0])))
    outline = box(left, top, left + SIDE_M, top + SIDE_M)
    return RoomShape(f"r{floor}-{column}-{row}", f"Room {column} {row}", f"f{floor}", outline, tuple(machines))


def _doors(floor: int) -> list[Doorway]:
    found = []
    for column in range(COLUMNS):
        for row in range(ROWS):
            here, x, y = f"r{floor}-{column}-{row}", column * SIDE_M, row * SIDE_M
            if column + 1 < COLUMNS:
                beyond = f"r{floor}-{column + 1}-{row}"
                found.append(Doorway(f"{here} right", (here, beyond), (x + SIDE_M, y + SIDE_M / 2), 1.0))
            if row + 1 < ROWS:
                beyond = f"r{floor}-{column}-{row + 1}"
                found.append(Doorway(f"{here} down", (here, beyond), (x + 0.5, y + SIDE_M), 0.9))
    return found


def _station(number: int, room: RoomShape, chance: random.Random) -> Standpoint:
    """A station on a spot of the grid that is free for a body of any breadth: along the room's edges or its aisle."""
    (left, top), _, _, _ = room.outline
    spots = [(left + step / 2, top + down) for down in (0.75, 7.25) for step in range(1, 16)]
    spot = spots[(number * 7 + chance.randrange(3)) % len(spots)]
    return Standpoint(f"s{number}", f"Station {number}", room.ref, spot)


def _grid_minutes(house: Premises) -> dict[tuple[str, str], float]:
    """All ways of one person at 1 m/s without the lift, on one great grid of all floors."""
    graph: nx.Graph[Spot] = nx.Graph()
    for room in house.rooms:
        floor = free_floor(room.outline, room.obstacles, (), 0.0)
        grid = on_a_grid(floor, SPACING_M)
        graph.add_weighted_edges_from(
            ((room.ref, here), (room.ref, there), grid[here][there]["weight"]) for here, there in grid.edges
        )
    for door in house.doors:
        graph.add_edge(*((room, door.at) for room in door.rooms), weight=0.0)
    _add_stairs(house, graph)
    found = {}
    for station in house.stations:
        lengths = nx.single_source_dijkstra_path_length(graph, (station.room, station.at))
        for other in house.stations:
            if other is not station:
                found[station.ref, other.ref] = lengths[other.room, other.at] / 60
    return found


def _add_stairs(house: Premises, graph: nx.Graph[Spot]) -> None:
    stairs = house.passages[0]
    seconds = climb_seconds(stairs, stair_metres(stairs), 1, 1.0)
    for below, above in zip(stairs.ends, stairs.ends[1:], strict=False):
        graph.add_edge((below.room, below.at), (above.room, above.at), weight=seconds)
