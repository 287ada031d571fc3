"""Making up a pickle from strong acid: how much acid, how much water, and which is poured into which."""

from __future__ import annotations

from archive.reckoners.finish.acid import STRONGEST_PICKLE_PERCENT, density_g_per_cm3
from archive.reckoners.finish.cautions import ACID_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, words

POUR = "the acid slowly into the water, stirring; never water into acid"


def acid_in_bath_g(volume_l: float, strength_percent: float) -> float:
    """Pure acid in a bath told by weight: 1000 V rho w / 100, the density by table."""
    return 1000 * volume_l * density_g_per_cm3(strength_percent) * strength_percent / 100


def strong_acid_ml(acid_g: float, stock_percent: float, stock_density: float) -> float:
    """Strong acid that holds so much pure acid: m / (w rho), rho in g/mL."""
    return acid_g / (stock_percent / 100 * stock_density)


def _work(given: Given) -> Worked:
    volume, strength, stock = given.number("volume"), given.number("strength"), given.number("stock")
    density = given.number("stock_density")
    if given.word("told_by") == "volume":
        strong = 1000 * volume * strength / 100
        acid, water = strong * density * stock / 100, 1000 * volume - strong
        steps: tuple[str, ...] = (
            f"{strength:g} % of {1000 * volume:,.0f} mL = {strong:,.1f} mL of strong acid, made up to the mark with "
            f"about {water:,.0f} mL of water.",
            f"In it: {strong:,.1f} mL × {density:g} × {stock:g} % = {acid:,.1f} g of acid.",
        )
    else:
        bath = density_g_per_cm3(strength)
        acid = acid_in_bath_g(volume, strength)
        strong = strong_acid_ml(acid, stock, density)
        water = 1000 * volume * bath - strong * density
        steps = (
            f"{1000 * volume:,.0f} mL × {bath:.3f} g/mL × {strength:g} % = {acid:,.1f} g of acid.",
            f"{acid:,.1f} g / ({stock:g} % × {density:g} g/mL) = {strong:,.1f} mL of strong acid.",
            f"{1000 * volume:,.0f} × {bath:.3f} − {strong:,.1f} × {density:g} = {water:,.0f} g of water.",
        )
    values: dict[str, float | str] = {
        "acid": strong, "water": water, "pure": acid, "in_each_litre": acid / volume, "pour": POUR,
    }  # fmt: skip
    compare = f"One part of strong acid by volume to about {water / strong:.0f} of water."
    return Worked(values, (*steps, f"Pour {POUR}."), _warnings(given), compare)


def _warnings(given: Given) -> tuple[str, ...]:
    told = ["Mixing gives off much heat. Volumes do not quite add up, so weigh, or make up to the mark when cool."]
    if given.word("told_by") == "volume":
        told.append("10 % by volume holds 1.66 times as much acid as 10 % by weight. Be sure which a recipe means.")
    return tuple(told)


PICKLE_DILUTION = Reckoner(
    name="finish/pickle-dilution",
    title="Making up a pickle",
    about="How much strong sulphuric acid goes into how much water.",
    inputs=(
        number("volume", "Pickle wanted", "L", 0.01, 5000, "The finished bath.", default="1 L"),
        number("strength", "Strength wanted", "%", 0.1, STRONGEST_PICKLE_PERCENT, "Of acid in the finished bath.",
               default="10 %"),
        choice("told_by", "Strength told by", {"weight": "grams of acid in 100 g of bath",
               "volume": "millilitres of strong acid in 100 mL of bath"}, "The two differ much.", default="weight"),
        number("stock", "Strength of the strong acid", "%", 30, 98, "By weight, from its label.", default="96 %"),
        number("stock_density", "Density of the strong acid", "g/cm³", 1.2, 1.85, "From its label.", default="1.84"),
    ),
    outputs=(
        words("pour", "Pour"),
        Output("acid", "Strong acid", "mL", 1),
        Output("water", "Water", "mL", 0),
        Output("pure", "Pure acid in it", "g", 1),
        Output("in_each_litre", "Which is", "g/L", 1),
    ),
    formula="acid = volume × density of the bath × strength; strong acid = acid / (its strength × its density)",
    work=_work,
    sources=("acid-density", "iupac"),
    good_for=("Sulphuric acid at 20 °C, up to 30 % by weight. A gram of water is taken as a millilitre.",),
    caution=ACID_CAUTION,
)  # fmt: skip
