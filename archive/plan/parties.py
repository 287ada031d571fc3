"""Who walks: what a party cannot do, how many they are, how fast they go, and whom a door or passage bars. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from archive.plan.premises import Climb, Doorway

# Half the breadth of a body. A person is taken as 0.5 m across. A wheelchair is taken as wide as the narrowest doorway
# that is still let pass in an old building, 0.75 m: Approved Document M volume 2, table 2 [memory]. Common practice.
PERSON_HALF_M = 0.25
CHAIR_HALF_M = 0.375
# A person turns sideways in a narrower doorway; a wheelchair does not. Our assumption for the person.
PERSON_DOOR_M = 0.4
CHAIR_DOOR_M = 0.75
# A sill up to this is rolled over: Approved Document M, thresholds up to 15 mm [memory].
LEVEL_STEP_MM = 15.0
# The steepest that a wheelchair is led up or down: 1 in 12, Approved Document M table 1 and the ADA's 405 [memory].
STEEPEST_PERCENT = 100 / 12
_ROUNDING_PERCENT = 0.05


@dataclass(frozen=True)
class Needs:
    """What a party cannot do or wants to keep away from.

    `step_free`: no stairs, no step in a doorway, no slope too steep for a wheelchair. `narrow`: nothing narrower than
    a wheelchair or a pushchair. `no_lift`: no lift. `quiet`: no room that is named as noisy.
    """

    step_free: bool = False
    narrow: bool = False
    no_lift: bool = False
    quiet: bool = False

    @property
    def half_m(self) -> float:
        """How far from walls and machines the middle of a body stays."""
        return CHAIR_HALF_M if self.narrow else PERSON_HALF_M

    @property
    def least_width_m(self) -> float:
        """The narrowest doorway, stair or lift that is passed."""
        return CHAIR_DOOR_M if self.narrow else PERSON_DOOR_M


@dataclass(frozen=True)
class Party:
    """How many walk, and how fast on the level."""

    size: int
    pace_m_per_s: float


def lets_through(door: Doorway, needs: Needs) -> bool:
    """Whether a doorway is wide, level and gentle enough."""
    level = door.step_mm <= LEVEL_STEP_MM and _gentle(door.gradient_percent)
    return door.width_m >= needs.least_width_m and (level or not needs.step_free)


def carries(passage: Climb, needs: Needs) -> bool:
    """Whether stairs, a lift or a ramp can be used."""
    if passage.width_m < needs.least_width_m:
        return False
    match passage.kind:
        case "stairs":
            return not needs.step_free
        case "lift":
            return not needs.no_lift
    return not needs.step_free or _gentle(gradient_percent(passage))


def gradient_percent(ramp: Climb) -> float:
    """How steep a ramp is, rise over run; 0 where the plan does not tell its length."""
    return ramp.rise_mm / 10 / ramp.length_m if ramp.length_m else 0.0


def _gentle(percent: float) -> bool:
    return percent <= STEEPEST_PERCENT + _ROUNDING_PERCENT
