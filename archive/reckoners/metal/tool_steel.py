"""Hardening and tempering of plain carbon tool steel (W1), with the temper colours."""

from __future__ import annotations

from archive.reckoners.metal.colours import SEEN, TEMPER, colours_at, output_key
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, words

HARDEN_FROM_C, HARDEN_TO_C = 760.0, 845.0
TEMPER_FROM_C, TEMPER_TO_C = 175.0, 345.0
HARDEST_HRC, SOFTEST_HRC = 64.0, 50.0
CORE_STAYS_SOFT_BEYOND_MM = 13.0


def hardening_told(heat_c: float) -> str:
    """What a heat before the quench does. Source: Heat Treater's Guide, W1 (from memory)."""
    if heat_c < HARDEN_FROM_C:
        return "too cold: it does not harden fully"
    return "too hot: coarse grain, brittle, may crack" if heat_c > HARDEN_TO_C else "right: quench in water or brine"


def _work(given: Given) -> Worked:
    harden, temper, thickness = given.number("harden"), given.number("temper"), given.maybe("thickness")
    values: dict[str, float | str] = {"hardening": hardening_told(harden), **colours_at(TEMPER, temper)}
    steps = [
        f"Hardening at {harden:.0f} °C, allowed {HARDEN_FROM_C:.0f} to {HARDEN_TO_C:.0f} °C: {values['hardening']}.",
        f"Tempering at {temper:.0f} °C: "
        + "; ".join(f"{chart.name}, {chart.colour(temper)}" for chart in TEMPER)
        + ".",
    ]
    warnings = [f"The colour depends on time too: held long, a lower heat goes past straw. {SEEN}"]
    if TEMPER_FROM_C <= temper <= TEMPER_TO_C and HARDEN_FROM_C <= harden <= HARDEN_TO_C:
        values |= {"hardness_from": SOFTEST_HRC, "hardness_to": HARDEST_HRC}
        steps.append(
            f"Over the whole tempering range, {TEMPER_FROM_C:.0f} to {TEMPER_TO_C:.0f} °C, hardness goes down from "
            f"{HARDEST_HRC:.0f} to {SOFTEST_HRC:.0f} HRC. No source here gives it heat by heat."
        )
    if thickness is not None and thickness > CORE_STAYS_SOFT_BEYOND_MM:
        warnings.append(
            f"Thicker than about {CORE_STAYS_SOFT_BEYOND_MM:.0f} mm only a case hardens; the core stays soft."
        )
    return Worked(
        values, tuple(steps), tuple(warnings), "A die is made hard as glass, then let down until it is tough."
    )


TOOL_STEEL = Reckoner(
    name="metal/tool-steel",
    title="Hardening and tempering tool steel",
    about="Whether a die steel was hardened at the right heat, and the colour it was let down to.",
    inputs=(
        number("harden", "Heat before the quench", "°C", 500, 1200, "Cherry or so; see the colour of hot metal.",
               default="800 °C", sound=(HARDEN_FROM_C, HARDEN_TO_C)),
        number("temper", "Heat it is let down to", "°C", 100, 400, "After the quench, on a bright place.",
               default="460 °F", sound=(TEMPER_FROM_C, TEMPER_TO_C)),
        number("thickness", "Thickness", "mm", 0.1, 500, "The thickness of the piece, for how deep it hardens.",
               optional=True),
    ),
    outputs=(
        words("hardening", "Hardening heat"),
        *(words(output_key(chart), f"Temper colour, {chart.name}") for chart in TEMPER),
        Output("hardness_from", "Hardness within the tempering range, from", "HRC", 0),
        Output("hardness_to", "Hardness within the tempering range, to", "HRC", 0),
    ),
    formula="looked up: W1 hardens from 760 to 845 °C and is tempered from 175 to 345 °C",
    work=_work,
    sources=("asm-w1", "azom-6144", "colvin-juthe", "butt", "workshop-colours"),
    good_for=("Plain carbon tool steel, 0.70 to 1.50 % carbon (W1), quenched in water. Not alloy tool steels.",),
)  # fmt: skip
