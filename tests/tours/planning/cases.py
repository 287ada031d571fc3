"""Works made up by a seed: stations in rooms on three floors, tellings, and wishes, for benchmarks and tests."""

from __future__ import annotations

import itertools
import math
import random

from archive.tours.model import AUDIENCES, DEPTHS, THEMES
from archive.tours.planning.problem import Choice, Place, Problem
from archive.tours.planning.strands import closure

_ROOM_M, _FLOOR_M, _PACE = 9.0, 22.0, 54.0


def works(seed: int, stations: int = 30, *, per_station: int = 3, minutes: int = 45) -> Problem:
    """A problem of so many stations with so many tellings each; wishes vary with the seed."""
    draw = random.Random(seed)
    spots = [_spot(draw, number, stations) for number in range(stations)]
    places = tuple(Place(f"s{number:02d}", draw.random() < 0.2, draw.random() < 0.3) for number in range(stations))
    walks = {
        (one.ref, other.ref): max(1, math.ceil(_metres(spots[i], spots[j]) / _PACE * 10))
        for i, one in enumerate(places)
        for j, other in enumerate(places)
        if i != j
    }
    machines = {place.ref for place in draw.sample(places, max(1, stations // 10))}
    choices = tuple(
        _choice(draw, place.ref, number, place.ref in machines, minutes)
        for place in places
        for number in range(per_station)
    )
    order = seed % 2 == 0
    return Problem(
        tenths=minutes * 10,
        places=places,
        choices=choices,
        walks=walks,
        start="s00",
        finish=f"s{stations - 1:02d}",
        audience=draw.choice(AUDIENCES),
        depth=draw.choice((None, *DEPTHS)),
        weights={theme: draw.choice((1, 2, 3)) for theme in draw.sample(THEMES, draw.choice((2, 3, 4)))},
        before=_chain(draw, places) if order else frozenset(),
        voice_every=150 if seed % 4 in (1, 2) else None,
        seats_every=200 if seed % 5 == 0 else None,
        must_stations=frozenset({f"s{draw.randrange(1, stations - 1):02d}"}),
    )


def _spot(draw: random.Random, number: int, stations: int) -> tuple[float, float, int]:
    floor = number * 3 // stations
    room = draw.randrange(6)
    x, y = (room % 3) * _ROOM_M + draw.uniform(1, 8), (room // 3) * _ROOM_M + draw.uniform(1, 8)
    return x, y, floor


def _metres(one: tuple[float, float, int], other: tuple[float, float, int]) -> float:
    """Straight on a floor; between floors by the stairs in one corner."""
    if one[2] == other[2]:
        return math.hypot(one[0] - other[0], one[1] - other[1]) * 1.2
    return math.hypot(one[0], one[1]) + math.hypot(other[0], other[1]) + _FLOOR_M * abs(one[2] - other[2])


def _choice(draw: random.Random, station: str, number: int, machine: bool, minutes: int) -> Choice:
    """A telling; the first at a machine that runs is its demonstration, at one of two quarters of an hour."""
    loud = machine and number == 0
    kind = "demonstration" if loud else draw.choices(("talk", "clip", "object", "question"), (5, 3, 2, 1))[0]
    hours = sorted(draw.sample(range(2, minutes // 5), 2))
    return Choice(
        ref=f"{station}-{number}",
        station=station,
        kind=kind,
        tenths=draw.randint(5, 30) if not loud else draw.randint(30, 50),
        themes=tuple(draw.sample(THEMES, draw.choice((1, 1, 2, 3)))),
        depth=draw.choice(DEPTHS),
        audiences=tuple(draw.sample(AUDIENCES, draw.randint(1, 4))),
        is_voice=kind == "clip",
        noise=draw.randrange(200_000, 600_000) if loud else 0,
        windows=tuple((hour * 50, hour * 50 + 100) for hour in hours) if loud else (),
        order=number,
    )


def _chain(draw: random.Random, places: tuple[Place, ...]) -> frozenset[tuple[str, str]]:
    """The way of the metal, roughly floor by floor; tool making that joins it half way; the rest is free."""
    inner = [place.ref for place in places[1:-1]]
    strand, free = draw.sample(inner, 4), draw.sample(inner, len(inner) // 6)
    line = [ref for ref in inner if ref not in {*strand, *free}]
    line.sort(key=lambda ref: int(ref[1:]) // 4 + draw.random())
    half = len(line) // 2
    pairs = set(itertools.pairwise(line)) | set(itertools.pairwise(strand)) | {(strand[-1], line[half])}
    return closure(pairs)
