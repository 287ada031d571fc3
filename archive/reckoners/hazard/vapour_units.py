"""Parts in a million and milligrams in a cubic metre of a vapour."""

from __future__ import annotations

from archive.reckoners.hazard.air_limits import limits, mg_per_m3, vapours
from archive.reckoners.hazard.cautions import AIR_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number

_NAMES = {limit.substance: limit.name for limit in limits().values() if limit.molar_mass}


def _work(given: Given) -> Worked:
    substance, parts = given.word("substance"), given.number("parts")
    mass = vapours()[substance]
    found = mg_per_m3(parts, mass)
    step = f"{parts:g} ppm × {mass:g} g/mol / 24.05526 L/mol = {found:.3g} mg/m³."
    told = ("Do not turn a limit this way: for hydrogen chloride 1 ppm comes to 1.52 mg/m³, but EH40 prints 2.",)
    return Worked({"weight": found}, (step,), told)


VAPOUR_UNITS = Reckoner(
    name="hazard/vapour-units",
    title="Parts in a million as weight in air",
    about="What a level of a vapour in parts in a million weighs in a cubic metre of air.",
    inputs=(
        choice("substance", "Substance", _NAMES, "One with a molar mass in the table.", default="hydrogen-cyanide"),
        number("parts", "Level", "ppm", 0, 1e6, "Parts in a million by volume.", default="0.9 ppm"),
    ),
    outputs=(Output("weight", "In a cubic metre", "mg/m³", 2),),
    formula="mg/m³ = ppm × molar mass / 24.05526 L/mol",
    work=_work,
    sources=("molar-volume", "iupac"),
    good_for=("A gas or vapour at 20 °C and 101.3 kPa. Not for dust, mist or fume.",),
    caution=AIR_CAUTION,
)
