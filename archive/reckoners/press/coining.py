"""The force to strike a design sharply into cold metal."""

from __future__ import annotations

from archive.reckoners.measures import STANDARD_GRAVITY_M_PER_S2
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number


def coining_force_n(area_mm2: float, strength_n_per_mm2: float, times_strength: float) -> float:
    """Force over the face: area × strength × factor, the factor up to 5 to 6.

    Source: Kalpakjian and Schmid, coining (from memory).
    """
    return area_mm2 * strength_n_per_mm2 * times_strength


def _work(given: Given) -> Worked:
    area, strength, times = given.number("area"), given.number("strength"), given.number("times")
    force = coining_force_n(area, strength, times) / 1000
    tonnes = force / STANDARD_GRAVITY_M_PER_S2
    step = f"{area:.4g} mm² × {strength:.4g} N/mm² × {times:.3g} = {force:,.1f} kN."
    compare = f"The weight of {tonnes:,.1f} tonnes resting on the face of the piece."
    return Worked({"force": force, "pressure": strength * times}, (step,), compare=compare)


COINING = Reckoner(
    name="press/coining",
    title="Force to strike a design",
    about="How hard cold metal must be pressed before it fills the die.",
    inputs=(
        number("area", "Area of the face", "mm²", 0.1, 1e6, "What the die covers.", default="300 mm²"),
        number("strength", "Strength of the metal", "N/mm²", 5, 2000, "Tensile strength in the temper it is struck in.",
               default="270 N/mm²"),
        number("times", "Pressure as a multiple of the strength", "times", 1, 6, "Sharp detail needs up to 5 to 6.",
               default="5 to 6"),
    ),
    outputs=(Output("force", "Force", "kN", 0), Output("pressure", "Pressure on the face", "N/mm²", 0)),
    formula="force = area × strength × multiple",
    work=_work,
    sources=("kalpakjian",),
    good_for=("A full, sharp impression in a closed die. A shallow one in an open die takes much less.",),
)  # fmt: skip
