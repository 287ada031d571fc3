"""A weight in grams, troy, avoirdupois and hundredweights."""

from __future__ import annotations

from archive.reckoners.measures import convert
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, words

_TROY = (("oz t", 480), ("dwt", 24), ("gr", 1))
_AVOIRDUPOIS = (("ton", 20 * 112 * 16), ("cwt", 112 * 16), ("qr", 28 * 16), ("lb", 16), ("oz", 1))


def _in_parts(smallest: float, sizes: tuple[tuple[str, int], ...], decimals: int) -> str:
    """An amount of the smallest unit told in whole greater ones: "2 oz t 5 dwt 3.0 gr"."""
    left = round(smallest, decimals)
    told = []
    for symbol, size in sizes[:-1]:
        whole, left = divmod(left, size)
        if whole:
            told.append(f"{whole:,.0f} {symbol}")
    if round(left, decimals) or not told:
        told.append(f"{left:.{decimals}f} {sizes[-1][0]}")
    return " ".join(told)


def troy_told(mass_g: float) -> str:
    """Ounces troy, pennyweights and grains."""
    return _in_parts(convert(mass_g, "g", "gr"), _TROY, 1)


def avoirdupois_told(mass_g: float) -> str:
    """Long tons, hundredweights, quarters, pounds and ounces."""
    return _in_parts(convert(mass_g, "g", "oz"), _AVOIRDUPOIS, 2)


def _work(given: Given) -> Worked:
    mass = given.number("weight")
    values: dict[str, float | str] = {
        key: convert(mass, "g", symbol)
        for key, symbol in (("g", "g"), ("ozt", "oz t"), ("dwt", "dwt"), ("gr", "gr"), ("oz", "oz"), ("lb", "lb"))
    }
    values |= {"troy": troy_told(mass), "avoirdupois": avoirdupois_told(mass)}
    steps = (
        f"{mass:,.6g} g / 31.1034768 = {values['ozt']:,.5g} oz t = {values['troy']}.",
        f"{mass:,.6g} g / 28.349523125 = {values['oz']:,.5g} oz = {values['avoirdupois']}.",
    )
    return Worked(values, steps, compare="A troy ounce is a tenth heavier than a kitchen ounce.")


WEIGHT = Reckoner(
    name="units/weight",
    title="Weights",
    about="One weight in grams, in troy for silver and gold, and in avoirdupois for all else.",
    inputs=(
        number("weight", "Weight", "g", 0.001, 1e8, "Such as 2 oz t 5 dwt, 1 cwt 2 qr, 20 g. Plain oz is avoirdupois."),
    ),
    outputs=(
        Output("g", "Grams", "g", 4),
        words("troy", "Troy"),
        words("avoirdupois", "Avoirdupois"),
        Output("ozt", "Ounces troy", "oz t", 4),
        Output("dwt", "Pennyweights", "dwt", 3),
        Output("gr", "Grains", "gr", 2),
        Output("oz", "Ounces avoirdupois", "oz", 4),
        Output("lb", "Pounds avoirdupois", "lb", 4),
    ),
    formula="1 gr = 64.79891 mg; 24 gr = 1 dwt; 20 dwt = 1 oz t; 7,000 gr = 1 lb; 16 oz = 1 lb; 112 lb = 1 cwt",
    work=_work,
    sources=("weights-and-measures",),
    good_for=("Imperial weights by law. Tons and hundredweights are long ones.",),
)  # fmt: skip
