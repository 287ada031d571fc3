"""How much scale a pickle can take up before its acid is spent."""

from __future__ import annotations

from archive.reckoners.finish.acid import acid_for_oxide_g, sulphate_of_oxide_g
from archive.reckoners.finish.cautions import ACID_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number

# g/cm³, a handbook figure from memory.
COPPER_OXIDE_DENSITY = 6.31


def oxide_taken_g(acid_g: float) -> float:
    """Copper oxide that so much acid takes up: 79.545 g for each 98.079 g."""
    return acid_g / acid_for_oxide_g(1.0)


def scale_weight_g(area_cm2: float, thickness_um: float) -> float:
    """Weight of a film of copper oxide: area × thickness × 6.31 g/cm³."""
    return area_cm2 * thickness_um * 1e-4 * COPPER_OXIDE_DENSITY


def _work(given: Given) -> Worked:
    volume, held, share = given.number("volume"), given.number("strength"), given.number("spent")
    oxide = given.number("oxide")
    acid = volume * held * share / 100
    capacity = oxide_taken_g(acid)
    needed, made = acid_for_oxide_g(oxide), sulphate_of_oxide_g(oxide)
    values: dict[str, float | str] = {"capacity": capacity, "acid_needed": needed, "sulphate": made}
    steps = [
        "CuO + H₂SO₄ → CuSO₄ + H₂O: 79.545 g of oxide takes 98.079 g of acid and makes 159.609 g of sulphate.",
        f"{volume:g} L × {held:g} g/L × {share:g} % = {acid:,.1f} g of acid to spend: {capacity:,.1f} g of oxide.",
        f"{oxide:g} g of oxide takes {needed:.3f} g of acid and makes {made:.3f} g of copper sulphate.",
    ]
    film = given.maybe("scale")
    if film is not None:
        area = capacity / scale_weight_g(1.0, film)
        values["area"] = area / 1e4
        steps.append(f"At {film:g} µm of scale that is {area / 1e4:,.1f} m² of work.")
    compare = "The blue of an old pickle is the copper that it has taken up."
    return Worked(values, tuple(steps), ("A pickle slows long before its acid is spent.",), compare)


PICKLE_OXIDE = Reckoner(
    name="finish/pickle-oxide",
    title="What a pickle can take up",
    about="How much copper scale a bath of sulphuric acid dissolves, and what it makes of it.",
    inputs=(
        number("volume", "Pickle in the bath", "L", 0.01, 5000, "How much there is.", default="10 L"),
        number("strength", "Acid in it", "g/L", 0.1, 400, "10 % by weight is 106.6 g/L.", default="106.6 g/L"),
        number("spent", "Share of the acid to spend", "%", 1, 100, "Baths are thrown away before all of it is gone.",
               default="100 %"),
        number("oxide", "Scale on the work", "g", 0.001, 1e6, "Black copper oxide.", default="1 g"),
        number("scale", "Thickness of the scale", "µm", 0.01, 500, "For the area that the bath cleans.",
               optional=True),
    ),
    outputs=(
        Output("capacity", "Scale that the bath can take up", "g", 0),
        Output("acid_needed", "Acid for the scale on the work", "g", 3),
        Output("sulphate", "Copper sulphate made of it", "g", 3),
        Output("area", "Area that the bath cleans", "m²", 1),
    ),
    formula="CuO + H₂SO₄ → CuSO₄ + H₂O; acid = oxide × 98.079 / 79.545",
    work=_work,
    sources=("iupac",),
    good_for=("Black copper oxide. Red oxide and metal dissolve otherwise, and zinc takes acid too.",),
    caution=ACID_CAUTION,
)  # fmt: skip
