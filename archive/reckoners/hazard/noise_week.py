"""A week's noise from its days."""

from __future__ import annotations

from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.noise_law import points, standing_told, weekly_exposure_db
from archive.reckoners.hazard.spells import levels_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, refuse, text, words

_HOW = "Write the exposure of each day: 90; 85; 88; 80; 92"
_DAYS = 7


def _work(given: Given) -> Worked:
    days = levels_written(given.word("days"), "days", _HOW)
    if len(days) > _DAYS:
        raise refuse("days", f"There are {len(days)} days", "Give up to seven")
    week = weekly_exposure_db(days)
    total = sum(points(level, 8) for level in days)
    values: dict[str, float | str] = {"exposure": week, "points": total, "standing": standing_told(week)}
    steps = (
        *(f"{level:g} dB(A): {points(level, 8):.1f} points." for level in days),
        f"{total:.1f} points, divided by five days: {week:.1f} dB(A).",
    )
    told = (
        "A week may stand for a day only where noise varies much from day to day, and never to let a limit be passed.",
    )
    return Worked(values, steps, told, f"As five days of {week:.0f} dB(A) each.")


NOISE_WEEK = Reckoner(
    name="hazard/noise-week",
    title="A week in the noise",
    about="What days of unequal noise come to as a week.",
    inputs=(text("days", "Exposure of each day, dB(A)", "One a day, up to seven.", default="90; 90; 85; 80; 80"),),
    outputs=(
        Output("exposure", "Weekly exposure, dB(A)", "dB", 1),
        Output("points", "Points in the week", "points", 0),
        words("standing", "By UK law"),
    ),
    formula="exposure = 10 lg (sum of 10^(day / 10) / 5)",
    work=_work,
    sources=("noise-regulations-schedule", "hse-noise-week"),
    good_for=("The divisor is five, even for six or seven days. Points are exact; the printed table rounds them.",),
    caution=NOISE_CAUTION,
)  # fmt: skip
