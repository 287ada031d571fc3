"""Hand-arm vibration over a day."""

from __future__ import annotations

import math
from collections.abc import Iterable

from archive.reckoners.hazard.cautions import VIBRATION_CAUTION
from archive.reckoners.hazard.noise_law import time_told
from archive.reckoners.hazard.spells import Spell, spells_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse, text, words

# m/s² A(8). Source: Directive 2002/44/EC.
ACTION_M_PER_S2, LIMIT_M_PER_S2 = 2.5, 5.0
REFERENCE_HOURS = 8.0
_AXES = 3
_HOW = "Write each tool with its time in the hand: 5 m/s² 3 h; 2.5 m/s² 1 h. Three axes with strokes: 3/4/2 m/s² 1 h"


def total_m_per_s2(axes: Iterable[float]) -> float:
    """Vibration total value: sqrt(ax² + ay² + az²)."""
    return math.sqrt(sum(axis**2 for axis in axes))


def daily_exposure_m_per_s2(spells: Iterable[tuple[float, float]]) -> float:
    """A(8) = sqrt(sum of a² T / 8 h); a in m/s², T in hours of contact. Source: Directive 2002/44/EC, Annex A."""
    return math.sqrt(sum(a**2 * hours for a, hours in spells) / REFERENCE_HOURS)


def points(a_m_per_s2: float, hours: float) -> float:
    """Exposure points: 2 a² T. 100 are the action value, 400 the limit. Source: HSE ready-reckoner."""
    return 2 * a_m_per_s2**2 * hours


def hours_to(value_m_per_s2: float, a_m_per_s2: float) -> float:
    """Hours until a value is reached: 8 (value / a)²."""
    return REFERENCE_HOURS * (value_m_per_s2 / a_m_per_s2) ** 2


def _total(spell: Spell, factor: float) -> float:
    if len(spell.figures) == 1:
        return spell.figures[0] * factor
    if len(spell.figures) != _AXES:
        raise refuse("tools", f"{len(spell.figures)} axes are given", "Give one total, or three axes")
    return total_m_per_s2(spell.figures)


def _standing(exposure: float) -> str:
    if exposure >= LIMIT_M_PER_S2:
        return "at or above the limit: it must not go on"
    if exposure >= ACTION_M_PER_S2:
        return "at or above the action value: it must be brought down"
    return "below the action value"


def _work(given: Given) -> Worked:
    written = spells_written(given.word("tools"), "tools", ("m/s²",), 0.01, 200.0, _HOW)
    factor = given.number("axis_factor")
    spells = [(_total(spell, factor), spell.hours) for spell in written]
    exposure, total = daily_exposure_m_per_s2(spells), sum(points(*spell) for spell in spells)
    strongest = max(a for a, _ in spells)
    to_action, to_limit = hours_to(ACTION_M_PER_S2, strongest), hours_to(LIMIT_M_PER_S2, strongest)
    values: dict[str, float | str] = {
        "exposure": exposure, "points": total, "standing": _standing(exposure),
        "to_action": 60 * to_action, "to_limit": 60 * to_limit,
    }  # fmt: skip
    steps = (
        *(f"2 × {a:.3g}² × {hours:.4g} h = {points(a, hours):.1f} points." for a, hours in spells),
        f"√({total:.1f} / 2 / 8 h) = {exposure:.2f} m/s² over eight hours, A(8).",
        f"At {strongest:.3g} m/s² alone: {time_told(to_action)} to the action value, {time_told(to_limit)} to "
        "the limit.",
    )
    return Worked(values, steps, (), "Only the time that the hand is on it counts, not the time at the bench.")


HAND_ARM_VIBRATION = Reckoner(
    name="hazard/hand-arm-vibration",
    title="Vibration in the hands",
    about="What polishing spindles, hammers and tools do to the hands over a day.",
    inputs=(
        text("tools", "Tools and times", "5 m/s² 3 h; 2.5 m/s² 1 h. Three axes: 3/4/2 m/s² 1 h.", default="5 m/s² 3 h"),
        number("axis_factor", "For one axis only", "times", 1.0, 1.7, "If one axis alone was measured: 1.0 to 1.7.",
               default="1"),
    ),
    outputs=(
        Output("exposure", "Over eight hours, A(8)", "m/s²", 2),
        Output("points", "Exposure points", "points", 0),
        words("standing", "By law"),
        Output("to_action", "To the action value, strongest tool alone", "min", 0),
        Output("to_limit", "To the limit, strongest tool alone", "min", 0),
    ),
    formula="A(8) = √(sum of a² × time / 8 h); points = 2 × a² × hours",
    work=_work,
    sources=("vibration-directive", "hse-vibration", "hse-l140", "iso-5349"),
    good_for=(
        "The total of three axes at the hand that gets more. Work held to a spindle counts like a tool.",
        "No figure for a polishing spindle is held here: it must be measured.",
    ),
    caution=VIBRATION_CAUTION,
)  # fmt: skip
