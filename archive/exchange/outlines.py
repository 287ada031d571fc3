"""Outlines of the plan as polygons, with a fault for one that bounds no floor."""

from __future__ import annotations

from shapely import Polygon

from archive.exchange.draft import ObstacleDraft, RoomDraft
from archive.exchange.faults import FaultList, shown


def polygon_of(drawn: RoomDraft | ObstacleDraft, what: str, allowed: str, faults: FaultList) -> Polygon | None:
    """The outline of a room or an obstacle; None, told as a fault, where it crosses itself or is flat.

    One of fewer than three points has been told of already.
    """
    if len(drawn.outline) < 3:
        return None
    polygon = Polygon(drawn.outline)
    if not polygon.is_valid or polygon.area == 0:
        faults.add(drawn.origin, f"the outline of {what} {shown(drawn.ref)} crosses itself or is flat", allowed)
        return None
    return polygon
