"""Plane geometry of a room's outline, for many points at once. Metres."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Outline = Sequence[tuple[float, float]]
Points = NDArray[np.float64]
_JUST = 1e-9


def corners(outline: Outline) -> Points:
    """The corners as rows of x, y."""
    return np.asarray(outline, dtype=np.float64)


def area_m2(outline: Outline) -> float:
    """The area inside, by the shoelace rule."""
    x, y = corners(outline).T
    return float(abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2)


def perimeter_m(outline: Outline) -> float:
    """The length around."""
    round_it = corners(outline)
    return float(np.hypot(*(np.roll(round_it, -1, axis=0) - round_it).T).sum())


def inside(outline: Outline, points: Points) -> NDArray[np.bool_]:
    """Which points (rows of x, y) lie inside, by counting the edges to their right."""
    start, end = _edges(outline)
    x, y = points[:, :1], points[:, 1:]
    spans = (start[:, 1] > y) != (end[:, 1] > y)
    rise = np.where(end[:, 1] == start[:, 1], 1.0, end[:, 1] - start[:, 1])
    crossing = start[:, 0] + (end[:, 0] - start[:, 0]) * (y - start[:, 1]) / rise
    return np.asarray((spans & (x < crossing)).sum(axis=1) % 2 == 1)


def kept_inside(outline: Outline, points: Points) -> Points:
    """The points, those outside moved to the nearest spot on the outline."""
    out = ~inside(outline, points)
    moved = points.copy()
    if out.any():
        moved[out] = nearest_on(outline, points[out])
    return moved


def nearest_on(outline: Outline, points: Points) -> Points:
    """For each point the nearest spot on the outline."""
    spots = _nearest_each(outline, points)
    return np.asarray(spots[np.arange(len(points)), _nearest_edge(spots, points)])


def facing(outline: Outline, spot: tuple[float, float], towards: tuple[float, float]) -> float:
    """Cosine between the wall nearest to a spot, straight out of it, and the direction towards a point."""
    start, end = _edges(outline)
    place = np.asarray([spot], dtype=np.float64)
    wall = _nearest_edge(_nearest_each(outline, place), place)[0]
    along = end[wall] - start[wall]
    out = np.array([-along[1], along[0]]) / np.hypot(*along)
    way = np.asarray(towards) - np.asarray(spot)
    return float(abs(out @ way) / max(float(np.hypot(*way)), _JUST))


def seen(outline: Outline, spot: tuple[float, float], points: Points) -> NDArray[np.bool_]:
    """Which points are seen from a spot in the same room: the straight line to them crosses no wall."""
    start, end = _edges(outline)
    eye = np.asarray(spot)
    sides_of_wall = _side(start, end, eye[None, None, :]) * _side(start, end, points[:, None, :])
    sides_of_line = _side(eye, points[:, None, :], start[None]) * _side(eye, points[:, None, :], end[None])
    return np.asarray(~((sides_of_wall < -_JUST) & (sides_of_line < -_JUST)).any(axis=1))


def _nearest_each(outline: Outline, points: Points) -> Points:
    """For each point and each edge, the nearest spot on that edge."""
    start, end = _edges(outline)
    way = end - start
    share = ((points[:, None, :] - start) * way).sum(axis=2) / np.maximum((way**2).sum(axis=1), _JUST)
    return np.asarray(start + np.clip(share, 0.0, 1.0)[:, :, None] * way)


def _nearest_edge(spots: Points, points: Points) -> NDArray[np.intp]:
    return np.asarray(((points[:, None, :] - spots) ** 2).sum(axis=2).argmin(axis=1))


def _edges(outline: Outline) -> tuple[Points, Points]:
    start = corners(outline)
    return start, np.roll(start, -1, axis=0)


def _side(start: Points, end: Points, point: Points) -> Points:
    """On which side of the line from start to end a point is: positive, negative, or nothing on the line."""
    along, away = end - start, point - start
    return np.asarray(along[..., 0] * away[..., 1] - along[..., 1] * away[..., 0])
