"""How a level falls with distance in the open."""

from __future__ import annotations

from archive.reckoners.hazard.acoustics import level_at_db, power_from_level_db
from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number

GROUND = {"floor": "on the floor or the ground", "air": "in mid air"}
DIRECTIVITY = {"air": 1.0, "floor": 2.0}


def _work(given: Given) -> Worked:
    level, first, second = given.number("level"), given.number("at"), given.number("distance")
    there = level_at_db(level, first, second)
    power = power_from_level_db(level, first, DIRECTIVITY[given.word("stands")])
    values: dict[str, float | str] = {"there": there, "change": there - level, "power": power}
    steps = (f"{level:g} − 20 lg ({second:g} / {first:g}) = {there:.1f} dB.",
             f"Sound power level of the source: {power:.1f} dB.")  # fmt: skip
    told = ("Indoors it falls less, because the room gives sound back. Use the sum for rooms.",)
    return Worked(values, steps, told, "Twice as far is 6 dB less; ten times as far is 20 dB less.")


SOUND_DISTANCE = Reckoner(
    name="hazard/sound-distance",
    title="Noise and distance",
    about="How much quieter it is further off, in the open.",
    inputs=(
        number("level", "Level", "dB", 30, 160, "At the first distance.", default="96 dB"),
        number("at", "Measured at", "m", 0.1, 1000, "From the machine.", default="3 m"),
        number("distance", "Distance asked for", "m", 0.1, 1000, "From the machine.", default="6 m"),
        choice("stands", "The machine stands", GROUND, "For its sound power.", default="floor"),
    ),
    outputs=(
        Output("there", "Level there", "dB", 1),
        Output("change", "Change", "dB", 1),
        Output("power", "Sound power level", "dB", 1),
    ),
    formula="level there = level − 20 lg (distance / measured at)",
    work=_work,
    sources=("bies-hansen",),
    good_for=("One small source in the open, further off than its own size; no walls, wind or screens.",),
    caution=NOISE_CAUTION,
)
