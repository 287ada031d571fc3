"""Bringing a melt up or down to a fineness."""

from __future__ import annotations

from archive.errors import OutOfRange
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number


def mass_to_add_g(mass_g: float, now_permille: float, wanted_permille: float, added_permille: float) -> float:
    """Mass to add so that the whole comes to the wanted fineness: m (f_w - f_0) / (f_a - f_w), no loss in melting.

    Fineness in parts in a thousand. Source: conservation of mass (arithmetic).
    """
    return mass_g * (wanted_permille - now_permille) / (added_permille - wanted_permille)


def _work(given: Given) -> Worked:
    mass, now = given.number("mass"), given.number("now")
    wanted, added = given.number("wanted"), given.number("added")
    if wanted == now:
        return _told(mass, 0.0, now, added, ("It is at the fineness wanted: nothing is to be added.",))
    if added == wanted or (wanted > now) != (added > wanted):
        raise OutOfRange(
            f"Adding metal of {added:g} ‰ can never bring {now:g} ‰ to {wanted:g} ‰. To come up, add metal finer than "
            "what you want; to come down, add metal less fine."
        )
    more = mass_to_add_g(mass, now, wanted, added)
    steps = (
        f"{mass:g} g × ({wanted:g} − {now:g}) / ({added:g} − {wanted:g}) = {more:.3f} g to add.",
        f"Proof: ({mass:g} × {now:g} + {more:.3f} × {added:g}) / {mass + more:.3f} = {wanted:g} ‰.",
    )
    return _told(mass, more, now, added, steps)


def _told(mass: float, more: float, now: float, added: float, steps: tuple[str, ...]) -> Worked:
    precious = (mass * now + more * added) / 1000
    values: dict[str, float | str] = {"add": more, "whole": mass + more, "precious": precious}
    compare = f"For every 100 g in the pot, {100 * more / mass:.1f} g is added."
    return Worked(values, steps, compare=compare)


MIXING = Reckoner(
    name="metal/mixing",
    title="Mixing up or down to a fineness",
    about="How much fine metal, or how much base metal, brings a melt to the fineness wanted.",
    inputs=(
        number("mass", "Metal in the pot", "g", 0.01, 1e6, "The weight of the metal that you have.", default="100 g"),
        number("now", "Its fineness", "‰", 0, 1000, "Parts in a thousand, or carats.", default="1000"),
        number("wanted", "Fineness wanted", "‰", 0, 1000, "Parts in a thousand, or carats.", default="925"),
        number(
            "added",
            "Fineness of what is added",
            "‰",
            0,
            1000,
            "Fine metal is 1000; copper or other base metal is 0.",
            default="0",
        ),
    ),
    outputs=(
        Output("add", "To add", "g", 2),
        Output("whole", "Whole weight then", "g", 2),
        Output("precious", "Precious metal in it", "g", 2),
    ),
    formula="to add = weight × (wanted − now) / (added − wanted)",
    work=_work,
    sources=("arithmetic",),
    good_for=("No metal lost in melting. Real melts lose a little, most of all zinc.",),
)
