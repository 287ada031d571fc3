"""How long the sums take: each reckoner, a hard layout, every figure, and the noise map of the whole demo plan.

    pytest tests/benchmarks/test_reckoner_benchmark.py --override-ini addopts=--import-mode=importlib

The aims, on two cores: layout of a 60-vertex outline under 2 s, noise map at 0.25 m under 300 ms, every other reckoner
under 5 ms. The figures are read, not asserted: a busy machine is no fault.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from flask import Flask

from archive.exchange.folder import read_folder
from archive.reckoners.figures import figure_for
from archive.reckoners.noise_field.contours import picture_of
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.rooms import Machine, Opening, SoundHouse, SoundRoom
from archive.reckoners.press import layouts, patterns
from archive.reckoners.registry import RECKONERS, reckon
from archive.settings import shared_folder
from tests.conftest import sign_in
from tests.reckoners.figures.test_figures import GIVEN
from tests.reckoners.test_whole import published_checks

STEP_M = 0.25
CENTIMETRE = 0.01


def badge(points: int, inner: float) -> str:
    """An outline of many corners, by turns on a circle of 20 mm and on an inner one."""
    radii = (20.0 if corner % 2 else inner for corner in range(points))
    turns = (math.tau * corner / points for corner in range(points))
    corners = (f"{r * math.cos(a):.3f},{r * math.sin(a):.3f}" for r, a in zip(radii, turns, strict=True))
    return f"polygon {' '.join(corners)} mm"


# What the first published check of each reckoner gives it.
CHECKED = {check.reckoner: dict(check.given) for check in reversed(published_checks())}


@pytest.mark.parametrize("name", [name for name in RECKONERS if name != "press/sheet-layout"])
def test_reckoner(benchmark: Any, name: str) -> None:
    """Any reckoner but the layout answers."""
    given = CHECKED[name]
    benchmark.pedantic(reckon, args=(name, given), rounds=20, iterations=1, warmup_rounds=2)


def forget_layouts() -> None:
    """Empties what was kept from earlier layouts."""
    for kept in (layouts.lay_out, layouts._patterns_at, patterns.turned, patterns._no_fits, patterns.half_turn_alike):
        kept.cache_clear()


@pytest.mark.parametrize("inner", [20.0, 17.0, 12.0], ids=["convex", "milled", "star"])
def test_layout_of_sixty_corners(benchmark: Any, inner: float) -> None:
    """A badge of 60 corners on a sheet of 600 × 1200 mm, worked from nothing each time."""
    given = {"outline": badge(60, inner), "length": "1200 mm", "width": "600 mm"}
    result = benchmark.pedantic(reckon, ("press/sheet-layout", given), setup=forget_layouts, rounds=3)
    assert result.figure("pieces") > 400


def test_noise_map_of_the_whole_plan(benchmark: Any) -> None:
    """All rooms of all floors of the demo at 0.25 m, field, bands and lines."""
    plan = read_folder(shared_folder("demo-collection")).plan
    rooms = tuple(
        SoundRoom(room.ref, _metres(room.outline), room.height_m or 3.5, room.absorption or 0.08) for room in plan.rooms
    )
    doors = tuple(
        Opening(door.ref, door.room_a, door.room_b, _metres([door.spot])[0], door.width_m * door.headroom_m, True)
        for door in plan.doors
        if door.room_b
    )
    machines = tuple(
        Machine(station.ref, station.room, _metres([station.spot])[0], 90.0, 1.0) for station in plan.stations[::3]
    )
    house = SoundHouse(rooms, doors, machines)

    def drawn() -> int:
        field = Field(house)
        return sum(len(picture_of(field.patch(room.key, STEP_M), CENTIMETRE, 85.0).bands) for room in rooms)

    benchmark.pedantic(drawn, rounds=10, iterations=1, warmup_rounds=1)


def test_switching_a_machine(benchmark: Any, demo_app: Flask) -> None:
    """What changes on the page when a machine is switched, from request to answer."""
    guide = sign_in(demo_app.test_client(), "guide")
    answer = benchmark.pedantic(
        guide.get,
        args=("/desk/noise/part?asked=1&floor=ground&run=TY.1984.12",),
        rounds=10,
        iterations=1,
        warmup_rounds=1,
    )
    assert answer.status_code == 200


@pytest.mark.parametrize(("name", "given"), GIVEN, ids=lambda part: str(part))
def test_figure(benchmark: Any, name: str, given: dict[str, str]) -> None:
    """A figure is drawn from its result."""
    benchmark.pedantic(figure_for, args=(reckon(name, given),), rounds=10, iterations=1, warmup_rounds=1)


def _metres(points: Any) -> tuple[tuple[float, float], ...]:
    return tuple((x * CENTIMETRE, y * CENTIMETRE) for x, y in points)
