"""Plating by Faraday's law: how thick, how long, how heavy."""

from __future__ import annotations

from dataclasses import dataclass

from archive.reckoners.finish.cautions import CYANIDE_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse


@dataclass(frozen=True)
class Plated:
    """A metal as it is plated: grams for each ampere-hour, and its density."""

    name: str
    g_per_ah: float
    density_g_per_cm3: float


# Grams an ampere-hour: tables of electrochemical equivalents. Densities: handbook, nickel 8.907.
METALS = {
    "silver": Plated("silver", 4.025, 10.49),
    "gold": Plated("gold, from cyanide (one charge)", 7.348, 19.32),
    "gold-3": Plated("gold, three charges", 2.449, 19.32),
    "copper": Plated("copper, from sulphate (two charges)", 1.186, 8.96),
    "copper-1": Plated("copper, from cyanide (one charge)", 2.37, 8.96),
    "nickel": Plated("nickel", 1.095, 8.907),
    "chromium": Plated("chromium (six charges)", 0.323, 7.18),
    "zinc": Plated("zinc", 1.219, 7.14),
}


def thickness_um(metal: Plated, density_a_per_dm2: float, hours: float, efficiency_share: float) -> float:
    """Thickness by Faraday's law: 100 q i t eta / rho, i = I / S. The efficiency multiplies; it never divides."""
    return 100 * metal.g_per_ah * density_a_per_dm2 * hours * efficiency_share / metal.density_g_per_cm3


def hours_for(metal: Plated, density_a_per_dm2: float, wanted_um: float, efficiency_share: float) -> float:
    """Hours to plate so thick."""
    return wanted_um / thickness_um(metal, density_a_per_dm2, 1.0, efficiency_share)


def deposit_g(metal: Plated, charge_ah: float, efficiency_share: float) -> float:
    """Metal laid down: q I t eta."""
    return metal.g_per_ah * charge_ah * efficiency_share


def _current_density(given: Given) -> tuple[float, tuple[str, ...]]:
    """The current on each square decimetre, however it was told."""
    told, current, area = given.maybe("current_density"), given.maybe("current"), given.maybe("area")
    if told is not None and current is not None:
        raise refuse("current", "Both the current and the current density are given", "Give one of them")
    if told is not None:
        return told, ()
    if current is None or area is None:
        raise refuse(
            "current_density" if current is None else "area",
            "There is no current density",
            "Give the current density, or both the current and the area",
        )
    density = current / area
    return density, (f"{current:g} A / {area:.4g} dm² = {density:.3g} A/dm².",)


def _work(given: Given) -> Worked:
    metal, share = METALS[given.word("metal")], given.number("efficiency") / 100
    time, wanted = given.maybe("time"), given.maybe("thickness")
    if (time is None) == (wanted is None):
        found = "Neither the time nor the thickness is given" if time is None else "Both are given"
        raise refuse("time", found, "Give the time, or the thickness wanted")
    density, first = _current_density(given)
    hours = time if time is not None else hours_for(metal, density, wanted or 0.0, share)
    thick = thickness_um(metal, density, hours, share)
    values: dict[str, float | str] = {"thick": thick, "took": hours * 60, "density_used": density}
    steps = [
        *first,
        f"100 × {metal.g_per_ah:g} g/Ah × {density:.3g} A/dm² × {hours:.4g} h × {share:g} / "
        f"{metal.density_g_per_cm3:g} g/cm³ = {thick:.2f} µm.",
    ]
    area = given.maybe("area")
    if area is not None:
        charge = density * area * hours
        values |= {"charge": charge, "weight": deposit_g(metal, charge, share)}
        steps.append(f"{charge:.4g} A h × {metal.g_per_ah:g} g/Ah × {share:g} = {values['weight']:.3f} g of metal.")
    compare = f"Office paper is about 100 µm thick: this is {thick / 100:.3g} of it."
    return Worked(values, tuple(steps), _warnings(thick), compare)


def _warnings(thick: float) -> tuple[str, ...]:
    told = ["This is the mean. Edges and corners get more, hollows less."]
    if thick > 1000:
        told.append("Over a millimetre is electroforming, with baths and times of its own.")
    return tuple(told)


PLATING = Reckoner(
    name="finish/plating",
    title="Plating",
    about="How thick a coat grows in a time, or how long a coat takes, and the metal that it uses.",
    inputs=(
        choice("metal", "Metal", {key: metal.name for key, metal in METALS.items()}, "And the bath it comes from.",
               default="silver"),
        number("current_density", "Current density", "A/dm²", 0.001, 500, "Amperes on each square decimetre.",
               optional=True),
        number("current", "Or the whole current", "A", 0.0001, 1e5, "Together with the area.", optional=True),
        number("area", "Area of the work", "dm²", 0.0001, 1e5, "All that is plated; needed for the weight.",
               optional=True),
        number("time", "Time in the bath", "h", 0.0001, 1000, "Such as 20 min.", optional=True),
        number("thickness", "Or thickness wanted", "µm", 0.001, 5000, "To reckon the time.", optional=True),
        number("efficiency", "Share of the current that plates", "%", 1, 100, "Nickel 93 to 95 %, chromium far less.",
               default="100 %"),
    ),
    outputs=(
        Output("thick", "Thickness", "µm", 2),
        Output("took", "Time", "min", 1),
        Output("weight", "Metal laid down", "g", 3),
        Output("charge", "Charge", "A h", 3),
        Output("density_used", "Current density", "A/dm²", 3),
    ),
    formula="thickness in µm = 100 × q × current × time × efficiency / (density × area); weight = q × current × time × "
            "efficiency",
    work=_work,
    sources=("electrochemical", "nickel-handbook", "groover-plating", "nickel-efficiency", "paper"),
    good_for=("The mean over the whole area, with the efficiency that you give. The metal's charge must be right.",),
    caution=CYANIDE_CAUTION,
)  # fmt: skip
