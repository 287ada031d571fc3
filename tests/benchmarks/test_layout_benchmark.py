"""How long the layout of blanks takes, worked from nothing each time.

pytest tests/benchmarks/test_layout_benchmark.py --benchmark-only -p no:xdist
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from archive.reckoners.press import layouts, patterns
from archive.reckoners.registry import RECKONERS, reckon

CORNERS = 60
MOST_S = 2.0
MOST_OTHER_S = 0.005
_ASKED = {
    "press/cup-drawing": {"height": "5 mm"},
    "finish/plating": {"time": "20 min", "current_density": "0.5"},
    "finish/polishing-loss": {"area": "3 cm²", "depth": "10 µm"},
    "hazard/hearing-protector": {"snr": "28"},
}
OTHERS = [name for name in RECKONERS if name.split("/")[0] in ("press", "finish", "hazard") and "layout" not in name]


def badge(inner: float) -> str:
    """An outline of 60 corners, its corners by turns on two circles."""
    radii = [20 if corner % 2 else inner for corner in range(CORNERS)]
    turn = math.tau / CORNERS
    return "polygon " + " ".join(
        f"{r * math.cos(i * turn):.4f},{r * math.sin(i * turn):.4f}" for i, r in enumerate(radii)
    )


def forget() -> None:
    """Empties what was kept from earlier layouts."""
    for kept in (layouts.lay_out, layouts._patterns_at, patterns.turned, patterns._no_fits, patterns.half_turn_alike):
        kept.cache_clear()


@pytest.mark.parametrize("inner", [20.0, 17.0, 12.0], ids=["convex", "milled", "star"])
def test_layout_of_60_corners(benchmark: Any, inner: float) -> None:
    """On a sheet of 600 × 1200 mm, under two seconds."""
    asked = {"outline": badge(inner), "length": "1200 mm", "width": "600 mm"}
    result = benchmark.pedantic(reckon, ("press/sheet-layout", asked), setup=forget, rounds=3)
    assert result.figure("pieces") > 400
    assert benchmark.stats.stats.max < MOST_S


@pytest.mark.parametrize("name", OTHERS)
def test_every_other_sum(benchmark: Any, name: str) -> None:
    """Under five thousandths of a second."""
    assert benchmark(reckon, name, _ASKED.get(name, {})).values
    assert benchmark.stats.stats.median < MOST_OTHER_S
