"""Two trainings side by side, as people told them. No learning curve is invented: what was told is all there is."""

from __future__ import annotations

from archive.reckoners.shape import Given, Output, Reckoner, Worked, number

WEEKS_A_YEAR = 365.25 / 7


def times_as_long(longer_weeks: float, shorter_weeks: float) -> float:
    """How many times the shorter goes into the longer: longer / shorter, both in weeks."""
    return longer_weeks / shorter_weeks


def _work(given: Given) -> Worked:
    shorter, longer = given.number("shorter"), given.number("longer")
    ratio, years = times_as_long(longer, shorter), longer / WEEKS_A_YEAR
    steps = (
        f"{longer:.1f} weeks is {years:.1f} years, of 52.18 weeks each.",
        f"{longer:.1f} / {shorter:g} = {ratio:,.0f} times as long.",
    )
    return Worked({"ratio": ratio, "years": years}, steps)


TRAINING = Reckoner(
    name="output/training",
    title="Two trainings side by side",
    about="How many times as long one training was as another, from what people told.",
    inputs=(
        number("shorter", "The shorter training", "week", 0.1, 520, "As told: a week and a half for a press hand."),
        number("longer", "The longer training", "week", 0.1, 1040, "As told: 7 years for a die sinker."),
    ),
    outputs=(
        Output("ratio", "Times as long", "times", 0),
        Output("years", "The longer, in years", "year", 1),
    ),
    formula="times as long = longer / shorter",
    work=_work,
    sources=("arithmetic", "trade"),
    good_for=(
        "The length of a training as told, and nothing more: it does not say how much skill the work asked,"
        " nor how fast anyone learned it.",
    ),
)
