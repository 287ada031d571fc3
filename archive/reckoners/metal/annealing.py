"""Annealing: the window of heat, where the metal begins to go soft, its colour, and how it may be cooled."""

from __future__ import annotations

from archive.reckoners.metal.alloys import Alloy, Cell, alloys, alloys_with
from archive.reckoners.metal.colours import HEAT, SEEN
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, words

ZERO_C_IN_K = 273.15
COOLING = {
    "copper": "water or air: it is as soft either way, and water sheds the scale",
    "brass": "water or air: it is as soft either way, and water sheds the scale",
    "silver": "quench it: sterling left to cool slowly may harden again a little",
}


def recrystallises_c(solidus_c: float) -> tuple[float, float]:
    """Where cold-worked metal begins to go soft, as a rule of thumb: 0.3 to 0.5 of the melting point in kelvins.

    Source: Callister, Materials Science and Engineering (from memory). Pure metals lie low in it, alloys high.
    """
    melting_k = solidus_c + ZERO_C_IN_K
    return 0.3 * melting_k - ZERO_C_IN_K, 0.5 * melting_k - ZERO_C_IN_K


def verdict(alloy: Alloy, window: Cell, heat_c: float) -> str:
    """What a heat does to an alloy."""
    solidus = alloy.first("solidus")
    if solidus and heat_c >= min(cell.low for cell in alloy.every("solidus")):
        return "it begins to melt"
    high = window.high if window.high is not None else window.low
    if heat_c > high:
        return "above the window: soft, but the grain grows and the surface may come out like orange peel"
    return "below the window: it stays hard, or softens only in part" if heat_c < window.low else "within the window"


def _work(given: Given) -> Worked:
    alloy, heat = alloys()[given.word("alloy")], given.maybe("temperature")
    window = alloy.every("anneal")[0]
    chart = next(chart for chart in HEAT if chart.key == given.word("chart"))
    high = window.high if window.high is not None else window.low
    values: dict[str, float | str] = {"anneal_from": window.low, "anneal_to": high}
    values |= {"colour_from": chart.colour(window.low), "colour_to": chart.colour(high)}
    steps = [
        f"The table gives {window} for {alloy.name}.",
        f"By {chart.name}: {values['colour_from']} at {window.low:.0f} °C, {values['colour_to']} at {high:.0f} °C.",
    ]
    if solidus := alloy.first("solidus"):
        low_c, high_c = recrystallises_c(solidus.low)
        values |= {"softens_from": low_c, "softens_to": high_c}
        steps.append(
            f"0.3 to 0.5 × ({solidus.low:g} + 273) K = {low_c:.0f} to {high_c:.0f} °C, where it may begin to go soft."
        )
    if heat is not None:
        values["verdict"] = verdict(alloy, window, heat)
        steps.append(f"At {heat:.0f} °C: {values['verdict']}.")
    if alloy.family in COOLING:
        values["cooling"] = COOLING[alloy.family]
    return Worked(values, tuple(steps), _warnings(window, heat, values), sources=(window.source, chart.key))


def _warnings(window: Cell, heat: float | None, values: dict[str, float | str]) -> tuple[str, ...]:
    told = [f"{SEEN} The charts themselves differ by some 150 °C."]
    if window.source == "wgc-memory":
        told.append("The heat for carat gold is recalled with little certainty.")
    if heat is not None and values["verdict"] != "within the window":
        told.append(f"{heat:.0f} °C is not in the window: {values['verdict']}.")
    return tuple(told)


ANNEAL_WINDOW = Reckoner(
    name="metal/anneal-window",
    title="Annealing",
    about="The heats between which a metal is made soft again, and the colour they are seen by.",
    inputs=(
        choice("alloy", "Alloy", alloys_with("anneal"), "One whose annealing heats a source gives.", default="C22000"),
        number("temperature", "A heat to try", "°C", 20, 1200, "What would this heat do to it.", optional=True),
        choice("chart", "Chart of colours", {chart.key: chart.name for chart in HEAT},
               "The charts disagree, so one is named.", default="chapman"),
    ),
    outputs=(
        Output("anneal_from", "Anneal from", "°C", 0),
        Output("anneal_to", "Anneal to", "°C", 0),
        words("colour_from", "Colour at the lower heat"),
        words("colour_to", "Colour at the upper heat"),
        Output("softens_from", "May begin to go soft from", "°C", 0),
        Output("softens_to", "May begin to go soft by", "°C", 0),
        words("verdict", "At the heat you gave"),
        words("cooling", "Cooling"),
    ),
    formula="the window is looked up; it may begin to go soft at 0.3 to 0.5 of its melting point in kelvins",
    work=_work,
    sources=("callister-memory", "sterling-ageing", "trade"),
    good_for=(
        "Metal worked cold by a fifth or more. The lower end needs longer than the upper.",
        "The rule of 0.3 to 0.5 is for pure metals and simple alloys; the window of the table comes before it.",
    ),
)  # fmt: skip
