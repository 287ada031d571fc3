"""A machine in a room: what comes straight, what the room gives back, and how long it rings."""

from __future__ import annotations

import math

from archive.reckoners.hazard.acoustics import (
    direct_db,
    power_from_level_db,
    reverberant_db,
    reverberation_s,
    room_constant_m2,
    room_level_db,
)
from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse

DIFFUSE_UP_TO = 0.3
_LEVEL_IF_NONE_DB = 95.0
PLACES = {"1": "in mid air", "2": "on the floor", "4": "where floor and wall meet", "8": "in a corner"}


def _power(given: Given) -> tuple[float, str]:
    """The sound power level, as given or from a level in the open."""
    power, level = given.maybe("power"), given.maybe("level")
    if power is not None and level is not None:
        raise refuse("level", "Both the sound power and a level are given", "Give one of them")
    if power is not None:
        return power, f"Sound power level as given: {power:g} dB."
    near, spread = given.number("at"), float(given.word("place"))
    heard = _LEVEL_IF_NONE_DB if level is None else level
    found = power_from_level_db(heard, near, spread)
    return (
        found,
        f"{heard:g} dB at {near:g} m in the open: sound power level {found:.1f} dB.",
    )


def _work(given: Given) -> Worked:
    long, wide, high = given.number("length"), given.number("width"), given.number("height")
    alpha, spread, distance = given.number("absorption"), float(given.word("place")), given.number("distance")
    surface, volume = 2 * (long * wide + long * high + wide * high), long * wide * high
    area = surface * alpha
    bearing = area if given.word("form") == "plain" else room_constant_m2(surface, alpha)
    power, first = _power(given)
    direct, back = direct_db(power, distance, spread), reverberant_db(power, bearing)
    values: dict[str, float | str] = {
        "level_there": room_level_db(power, distance, spread, bearing), "direct": direct, "reverberant": back,
        "reverberation": reverberation_s(volume, area), "absorption_area": area, "power_level": power,
        "even_at": math.sqrt(spread * bearing / (16 * math.pi)),
    }  # fmt: skip
    steps = (
        first,
        f"Surface {surface:.4g} m² × {alpha:.3g} = {area:.4g} m² of absorption.",
        f"0.161 × {volume:.5g} m³ / {area:.4g} m² = {values['reverberation']:.2f} s.",
        f"Straight from the machine {direct:.1f} dB, given back by the room {back:.1f} dB, together "
        f"{values['level_there']:.1f} dB.",
    )
    return Worked(values, steps, _warnings(alpha, long, wide, high), _compared(distance, float(values["even_at"])))


def _compared(distance: float, even_m: float) -> str:
    if distance < even_m:
        return f"Here you hear the machine; beyond {even_m:.1f} m you hear the room."
    return f"Beyond {even_m:.1f} m you hear the room more than the machine: stepping back helps little."


def _warnings(alpha: float, *sides: float) -> tuple[str, ...]:
    told = []
    if alpha > DIFFUSE_UP_TO:
        told.append(f"Sabine's sums hold for a mean absorption up to about {DIFFUSE_UP_TO:g}. This room is drier.")
    if max(sides) > 5 * min(sides):
        told.append("A room more than five times as long as it is high or wide is not evenly filled with sound.")
    return tuple(told)


ROOM_SOUND = Reckoner(
    name="hazard/room-sound",
    title="A machine in a room",
    about="The level in a room, how much of it the walls give back, and how long the room rings.",
    inputs=(
        number("level", "Level in the open, dB(A)", "dB", 30, 160, "95 dB if nothing is given.", optional=True),
        number("at", "Measured at", "m", 0.1, 100, "From the machine.", default="1 m"),
        number("power", "Or its sound power level", "dB", 30, 180, "If the maker gives it.", optional=True),
        number("distance", "Distance asked for", "m", 0.1, 200, "From the machine.", default="3 m"),
        choice("place", "The machine stands", PLACES, "Walls near it throw its sound forward.", default="2"),
        number("length", "Length of the room", "m", 1, 500, "Inside.", default="12 m"),
        number("width", "Width of the room", "m", 1, 500, "Inside.", default="8 m"),
        number("height", "Height of the room", "m", 1, 100, "Inside.", default="4 m"),
        number("absorption", "Mean absorption", "fraction", 0.01, 0.9, "Bare brick and plaster take in a few per cent.",
               default="0.08", sound=(0.01, 0.3)),
        choice("form", "Form of the sum", {"plain": "with A, the absorption", "fuller": "with R = A / (1 − α)"},
               "They part as the room grows drier.", default="plain"),
    ),
    outputs=(
        Output("level_there", "Level there", "dB", 1),
        Output("direct", "Straight from the machine", "dB", 1),
        Output("reverberant", "Given back by the room", "dB", 1),
        Output("reverberation", "Time to fall by 60 dB", "s", 2),
        Output("absorption_area", "Absorption", "m²", 1),
        Output("even_at", "Both are alike at", "m", 1),
        Output("power_level", "Sound power level", "dB", 1),
    ),
    formula="level = power + 10 lg (Q / (4π × distance²) + 4 / A); time = 0.161 × volume / A",
    work=_work,
    sources=("sabine", "bies-hansen"),
    good_for=("A room evenly filled with sound: mean absorption up to about 0.2 to 0.3, not too long or low.",),
    caution=NOISE_CAUTION,
)  # fmt: skip
