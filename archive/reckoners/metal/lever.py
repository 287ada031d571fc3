"""The lever rule: how much of each phase an alloy holds, in silver-copper and in copper-zinc."""

from __future__ import annotations

from dataclasses import dataclass

from archive.errors import OutOfRange
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, words


@dataclass(frozen=True)
class Eutectic:
    """Silver-copper at its eutectic: per cent copper by weight of the silver, the liquid and the copper."""

    source: str
    temperature_c: float
    silver_cu: float
    liquid_cu: float
    copper_cu: float


SETS = {
    "NIST": Eutectic("nist-ag-cu", 779.1, 8.27, 28.41, 92.53),
    "textbook": Eutectic("callister-ag-cu", 779.0, 8.8, 28.1, 92.0),
}
# Copper-zinc: (temperature °C, per cent zinc) along the two boundaries, straight between.
ALPHA_LIMIT = ((250.0, 35.2), (454.0, 39.0), (600.0, 36.9), (902.0, 32.5))
BETA_LIMIT = ((600.0, 44.1), (903.0, 36.8))
LEVER_FROM_C, LEVER_TO_C = 600.0, 902.0


def lever_fraction(whole: float, near: float, far: float) -> float:
    """Share of the phase at `near` in an alloy of composition `whole`: (far - whole) / (far - near), by weight."""
    return (far - whole) / (far - near)


def along(line: tuple[tuple[float, float], ...], at: float) -> float:
    """The value on straight lines between points; `at` must lie within them."""
    for (x0, y0), (x1, y1) in zip(line, line[1:], strict=False):
        if x0 <= at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    raise OutOfRange(f"{at:g} lies beyond the points held here, {line[0][0]:g} to {line[-1][0]:g}.")


def _share(value: float) -> float:
    return 100 * min(1.0, max(0.0, value))


def _silver_copper(given: Given) -> Worked:
    copper, held = given.number("copper"), SETS[given.word("figures")]
    silver_total = _share(lever_fraction(copper, held.silver_cu, held.copper_cu))
    if copper <= held.silver_cu or copper >= held.copper_cu:
        phase = "silver" if copper <= held.silver_cu else "copper"
        step = (
            f"{copper:g} % copper lies outside {held.silver_cu:g} to {held.copper_cu:g} %, so in balance it is all "
            f"one solid, rich in {phase}, with no eutectic."
        )
        return _told(held, copper, 100.0, 0.0, silver_total, phase, (step,))
    phase, near = ("silver", held.silver_cu) if copper <= held.liquid_cu else ("copper", held.copper_cu)
    primary = _share(lever_fraction(copper, near, held.liquid_cu))
    steps = (
        f"First to freeze is {phase}: ({held.liquid_cu:g} − {copper:g}) / ({held.liquid_cu:g} − {near:g}) "
        f"= {primary:.1f} %; the rest, {100 - primary:.1f} %, is eutectic.",
        f"All the silver-rich solid: ({held.copper_cu:g} − {copper:g}) / ({held.copper_cu:g} − {held.silver_cu:g}) "
        f"= {silver_total:.1f} %.",
    )
    return _told(held, copper, primary, 100 - primary, silver_total, phase, steps)


def _told(
    held: Eutectic, copper: float, primary: float, eutectic: float, silver: float, phase: str, steps: tuple[str, ...]
) -> Worked:
    values: dict[str, float | str] = {
        "primary_phase": f"rich in {phase}",
        "primary": primary,
        "eutectic": eutectic,
        "silver_solid": silver,
        "copper_solid": 100 - silver,
    }
    first = f"Just below {held.temperature_c:g} °C, with {copper:g} % copper and {100 - copper:g} % silver:"
    compare = f"Of every 10 g, {silver / 10:.1f} g is the silver-rich solid."
    return Worked(values, (first, *steps), compare=compare, sources=(held.source,))


SILVER_COPPER = Reckoner(
    name="metal/lever-silver-copper",
    title="Silver and copper: the lever rule",
    about="What a silver-copper alloy is made of inside, just after the last of it has frozen slowly.",
    inputs=(
        number(
            "copper",
            "Copper",
            "%",
            0,
            100,
            "Copper in the alloy by weight; sterling silver has 7.5 %.",
            default="7.5 %",
        ),
        choice(
            "figures",
            "Whose figures",
            {"NIST": "NIST phase diagrams, 1986", "textbook": "a textbook of materials"},
            "The two sources differ by up to half a per cent; one set is used throughout.",
            default="NIST",
        ),
    ),
    outputs=(
        words("primary_phase", "First to freeze"),
        Output("primary", "Share of that first solid", "%", 1),
        Output("eutectic", "Share of eutectic", "%", 1),
        Output("silver_solid", "All silver-rich solid", "%", 1),
        Output("copper_solid", "All copper-rich solid", "%", 1),
    ),
    formula="share of one phase = (other end − whole) / (other end − its own end)",
    work=_silver_copper,
    sources=("nist-ag-cu", "callister-ag-cu"),
    good_for=(
        "Just below the eutectic heat, 779 °C, and cooled slowly enough to be in balance.",
        "Not for lower heats: how little copper cold silver holds could not be placed in a source.",
    ),
)


def _copper_zinc(given: Given) -> Worked:
    zinc, heat = given.number("zinc"), given.number("temperature")
    alpha = along(ALPHA_LIMIT, heat)
    if zinc <= alpha:
        step = f"At {heat:g} °C alpha holds up to {alpha:.1f} % zinc, so {zinc:g} % is all in it: one phase."
        return Worked({"alpha_limit": alpha, "alpha": 100.0, "beta": 0.0, "phases": "alpha"}, (step,))
    if not LEVER_FROM_C <= heat <= LEVER_TO_C:
        raise OutOfRange(
            f"At {heat:g} °C an alloy of {zinc:g} % zinc is more than alpha holds, {alpha:.1f} %, but the "
            f"limit of beta is held here only from {LEVER_FROM_C:g} to {LEVER_TO_C:g} °C. Give a heat in that range."
        )
    beta = along(BETA_LIMIT, heat)
    if zinc > beta:
        raise OutOfRange(
            f"At {heat:g} °C {zinc:g} % zinc is beyond the edge of alpha and beta, {beta:.1f} %. Give less zinc."
        )
    share = _share(lever_fraction(zinc, alpha, beta))
    step = f"({beta:.1f} − {zinc:g}) / ({beta:.1f} − {alpha:.1f}) = {share:.1f} % alpha, the rest beta."
    return Worked(
        {"alpha_limit": alpha, "beta_limit": beta, "alpha": share, "beta": 100 - share, "phases": "alpha and beta"},
        (f"At {heat:g} °C alpha holds {alpha:.1f} % zinc and beta {beta:.1f} %.", step),
        compare="Alpha brass rolls cold; beta is for hot stamping.",
    )


COPPER_ZINC = Reckoner(
    name="metal/lever-copper-zinc",
    title="Copper and zinc: the lever rule",
    about="How much alpha and how much beta a brass holds at a heat.",
    inputs=(
        number(
            "zinc",
            "Zinc",
            "%",
            0,
            50,
            "Zinc in the brass by weight; cartridge brass has 30 %.",
            default="40 %",
            sound=(0, 45),
        ),
        number(
            "temperature", "Heat", "°C", 250, 902, "The heat at which the brass has come to balance.", default="600 °C"
        ),
    ),
    outputs=(
        words("phases", "Phases"),
        Output("alpha", "Share of alpha", "%", 1),
        Output("beta", "Share of beta", "%", 1),
        Output("alpha_limit", "Zinc that alpha holds", "%", 1),
        Output("beta_limit", "Zinc in the beta beside it", "%", 1),
    ),
    formula="share of alpha = (zinc of beta − zinc of the alloy) / (zinc of beta − zinc of alpha)",
    work=_copper_zinc,
    sources=("higgins", "asm-cu-zn", "brass-600"),
    good_for=(
        "Pure copper and zinc, in balance. The boundaries are drawn straight between the published points.",
        "Mixed alpha and beta only from 600 to 902 °C. Below about 450 °C brass hardly comes to balance at all.",
    ),
)
