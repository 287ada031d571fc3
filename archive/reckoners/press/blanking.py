"""Blanking and piercing: force, energy, clearance, the sizes of punch and die, and stripping."""

from __future__ import annotations

import math

from archive.reckoners.measures import STANDARD_GRAVITY_M_PER_S2
from archive.reckoners.metal.alloys import Cell, alloys, alloys_with
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse

# Clearance a side as a share of the thickness. Source: Groover, Table 20.1, as quoted.
CLEARANCE_SHARE = {"soft": 0.045, "middle": 0.060, "hard": 0.075}
SHEAR_OF_TENSILE = 0.7
STRIPPING_N_PER_MM2 = 24.1


def cutting_force_n(cut_mm: float, thickness_mm: float, shear_n_per_mm2: float) -> float:
    """Force to cut: length of cut × thickness × shear strength. Source: Groover, chapter 20 (from memory)."""
    return cut_mm * thickness_mm * shear_n_per_mm2


def clearance_mm(thickness_mm: float, share: float) -> float:
    """Clearance on each side: a share of the thickness by the metal. Source: Groover, Table 20.1, as quoted."""
    return share * thickness_mm


def tool_sizes_mm(size_mm: float, clearance: float, *, piercing: bool) -> tuple[float, float]:
    """Punch and die. A blank takes the size of the die, a hole takes the size of the punch. Source: Groover."""
    return (size_mm, size_mm + 2 * clearance) if piercing else (size_mm - 2 * clearance, size_mm)


def stripping_force_n(cut_mm: float, thickness_mm: float) -> float:
    """Force to pull the sheet off the punch: 3500 psi (24.1 N/mm²) on the cut area. Eary and Reed (from memory)."""
    return STRIPPING_N_PER_MM2 * cut_mm * thickness_mm


def _shears() -> dict[str, Cell]:
    """Every shear strength of the alloy table, by alloy and temper."""
    return {
        f"{key} {cell.temper}": cell for key in alloys_with("shear") for cell in alloys()[key].every("shear")
    }  # fmt: skip


def _cut(given: Given) -> tuple[float, str]:
    """The length of the cut, with the step that tells it."""
    shape, size, breadth = given.word("shape"), given.number("size"), given.maybe("breadth")
    if shape == "round":
        return math.pi * size, f"Round the edge: π × {size:.4g} mm = {math.pi * size:.2f} mm."
    if shape == "rectangle":
        other = size if breadth is None else breadth
        return 2 * (size + other), f"Round the edge: 2 × ({size:.4g} + {other:.4g}) = {2 * (size + other):.2f} mm."
    return size, f"The length of the cut as given: {size:.4g} mm."


def _shear(given: Given) -> tuple[float, str, tuple[str, ...], tuple[str, ...]]:
    """The shear strength however it was told: its figure, the step, warnings and sources."""
    shear, tensile, metal = given.maybe("shear"), given.maybe("tensile"), given.word("metal")
    if shear is not None and tensile is not None:
        raise refuse("tensile", "Both the shear and the tensile strength are given", "Give one of them")
    if shear is not None:
        return shear, f"Shear strength as given: {shear:.4g} N/mm².", (), ()
    if tensile is not None:
        found = SHEAR_OF_TENSILE * tensile
        warning = (
            "Taking shear as 0.7 of the tensile strength is a rule of thumb. Cartridge brass runs from 0.65, "
            "half hard, down to 0.51, spring."
        )
        return found, f"0.7 × {tensile:.4g} N/mm² = {found:.4g} N/mm², as a rule of thumb.", (warning,), ()
    cell = _shears()[metal]
    return cell.low, f"The table gives {cell.low:.4g} N/mm² for {metal}.", (), (cell.source,)


def _work(given: Given) -> Worked:
    thickness, size = given.number("thickness"), given.number("size")
    cut, first = _cut(given)
    shear, second, warnings, sources = _shear(given)
    force = cutting_force_n(cut, thickness, shear)
    spent = force * thickness / 1000 * given.number("penetration") / 100
    clear = clearance_mm(thickness, CLEARANCE_SHARE[given.word("clearance_for")])
    strip = stripping_force_n(cut, thickness)
    values: dict[str, float | str] = {
        "cut": cut, "force": force / 1000, "energy": spent, "clearance": clear,
        "stripping": strip / 1000, "stripping_share": 100 * strip / force,
    }  # fmt: skip
    steps = [first, second, f"{cut:.2f} mm × {thickness:.4g} mm × {shear:.4g} N/mm² = {force / 1000:.2f} kN.",
             f"Clearance a side: {clear:.3f} mm."]  # fmt: skip
    sized, told = _tools(given, size, clear)
    compare = f"The weight of {force / STANDARD_GRAVITY_M_PER_S2 / 1000:,.2f} tonnes on the punch."
    return Worked(values | sized, (*steps, *told), warnings, compare, sources)


def _tools(given: Given, size: float, clear: float) -> tuple[dict[str, float | str], tuple[str, ...]]:
    """The sizes of the tools, and what is wasted."""
    if given.word("shape") == "outline":
        return {}, ()
    piercing = given.word("operation") == "piercing"
    punch, die = tool_sizes_mm(size, clear, piercing=piercing)
    if punch <= 0:
        raise refuse("size", f"{size:g} mm is less than the clearances", "Give a larger size, or thinner metal")
    said = "The hole takes the punch's size, so the die is larger" if piercing else (
        "The blank takes the die's size, so the punch is smaller"
    )  # fmt: skip
    return {"punch": punch, "die": die}, (f"{said}: punch {punch:.3f} mm, die {die:.3f} mm.",)


BLANKING = Reckoner(
    name="press/blanking",
    title="Blanking and piercing",
    about="The force to cut a blank or a hole, and the sizes of punch and die.",
    inputs=(
        choice("operation", "Blanking or piercing",
               {"blanking": "the piece cut out is kept", "piercing": "the hole is kept"},
               "Which part is the work decides which tool has the size.", default="blanking"),
        choice("shape", "Shape", {"round": "round", "rectangle": "rectangle", "outline": "any, by its length of cut"},
               "The shape that is cut.", default="round"),
        number("size", "Size", "mm", 0.2, 5000, "Across a round one, along a rectangle, or the length of the cut.",
               default="18 mm"),
        number("breadth", "Breadth of a rectangle", "mm", 0.2, 5000, "The other side; a square if left out.",
               optional=True),
        number("thickness", "Thickness", "mm", 0.02, 50, "Of the sheet: 0.9 mm, 20 SWG.", default="0.9 mm"),
        choice("metal", "Metal and temper", {key: f"{key} ({cell})" for key, cell in _shears().items()},
               "Used when no strength is given.", default="C26000 half hard"),
        number("shear", "Shear strength", "N/mm²", 5, 2500, "If you know it.", optional=True),
        number("tensile", "Or tensile strength", "N/mm²", 5, 3500, "If that is all you know: 0.7 of it is taken.",
               optional=True),
        choice("clearance_for", "Clearance for",
               {"soft": "soft aluminium", "middle": "brass, soft steel, hard aluminium, soft stainless steel",
                "hard": "half-hard steel and stainless steel"}, "The group of metals.", default="middle"),
        number("penetration", "Depth of the cut before it breaks through", "%", 5, 100,
               "Share of the thickness over which the force holds. At 100 % the energy is the most it can be.",
               default="100 %"),
    ),
    outputs=(
        Output("force", "Force to cut", "kN", 1),
        Output("cut", "Length of the cut", "mm", 1),
        Output("energy", "Energy of the cut, at most", "J", 1),
        Output("clearance", "Clearance a side", "mm", 3),
        Output("punch", "Punch", "mm", 2),
        Output("die", "Die", "mm", 2),
        Output("stripping", "Force to strip", "kN", 2),
        Output("stripping_share", "Stripping as a share of the force", "%", 1),
    ),
    formula="force = length of cut × thickness × shear strength; clearance = share × thickness",
    work=_work,
    sources=("groover", "groover-clearance", "eary-reed"),
    good_for=(
        "Flat tools without shear on them, sharp, on sheet. Worn tools take more.",
        "Clearance is told for each side. Some tables print the total of both.",
    ),
)  # fmt: skip
