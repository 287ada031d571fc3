"""A day's noise: the exposure, points, and how the rules of several countries count it."""

from __future__ import annotations

from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.noise_law import (
    CANADA,
    LIMIT_DB,
    METERS_DB,
    NIOSH,
    OSHA,
    PEAKS_DB,
    daily_exposure_db,
    energy_mean_db,
    osha_average_db,
    points,
    standing_told,
    task_uncertainty_db,
    time_told,
)
from archive.reckoners.hazard.spells import Spell, spells_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse, text, words

_HOW = "Write levels with their times: 100 dB 4 h; 85 dB 30 min. Samples of one task: 80.1/82.2/79.6 dB 5 h"


def _work(given: Given) -> Worked:
    written = spells_written(given.word("tasks"), "tasks", ("dB",), 40.0, 140.0, _HOW)
    if not any(spell.hours for spell in written):
        raise refuse("tasks", "No time is given", _HOW)
    spells = [(energy_mean_db(spell.figures), spell.hours) for spell in written]
    exposure = daily_exposure_db(spells)
    niosh, osha = NIOSH.dose_percent(spells), OSHA.dose_percent(spells)
    values: dict[str, float | str] = {
        "exposure": exposure, "points": sum(points(*spell) for spell in spells), "standing": standing_told(exposure),
        "niosh": niosh, "canada": CANADA.dose_percent(spells), "osha": osha,
    }  # fmt: skip
    if osha:
        values["osha_average"] = osha_average_db(osha)
    steps = (
        *(_spell_told(spell, level) for spell, (level, _) in zip(written, spells, strict=True)),
        f"10 lg of the sum of time × 10^(level / 10), over 8 h: {exposure:.1f} dB(A) as a day of eight hours.",
        f"NIOSH {niosh:.0f} %, Canada {values['canada']:.0f} %, OSHA {osha:.0f} % of a day's allowance.",
    )
    peak_told = _peak(given)
    if any(len(spell.figures) > 1 for spell in written):
        meter = METERS_DB[given.word("meter")]
        values["uncertainty"] = task_uncertainty_db([(spell.figures, spell.hours) for spell in written], meter)
    compare = (
        f"{exposure:.0f} dB(A) all day is {10 ** ((exposure - 80) / 10):,.1f} times the noise of 80 dB(A) all day."
    )
    return Worked(values, steps, (*_warnings(exposure), *peak_told), compare)


def _spell_told(spell: Spell, level: float) -> str:
    samples = f" (the mean by energy of {len(spell.figures)} samples)" if len(spell.figures) > 1 else ""
    return f"{level:.1f} dB{samples} for {time_told(spell.hours)}: {points(level, spell.hours):.1f} points."


def _warnings(exposure: float) -> tuple[str, ...]:
    if exposure < LIMIT_DB:
        return ()
    return (
        f"This is at or above the limit of {LIMIT_DB:g} dB(A), which holds at the ear. Protectors count for the limit, "
        "never for the action values.",
    )


def _peak(given: Given) -> tuple[str, ...]:
    """Which peak values are reached."""
    peak = given.maybe("peak")
    reached = [name for name, level in PEAKS_DB.items() if peak is not None and peak >= level]
    if not reached:
        return ()
    names = {"lower": "lower action value", "upper": "upper action value", "limit": "limit"}
    return (f"A peak of {peak:g} dB(C) reaches the {names[reached[-1]]} of {PEAKS_DB[reached[-1]]:g} dB(C).",)


NOISE_DAY = Reckoner(
    name="hazard/noise-day",
    title="A day in the noise",
    about="What several loud spells come to as a day of eight hours, and how the rules of several countries count it.",
    inputs=(
        text("tasks", "Levels and times", "100 dB 4 h; 85 dB 30 min. Samples of one task: 80.1/82.2 dB 5 h.",
             default="95 dB 4 h"),
        number("peak", "Highest peak, dB(C)", "dB", 80, 194, "If it was measured.", optional=True),
        choice("meter", "Meter", {"class 1": "class 1 sound level meter", "class 2": "class 2 meter or dosimeter worn"},
               "For the uncertainty, where samples are given.", default="class 2"),
    ),
    outputs=(
        Output("exposure", "As a day of eight hours, dB(A)", "dB", 1),
        Output("uncertainty", "Uncertainty of it, from the samples (one-sided 95 %)", "dB", 1),
        Output("points", "Exposure points", "points", 0),
        words("standing", "By UK law"),
        Output("niosh", "NIOSH dose (85 dB, 3 dB)", "%", 0),
        Output("canada", "Canada, federal, dose (87 dB, 3 dB)", "%", 0),
        Output("osha", "OSHA dose (90 dB, 5 dB)", "%", 0),
        Output("osha_average", "OSHA average over eight hours, dB(A)", "dB", 1),
    ),
    formula="exposure = 10 lg (sum of time × 10^(level / 10) / 8 h); "
    "points = 100 × time / 8 h × 10^((level − 85) / 10)",
    work=_work,
    sources=("iso-9612", "iso-9612-meters", "noise-regulations", "noise-directive", "sound-advice", "niosh-98-126",
             "canada-noise", "osha-1910-95"),
    good_for=(
        "Levels are LAeq in dB(A) of each task. Uncertainty is told where samples are given, but not that of times.",
        "Points are exact; the printed ready-reckoners round them.",
    ),
    caution=NOISE_CAUTION,
)  # fmt: skip
