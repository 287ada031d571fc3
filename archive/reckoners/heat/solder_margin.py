"""A solder against the metal it joins: how far it flows below the heat at which the metal begins to melt."""

from __future__ import annotations

from archive.reckoners.heat.solders import solder_names, solders
from archive.reckoners.metal.alloys import alloys, alloys_with
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse, words

LEAST_MARGIN_K, BETTER_MARGIN_K = 30.0, 50.0


def margin_k(parent_solidus_c: float, solder_liquidus_c: float) -> float:
    """How far the solder flows below the heat at which the parent begins to melt: solidus - liquidus, kelvins."""
    return parent_solidus_c - solder_liquidus_c


def margin_told(margin: float) -> str:
    """What a margin means at the bench: at least 30, better 50 (a rule of practice, recalled; no standard placed)."""
    if margin <= 0:
        return "none: the metal begins to melt before the solder flows"
    if margin < LEAST_MARGIN_K:
        return "narrow: it is done by those who can, with a soft flame and a quick eye"
    return "enough" if margin < BETTER_MARGIN_K else "comfortable"


def parent_solidus_c(key: str) -> tuple[float, float, tuple[str, ...]]:
    """Least and greatest solidus that sources give for an alloy, and the sources."""
    cells = alloys()[key].every("solidus")
    return min(cell.low for cell in cells), max(cell.low for cell in cells), tuple(cell.source for cell in cells)


def _parent(given: Given) -> tuple[str, float, float, tuple[str, ...]]:
    key, told = given.word("parent"), given.maybe("parent_solidus")
    if (told is None) == (not key):
        found = "Neither the metal nor its solidus is given" if not key else "Both are given"
        raise refuse("parent", found, "Choose the metal, or give the heat at which it begins to melt")
    if told is not None:
        return "the metal", told, told, ()
    return alloys()[key].name, *parent_solidus_c(key)


def _work(given: Given) -> Worked:
    name, low, high, sources = _parent(given)
    solder = solders()[given.word("solder")]
    least, most = margin_k(low, solder.liquidus_c), margin_k(high, solder.liquidus_c)
    values: dict[str, float | str] = {
        "flows": solder.liquidus_c, "parent_melts": low, "margin": least, "verdict": margin_told(least)
    }  # fmt: skip
    steps = [f"{name} begins to melt at {low:.0f} °C; {solder.name} flows at {solder.liquidus_c:.0f} °C.",
             f"{low:.0f} − {solder.liquidus_c:.0f} = {least:.0f} degrees: {values['verdict']}."]  # fmt: skip
    if most != least:
        values["margin_most"] = most
        steps.append(f"Another source gives {high:.0f} °C for {name}, which would be {most:.0f} degrees.")
    return Worked(values, tuple(steps), _warnings(least), sources=(solder.source, *sources))


def _warnings(margin: float) -> tuple[str, ...]:
    if margin >= LEAST_MARGIN_K:
        return ()
    if margin <= 0:
        return ("The metal would begin to melt before this solder flows. Choose one that flows lower.",)
    return (
        f"The margin is under {LEAST_MARGIN_K:g} degrees. The rule of practice is at least {LEAST_MARGIN_K:g}, better "
        f"{BETTER_MARGIN_K:g}; skilled hands work closer, and hard solder on sterling is done every day.",
    )


SOLDER_MARGIN = Reckoner(
    name="heat/solder-margin",
    title="Solder against the metal it joins",
    about="Whether a solder flows well before the metal itself begins to melt.",
    inputs=(
        choice("solder", "Solder", solder_names(), "The solder used.", default="hard"),
        choice("parent", "Metal to be joined", alloys_with("solidus"), "An alloy of the table.", optional=True),
        number("parent_solidus", "Or where it begins to melt", "°C", 100, 2000,
               "The solidus, if the metal is not in the table.", optional=True),
    ),
    outputs=(
        Output("flows", "The solder flows at", "°C", 0),
        Output("parent_melts", "The metal begins to melt at", "°C", 0),
        Output("margin", "Margin", "K", 0),
        Output("margin_most", "Margin by another source", "K", 0),
        words("verdict", "The margin is"),
    ),
    formula="margin = heat at which the metal begins to melt − heat at which the solder flows",
    work=_work,
    sources=("solder-margin", "brazing-gap"),
    good_for=(
        "A clean joint with flux and a gap of 0.05 to 0.15 mm. Melting figures of standards are for information only.",
        "Carat gold only where its solidus could be placed; most gold solders could not.",
    ),
)  # fmt: skip
