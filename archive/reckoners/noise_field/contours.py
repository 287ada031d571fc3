"""Levels over a room as filled bands and lines: SVG paths in the units of the floor's drawing."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, cast

import numpy as np
from contourpy import FillType, LineType, contour_generator

from archive.reckoners.noise_field.field import Patch
from archive.reckoners.noise_field.outlines import Points, corners, inside, nearest_on
from archive.reckoners.noise_field.rooms import Spot

Starts = np.ndarray[Any, np.dtype[np.unsignedinteger[Any]]]

# The bands begin here; below the first nothing is drawn, and the last has no upper end.
BANDS_DB = (70.0, 75.0, 80.0, 85.0, 90.0, 95.0, 100.0)
LOUDEST_DB = 200.0
_QUIETEST_DB = 0.0
# A label wants this much floor around it, and lines shorter than this get none.
_LABEL_ROOM_M = 0.45
_LABELLED_FROM_M = 1.5
# Other marks on the plan (checks, names of rooms) are this wide, and a label keeps off them.
_MARK_M = 0.7


@dataclass(frozen=True)
class Band:
    """The part of a room that lies from one level up to the next."""

    from_db: float
    path: str


@dataclass(frozen=True)
class Line:
    """Where a level runs through a room; `label` is a spot on it for its figure, in drawing units, or None."""

    level_db: float
    path: str
    label: tuple[float, float] | None


@dataclass(frozen=True)
class RoomPicture:
    """A room's bands and lines, to be cut off at its outline; and the line to stand behind, if it runs there."""

    key: str
    outline: str
    bands: tuple[Band, ...]
    lines: tuple[Line, ...]
    stand_back: Line | None


def picture_of(patch: Patch, metres_per_unit: float, stand_back_db: float, marks: Sequence[Spot] = ()) -> RoomPicture:
    """The picture of one room; labels keep off `marks`, in metres."""
    levels = np.clip(patch.level_db, _QUIETEST_DB, LOUDEST_DB)
    filled = contour_generator(patch.x_m, patch.y_m, levels, fill_type=FillType.OuterOffset)
    lined = contour_generator(patch.x_m, patch.y_m, levels, line_type=LineType.Separate)
    least, most = float(levels.min()), float(levels.max())
    bands = []
    for low, high in itertools.pairwise((*BANDS_DB, LOUDEST_DB + 1)):
        if least < high and most >= low:
            polygons = cast(tuple[list[Points], list[Starts]], filled.filled(low, high))
            bands.append(Band(low, " ".join(_rings(*polygons, metres_per_unit))))
    runs = {at: cast(list[Points], lined.lines(at)) for at in {*BANDS_DB, stand_back_db} if least < at < most}
    drawn = {at: _line(run, at, patch, metres_per_unit, marks) for at, run in runs.items()}
    stand_back = drawn.pop(stand_back_db, None)
    lines = [drawn[at] for at in sorted(drawn)]
    outline = _ring(corners(patch.room.outline), metres_per_unit)
    return RoomPicture(patch.room.key, outline, tuple(bands), tuple(lines), stand_back)


def _rings(points: Sequence[Points], offsets: Sequence[Starts], metres_per_unit: float) -> Iterator[str]:
    """Every closed ring of every polygon: outer edge and holes alike, for the even-odd rule."""
    for polygon, starts in zip(points, offsets, strict=True):
        for first, last in itertools.pairwise(starts):
            yield _ring(polygon[first : last - 1], metres_per_unit)


def _ring(points: Points, metres_per_unit: float) -> str:
    return f"M{_places(points, metres_per_unit)}Z"


def _places(points: Points, metres_per_unit: float) -> str:
    return " ".join(f"{x:.6g},{y:.6g}" for x, y in np.round(points / metres_per_unit, 1).tolist())


def _line(runs: Sequence[Points], at: float, patch: Patch, metres_per_unit: float, marks: Sequence[Spot]) -> Line:
    path = " ".join(f"M{_places(run, metres_per_unit)}" for run in runs)
    label = _label(runs, patch, marks)
    return Line(at, path, None if label is None else (label[0] / metres_per_unit, label[1] / metres_per_unit))


def _label(runs: Sequence[Points], patch: Patch, marks: Sequence[Spot]) -> tuple[float, float] | None:
    """A spot on the longer runs that lies well inside the room: the one furthest from walls and other marks."""
    long_enough = [run for run in runs if np.hypot(*np.diff(run, axis=0).T).sum() >= _LABELLED_FROM_M]
    if not long_enough:
        return None
    run = np.concatenate(long_enough)
    run = run[inside(patch.room.outline, run)]
    if not len(run):
        return None
    clear = np.hypot(*(run - nearest_on(patch.room.outline, run)).T)
    for mark in marks:
        clear = np.minimum(clear, np.hypot(*(run - np.asarray(mark)).T) - _MARK_M + _LABEL_ROOM_M)
    best = int(clear.argmax())
    return (float(run[best, 0]), float(run[best, 1])) if clear[best] >= _LABEL_ROOM_M else None
