"""Density of an alloy by ideal mixing, with the error that this is known to make."""

from __future__ import annotations

from collections.abc import Mapping

from archive.reckoners.metal.alloys import Alloy, alloys, alloys_with
from archive.reckoners.metal.composition import ELEMENTS, composition_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, refuse, text

# g/cm³ at 20 °C.
ELEMENT_DENSITY_G_PER_CM3 = {"Au": 19.30, "Ag": 10.49, "Cu": 8.96, "Zn": 7.14, "Ni": 8.90, "Sn": 7.29}
ZINC_WARNING = (
    "Ideal mixing comes out too low for alloys with zinc: by 0.7 % for 90/10, 1.4 % for 85/15 and 2.4 % for 70/30 "
    "brass, and more with more zinc. Use the handbook density for the weight of brass."
)


def ideal_mixing_density_g_per_cm3(parts_percent: Mapping[str, float]) -> float:
    """Density if the metals kept their own volumes: 1/rho = sum of w_i / rho_i.

    Parts in per cent by weight; g/cm³. Within 0.1 % for silver-copper and gold-silver-copper; too low with zinc.
    Source: conservation of mass and volume; element densities from a handbook (from memory).
    """
    return 1 / sum(share / 100 / ELEMENT_DENSITY_G_PER_CM3[element] for element, share in parts_percent.items())


def _parts_given(given: Given) -> tuple[dict[str, float], Alloy | None]:
    written, key = given.word("composition"), given.word("alloy")
    if bool(written) == bool(key):
        found = "Both are given" if written else "Neither an alloy nor a composition is given"
        raise refuse("alloy", found, "Choose an alloy, or write a composition")
    if written:
        return composition_written(written, "composition"), None
    return alloys()[key].mix, alloys()[key]


def _work(given: Given) -> Worked:
    parts, alloy = _parts_given(given)
    density = ideal_mixing_density_g_per_cm3(parts)
    told = " + ".join(f"{share / 100:.4g}/{ELEMENT_DENSITY_G_PER_CM3[element]:g}" for element, share in parts.items())
    named = ", ".join(f"{share:.4g} % {ELEMENTS[element]}" for element, share in parts.items())
    values: dict[str, float | str] = {"density": density}
    steps = [f"By weight: {named}.", f"1 / ({told}) = {density:.3f} g/cm³."]
    handbook = alloy.first("density") if alloy else None
    if handbook:
        values |= {"handbook": handbook.low, "error": 100 * (density / handbook.low - 1)}
        steps.append(f"The handbook gives {handbook}: ideal mixing is {values['error']:+.1f} % off.")
    warnings = (ZINC_WARNING,) if "Zn" in parts else ()
    compare = f"A cube of 1 cm each way weighs {density:.1f} g; the same cube of water weighs 1 g."
    return Worked(values, tuple(steps), warnings, compare, (handbook.source,) if handbook else ())


DENSITY = Reckoner(
    name="metal/density",
    title="Density by ideal mixing",
    about="How heavy an alloy is for its size, from what it is made of.",
    inputs=(
        choice(
            "alloy",
            "Alloy",
            {k: n for k, n in alloys_with("mix").items() if k != "pewter"},
            "An alloy of the table.",
            optional=True,
        ),
        text("composition", "Or its composition", "Per cent by weight, such as: Cu 90, Zn 10.", optional=True),
    ),
    outputs=(
        Output("density", "Density by ideal mixing", "g/cm³", 2),
        Output("handbook", "Density in the handbook", "g/cm³", 2),
        Output("error", "Error of ideal mixing", "%", 1),
    ),
    formula="1 / density = sum of (share by weight / density of the element)",
    work=_work,
    sources=("element-densities", "arithmetic"),
    good_for=(
        "Silver-copper and gold-silver-copper alloys, within about 0.1 %.",
        "Not for the weight of brass or nickel silver: it is 0.7 to 3.8 % too low.",
    ),
)
