"""Days made up for tests: a house of rooms in a row, tours through it, and days drawn from a seed."""

from __future__ import annotations

import random
from dataclasses import replace

from archive.tours.day.problem import TENTHS, AtStation, DayProblem, Going, InRoom, Rules, Run

ROOMS = [f"room-{number}" for number in range(10)]


def going(ref: str, rooms: list[tuple[str, int]], **rest: object) -> Going:
    """A departure that stands so many minutes in each of some rooms, one after the other."""
    clock, stays, stations = 0, [], []
    for room, minutes in rooms:
        ends = clock + minutes * TENTHS
        stays.append(InRoom(clock, ends, room))
        stations.append(AtStation(clock, ends, f"st-{room}"))
        clock = ends
    usual: dict[str, object] = {"guide": "", "size": 10, "earliest": 540, "latest": 720}
    given = {**usual, **rest}
    return Going(ref=ref, name=ref, tenths=clock, rooms=tuple(stays), stations=tuple(stations), **given)  # type: ignore[arg-type]


def random_day(seed: int, tours: int = 12, stops: int = 10, *, window: int = 240, guides: int = 4) -> DayProblem:
    """A day of tours of so many stops in ten rooms, three of which have a machine that is run now and then."""
    draw = random.Random(seed)
    capacities = {room: draw.choice([12, 15, 20, 25, 30]) for room in ROOMS}
    levels = {(f"dm-{n}", f"st-{room}"): draw.choice([60.0, 75.0, 84.0]) for n in range(3) for room in ROOMS}
    made = tuple(_drawn(draw, number, stops, window, guides) for number in range(tours))
    return DayProblem(made, capacities, levels, Rules(step=5))


def _drawn(draw: random.Random, number: int, stops: int, window: int, guides: int) -> Going:
    rooms = draw.sample(ROOMS, min(stops, len(ROOMS)))
    timed = [(room, draw.randint(2, 7)) for room in rooms]
    earliest = draw.randrange(540, 660, 15)
    made = going(f"dp-{number}", timed, size=draw.randint(5, 12), earliest=earliest, latest=earliest + window,
                 guide=f"guide-{draw.randrange(guides)}")  # fmt: skip
    stay = draw.choice(made.rooms)
    machine = f"dm-{draw.randrange(3)}"
    run = Run(stay.begins - 30, stay.begins + 20, machine, machine, machine, stay.begins)
    return replace(made, runs=(run,) if draw.random() < 0.5 else ())
