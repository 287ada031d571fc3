"""What to say to a volunteer who leads a way: one sentence for each door, flight, lift and arrival. Pure.

Left and right are worked out from the drawing: on a way's first stretch by what stands at the station's back, later by
how one comes through the door or off the stairs. Drawings have x to the right and y down.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Point as At
from shapely.geometry import Polygon

from archive.plan.inside import inward
from archive.plan.network import Crossing, Ride, Step, Walk
from archive.plan.pace import lift_loads
from archive.plan.parties import CHAIR_DOOR_M, LEVEL_STEP_MM, gradient_percent
from archive.plan.premises import Climb, Doorway, Level, Point, RoomShape, Standpoint

# A tall man in shoes [memory]: a lower doorway is told.
LOW_M = 1.95
# A machine or wall so near is what a station has at its back.
_BACK_M = 2.5
_AHEAD, _BEHIND = math.radians(30), math.radians(150)
_ROUND_FROM_M, _ROUND_TO_M = 20, 5


@dataclass(frozen=True)
class Telling:
    """What directions need to know beside the steps."""

    start: Standpoint
    finish: Standpoint
    levels: Mapping[str, Level]
    size: int


def directions(steps: Sequence[Step], telling: Telling) -> tuple[str, ...]:
    """The sentences for a way, in order."""
    found: list[str] = []
    walked: Walk | None = None
    facing = _from_the_back(steps[0].room, telling.start.at) if steps and isinstance(steps[0], Walk) else None
    for step in steps:
        if isinstance(step, Walk):
            walked = step
            continue
        if isinstance(step, Crossing):
            found.append(_through(step, walked, facing))
            facing = inward(step.into.outline, step.door.at)
        else:
            # Which way one faces off stairs or out of a lift the plan does not tell.
            found.append(_ride(step, walked, facing, telling))
            facing = None
        walked = None
    found.append(_arrival(walked, facing, telling))
    return (_from_the_start(found[0], steps, telling.start), *found[1:])


def plain_name(name: str) -> str:
    """A name within a sentence: "Main stair" becomes "the main stair"; a name with more capitals is left as it is."""
    name = re.sub(r"^the\s+", "", name.strip(), flags=re.IGNORECASE) or name
    words = [word for word in name.split() if word != "No."]
    proper = len(words[0]) > 1 and words[0][1:] != words[0][1:].lower() or any(word[0].isupper() for word in words[1:])
    return f"the {name}" if proper else f"the {name[:1].lower()}{name[1:]}"


def told_metres(metres: float) -> str:
    """A distance as one says it: whole metres, from twenty on by fives."""
    step = _ROUND_TO_M if metres >= _ROUND_FROM_M else 1
    whole = max(1, round(metres / step) * step)
    return "1 metre" if whole == 1 else f"{whole} metres"


def side(facing: Point, toward: Point) -> str:
    """Where something lies for one who faces a way."""
    across = facing[0] * toward[1] - facing[1] * toward[0]
    along = facing[0] * toward[0] + facing[1] * toward[1]
    angle = math.atan2(across, along)
    if abs(angle) <= _AHEAD:
        return "straight ahead"
    if abs(angle) >= _BEHIND:
        return "behind you"
    return "on your right" if angle > 0 else "on your left"


def _from_the_start(sentence: str, steps: Sequence[Step], start: Standpoint) -> str:
    """The first sentence, with how to stand so that its left and right are right."""
    first = steps[0] if steps else None
    if not isinstance(first, Walk) or first.metres < 1 or _from_the_back(first.room, start.at) is None:
        return sentence
    return f"With {plain_name(start.name)} at your back, {sentence[:1].lower()}{sentence[1:]}"


def _through(step: Crossing, walked: Walk | None, facing: Point | None) -> str:
    goal = f"the door to {plain_name(step.into.name)}"
    said = _walk_to(f"Go through {goal}", walked, facing)
    return " ".join([f"{said}.", *_door_cautions(step.door)])


def _walk_to(deed: str, walked: Walk | None, facing: Point | None, joint: str = " ") -> str:
    """Such as "Go through the door to the press shop on your left, 6 metres away", without the full stop."""
    if walked is None or walked.metres < 1:
        return deed
    far = told_metres(walked.metres)
    where, bend = _bearing(walked, facing)
    if bend:
        return f"{bend} and walk {far}, round what stands there. {deed}"
    match where:
        case "":
            return f"Walk {far}. {deed}"
        case "behind you":
            return f"Turn back and walk {far}. {deed}"
        case "straight ahead":
            return f"Walk straight ahead for {far}. {deed}"
    return f"{deed}{joint}{where}, {far} away"


def _bearing(walked: Walk, facing: Point | None) -> tuple[str, str]:
    """On which side the end of a stretch lies, or, where it bends, how one turns at first."""
    points = walked.stretch.points
    if facing is None:
        return "", ""
    straight = math.dist(points[0], points[-1]) > 0.9 * walked.metres
    toward = _between(points[0], points[-1] if straight else _first_turn(points))
    where = side(facing, toward)
    turned = {"on your left": "Turn left", "on your right": "Turn right", "behind you": "Turn back"}
    return (where, "") if straight else ("", turned.get(where, "Set off straight ahead"))


def _first_turn(points: Sequence[Point]) -> Point:
    return next((point for point in points[1:] if math.dist(points[0], point) >= 1), points[-1])


def _door_cautions(door: Doorway) -> list[str]:
    found = []
    if door.step_mm > LEVEL_STEP_MM:
        found.append(f"Mind the step, {door.step_mm / 10:.0f} cm.")
    if door.headroom_m < LOW_M:
        found.append(f"Mind your head: the doorway is {door.headroom_m:g} m high.")
    if door.width_m < CHAIR_DOOR_M:
        found.append(f"It is narrow, {door.width_m * 100:.0f} cm: go one by one.")
    if door.gradient_percent >= 2:
        found.append(f"The floor slopes there, about 1 in {100 / door.gradient_percent:.0f}.")
    return found


def _ride(step: Ride, walked: Walk | None, facing: Point | None, telling: Telling) -> str:
    passage = step.passage
    first, last = telling.levels[step.start.floor], telling.levels[step.finish.floor]
    way = "" if first.level == last.level else " up" if last.level > first.level else " down"
    deed = f"Take {plain_name(passage.name)}{way}"
    match passage.kind:
        case "stairs":
            deed += f", {passage.steps} steps" if passage.steps else ""
        case "lift":
            loads = lift_loads(passage, telling.size)
            deed += f" to {plain_name(last.name)}" + (f", in {loads} loads" if loads > 1 else "")
        case _:
            steep = gradient_percent(passage)
            deed += f" to {plain_name(step.finish.name)}" + (f", about 1 in {100 / steep:.0f}" if steep else "")
    said = _walk_to(deed, walked, facing, ": it is ")
    return " ".join([f"{said}.", *_passage_cautions(passage)])


def _passage_cautions(passage: Climb) -> list[str]:
    low = f"Mind your head: there are {passage.headroom_m:g} m above you at the lowest."
    return [low] if passage.headroom_m < LOW_M else []


def _arrival(walked: Walk | None, facing: Point | None, telling: Telling) -> str:
    name = plain_name(telling.finish.name)
    if walked is None or walked.metres < 1:
        return f"You are at {name}."
    far = told_metres(walked.metres)
    where, bend = _bearing(walked, facing)
    if bend:
        return f"{bend} and walk {far}, round what stands there, to {name}."
    match where:
        case "":
            return f"Walk {far} to {name}."
        case "behind you":
            return f"Turn back and walk {far} to {name}."
        case "straight ahead":
            return f"Walk straight ahead for {far} to {name}."
    return f"Walk {far} to {name} {where}."


def _from_the_back(room: RoomShape, at: Point) -> Point | None:
    """The way one faces with a station's machine, or else its nearest wall, at one's back; None in the open."""
    spot = At(at)
    things = [Polygon(outline) for outline in room.obstacles]
    near = min(things, key=spot.distance, default=None)
    if near is None or not 0 < spot.distance(near) <= _BACK_M:
        near = Polygon(room.outline).exterior
    if not 0 < spot.distance(near) <= _BACK_M:
        return None
    touching = shapely.get_coordinates(shapely.shortest_line(near, spot))[0]
    return _between((float(touching[0]), float(touching[1])), at)


def _between(one: Point, other: Point) -> Point:
    return other[0] - one[0], other[1] - one[1]
