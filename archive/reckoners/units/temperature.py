"""A heat in degrees Celsius, degrees Fahrenheit and kelvins."""

from __future__ import annotations

from archive.reckoners.measures import convert
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number


def _work(given: Given) -> Worked:
    celsius = given.number("temperature")
    fahrenheit, kelvins = convert(celsius, "°C", "°F"), convert(celsius, "°C", "K")
    steps = (
        f"{celsius:.1f} °C × 9/5 + 32 = {fahrenheit:.1f} °F.",
        f"{celsius:.1f} °C + 273.15 = {kelvins:.2f} K.",
    )
    return Worked({"celsius": celsius, "fahrenheit": fahrenheit, "kelvins": kelvins}, steps)


TEMPERATURE = Reckoner(
    name="units/temperature",
    title="Heats",
    about="One heat in Celsius, Fahrenheit and kelvins.",
    inputs=(
        number("temperature", "Heat", "°C", -273.15, 5000, "Such as 430 °F or 750 °C."),
    ),
    outputs=(
        Output("celsius", "Celsius", "°C", 1),
        Output("fahrenheit", "Fahrenheit", "°F", 1),
        Output("kelvins", "Kelvins", "K", 2),
    ),
    formula="°F = °C × 9/5 + 32; K = °C + 273.15",
    work=_work,
    sources=("arithmetic", "colvin-juthe"),
    good_for=("Any heat above the absolute zero, −273.15 °C.",),
)  # fmt: skip
