"""How long at a level before each rule is reached."""

from __future__ import annotations

from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.noise_law import CANADA, LIMIT, LOWER, NIOSH, OSHA, UPPER, points, time_told
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number

_RULES = {"lower": LOWER, "upper": UPPER, "limit": LIMIT, "niosh": NIOSH, "canada": CANADA, "osha": OSHA}
OSHA_CEILING_DB = 115.0


def voice_told(level_db: float) -> str:
    """How the level is known without a meter. Source: HSE, L108, simple screening, as quoted."""
    if level_db >= 90:
        return "You must shout to be heard at 1 m."
    if level_db >= 85:
        return "You must shout to be heard at 2 m."
    return "You can talk, but the noise intrudes." if level_db >= 80 else "You can talk."


def _work(given: Given) -> Worked:
    level = given.number("level")
    times = {key: rule.hours_allowed(level) for key, rule in _RULES.items()}
    values: dict[str, float | str] = {key: hours * 60 for key, hours in times.items()}
    values["points_an_hour"] = points(level, 1)
    steps = tuple(f"{rule.name}: {time_told(times[key])} at {level:g} dB(A)." for key, rule in _RULES.items())
    warnings = [f"{_RULES[key].name} is not reached in a day." for key in times if times[key] > 24]
    if level > OSHA_CEILING_DB:
        warnings.append("OSHA allows no time at all above 115 dB(A).")
    return Worked(values, steps, tuple(warnings), voice_told(level))


NOISE_TIME = Reckoner(
    name="hazard/noise-time",
    title="How long at a level",
    about="How long one can be at a level before each rule's action value or limit is reached.",
    inputs=(
        number("level", "Level, dB(A)", "dB", 70, 130, "LAeq while it lasts.", default="95 dB", sound=(80, 115)),
    ),
    outputs=(
        Output("lower", LOWER.name, "min", 1),
        Output("upper", UPPER.name, "min", 1),
        Output("limit", LIMIT.name, "min", 1),
        Output("niosh", NIOSH.name, "min", 1),
        Output("canada", CANADA.name, "min", 1),
        Output("osha", OSHA.name, "min", 1),
        Output("points_an_hour", "Points for each hour", "points", 1),
    ),
    formula="time = 8 h / 2^((level − criterion) / exchange); the UK halves the time for each 3.01 dB",
    work=_work,
    sources=("noise-regulations", "niosh-98-126", "canada-noise", "osha-1910-95", "hse-screening"),
    good_for=("One steady level. Each rule counts in its own way, so their times cannot be added up.",),
    caution=NOISE_CAUTION,
)  # fmt: skip
