"""How long a party takes: on the level, on stairs, in a lift, and one after another through a narrow place. Pure."""

from __future__ import annotations

import math

from archive.plan.premises import Climb

# Walking on stairs against walking on the level: 1.00 against 1.40 m/s along the slope for steps of 190 mm rise and
# 254 mm going, in the evacuation chapter of the SFPE Handbook [memory].
STAIR_SHARE = 1.00 / 1.40
# A step's going and rise where the plan tells none: the least going and the greatest rise of Approved Document K for
# stairs of general access [memory].
GOING_M, RISE_M = 0.25, 0.17
# People a second through a metre of doorway or stair at the most, and the strip at each side that is not walked on:
# SFPE Handbook [memory]. It was found for crowds that hurry, so a party that strolls takes longer rather than less.
FLOW_PER_M_S, EDGE_M = 1.32, 0.15
LEAST_CLEAR_M = 0.3
# What a lift is taken to hold and to need, up and back, where the plan does not tell. Our assumption.
LIFT_HOLDS, LIFT_CYCLE_S = 4, 60.0


def stair_metres(stairs: Climb) -> float:
    """The length of a flight along its slope."""
    rise_m = stairs.rise_mm / 1000 or RISE_M
    return stairs.steps * math.hypot(rise_m, GOING_M)


def lift_loads(lift: Climb, size: int) -> int:
    """How often a lift runs until all of a party are there."""
    return math.ceil(max(size, 1) / (lift.capacity or LIFT_HOLDS))


def climb_metres(passage: Climb, plain_m: float) -> float:
    """How far one walks on stairs or a ramp; nothing in a lift. `plain_m` is how far apart the ends are drawn."""
    match passage.kind:
        case "stairs":
            return stair_metres(passage) or passage.length_m or plain_m
        case "lift":
            return 0.0
    return passage.length_m or plain_m


def climb_seconds(passage: Climb, metres: float, size: int, pace_m_per_s: float) -> float:
    """How long stairs, a lift or a ramp take."""
    match passage.kind:
        case "stairs":
            return metres / (pace_m_per_s * STAIR_SHARE)
        case "lift":
            return lift_loads(passage, size) * (passage.cycle_s or LIFT_CYCLE_S)
    return metres / pace_m_per_s


def tail_seconds(size: int, narrowest_m: float) -> float:
    """How long after the first the last of a party comes through the narrowest place of a way."""
    clear_m = max(narrowest_m - 2 * EDGE_M, LEAST_CLEAR_M)
    return max(size - 1, 0) / (FLOW_PER_M_S * clear_m)
