"""Where the boxes and arrows of the chain stand when it is drawn, from first to last downwards. Pure."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from archive.processes.chain import stages

LANE, BOX_WIDTH, BOX_HEIGHT, ROW = 280.0, 248.0, 92.0, 150.0
MARGIN = 8.0
_SWEEPS = 12

Arrow = tuple[str, str]
# A place in a layer: a process by its reference, or a bend of an arrow that passes the layer by.
_Place = str | tuple[Arrow, int]


@dataclass(frozen=True)
class Box:
    """One process: its middle, and its name in lines short enough for the box."""

    ref: str
    x: float
    y: float
    lines: tuple[str, ...]


@dataclass(frozen=True)
class DrawnArrow:
    """One arrow: from which to which, and the points that it goes through."""

    before: str
    after: str
    points: tuple[tuple[float, float], ...]

    @property
    def path(self) -> str:
        """The arrow as SVG path data: soft bends that leave and arrive upright."""
        x, y = self.points[0]
        parts = [f"M{x:g} {y:g}"]
        for (x1, y1), (x2, y2) in pairwise(self.points):
            middle = (y1 + y2) / 2
            parts.append(f"L{x2:g} {y2:g}" if x1 == x2 else f"C{x1:g} {middle:g} {x2:g} {middle:g} {x2:g} {y2:g}")
        return " ".join(parts)


@dataclass(frozen=True)
class ChainDrawing:
    """A drawn chain, in units of one pixel at full size."""

    width: float
    height: float
    boxes: tuple[Box, ...]
    arrows: tuple[DrawnArrow, ...]


def draw_chain(names: Mapping[str, str], arrows: Iterable[Arrow]) -> ChainDrawing:
    """The drawing of a chain: names by reference, arrows as (before, after). ValueError when it runs in a circle."""
    kept = [arrow for arrow in arrows if arrow[0] in names and arrow[1] in names]
    rank = _ranks(names, kept)
    layers, strands = _layers(names, kept, rank)
    across = _places(layers, strands)
    width = max(across.values(), default=0.0) + BOX_WIDTH / 2 + MARGIN
    height = ROW * (len(layers) - 1) + BOX_HEIGHT + 2 * MARGIN if layers else 0.0
    boxes = tuple(Box(ref, across[ref], _row(rank[ref]), _lines(names[ref])) for ref in names)
    return ChainDrawing(width, height, boxes, tuple(_drawn(strand, across, rank) for strand in strands))


def _ranks(names: Mapping[str, str], arrows: Sequence[Arrow]) -> dict[str, int]:
    """The row of each process: as early as it can be, then pulled down to just before what it feeds."""
    order = stages(names, arrows)
    rank = {ref: row for row, stage in enumerate(order) for ref in stage}
    for ref in (ref for stage in reversed(order) for ref in stage):
        fed = [rank[after] for before, after in arrows if before == ref]
        if fed:
            rank[ref] = min(fed) - 1
    return rank


def _layers(
    names: Mapping[str, str], arrows: Sequence[Arrow], rank: Mapping[str, int]
) -> tuple[list[list[_Place]], list[list[_Place]]]:
    """The rows of places, and for each arrow the places it goes through."""
    rows: list[list[_Place]] = [[] for _ in range(max(rank.values(), default=-1) + 1)]
    for ref in names:
        rows[rank[ref]].append(ref)
    strands = []
    for before, after in arrows:
        bends: list[_Place] = [((before, after), row) for row in range(rank[before] + 1, rank[after])]
        for row, bend in enumerate(bends, rank[before] + 1):
            rows[row].append(bend)
        strands.append([before, *bends, after])
    return rows, strands


def _places(rows: list[list[_Place]], strands: Sequence[Sequence[_Place]]) -> dict[_Place, float]:
    """How far across each place stands: pulled to the mean of its neighbours, a lane apart, none left of the margin."""
    near: dict[_Place, list[_Place]] = {place: [] for row in rows for place in row}
    for strand in strands:
        for upper, lower in pairwise(strand):
            near[upper].append(lower)
            near[lower].append(upper)
    across = {place: LANE * lane for row in rows for lane, place in enumerate(row)}
    for sweep in range(_SWEEPS):
        for row in rows if sweep % 2 == 0 else list(reversed(rows)):
            wanted = {p: sum(across[n] for n in near[p]) / len(near[p]) if near[p] else across[p] for p in row}
            row.sort(key=lambda place: wanted[place])
            across.update(_spread(row, wanted))
    for row in rows:
        across.update(_snapped(row, across))
    leftmost = min(across.values(), default=0.0) - BOX_WIDTH / 2 - MARGIN
    return {place: round(x - leftmost, 1) for place, x in across.items()}


def _spread(row: Sequence[_Place], wanted: Mapping[_Place, float]) -> dict[_Place, float]:
    """The wanted places moved apart by a lane for boxes and less for bends, and back so that the mean stays."""
    placed: dict[_Place, float] = {}
    edge = float("-inf")
    for place in row:
        half = LANE / 2 if isinstance(place, str) else LANE / 8
        placed[place] = max(wanted[place], edge + half)
        edge = placed[place] + half
    drift = sum(placed[place] - wanted[place] for place in row) / len(row) if row else 0.0
    return {place: x - drift for place, x in placed.items()}


def _snapped(row: Sequence[_Place], across: Mapping[_Place, float]) -> dict[_Place, float]:
    """The places moved to the nearest half lane, so that what comes one after another stands straight."""
    half = LANE / 2
    snapped: dict[_Place, float] = {}
    for before, place in zip([None, *row], row, strict=False):
        x = round(across[place] / half) * half
        if before is not None:
            apart = LANE if isinstance(before, str) and isinstance(place, str) else half
            x = max(x, snapped[before] + apart)
        snapped[place] = x
    return snapped


def _row(rank: int) -> float:
    return MARGIN + BOX_HEIGHT / 2 + ROW * rank


def _lines(name: str) -> tuple[str, ...]:
    return tuple(textwrap.wrap(name, 18)[:3])


def _drawn(strand: Sequence[_Place], across: Mapping[_Place, float], rank: Mapping[str, int]) -> DrawnArrow:
    before, after = str(strand[0]), str(strand[-1])
    first, last = rank[before], rank[after]
    points = [(across[before], _row(first) + BOX_HEIGHT / 2)]
    for row, bend in enumerate(strand[1:-1], first + 1):
        points += [(across[bend], _row(row) - BOX_HEIGHT / 2), (across[bend], _row(row) + BOX_HEIGHT / 2)]
    points.append((across[after], _row(last) - BOX_HEIGHT / 2))
    return DrawnArrow(before, after, tuple(points))
