"""Drawing a cup from a blank: whether it will go in one draw, the force, and the holder."""

from __future__ import annotations

import math

from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse, words

GREATEST_RATIO = 2.0
GREATEST_REDUCTION = 0.50
LEAST_THICKNESS_SHARE = 0.01
HOLDER_SHARE_OF_YIELD = 0.015


def blank_for_cup_mm(across_mm: float, height_mm: float) -> float:
    """Blank for a plain cup without a corner radius: sqrt(d² + 4 d h). Source: constant area."""
    return math.sqrt(across_mm**2 + 4 * across_mm * height_mm)


def drawing_force_n(punch_mm: float, thickness_mm: float, tensile_n_per_mm2: float, ratio: float) -> float:
    """Greatest force of the draw: pi Dp t TS (Db / Dp - 0.7). Source: Groover, chapter 20 (from memory)."""
    return math.pi * punch_mm * thickness_mm * tensile_n_per_mm2 * (ratio - 0.7)


def holding_force_n(
    blank_mm: float, punch_mm: float, thickness_mm: float, yield_n_per_mm2: float, corner_mm: float
) -> float:
    """Force of the blank holder: 0.015 Y pi (Db² - (Dp + 2.2 t + 2 Rd)²), none where nothing is left to hold.

    Source: Groover, chapter 20 (from memory).
    """
    held = blank_mm**2 - (punch_mm + 2.2 * thickness_mm + 2 * corner_mm) ** 2
    return HOLDER_SHARE_OF_YIELD * yield_n_per_mm2 * math.pi * max(0.0, held)


def _blank(given: Given) -> tuple[float, tuple[str, ...]]:
    """The blank as given, or as the cup needs it."""
    punch, blank, height = given.number("punch"), given.maybe("blank"), given.maybe("height")
    if (blank is None) == (height is None):
        found = "Neither the blank nor the height of the cup is given" if blank is None else "Both are given"
        raise refuse("blank", found, "Give the blank, or the height of the cup")
    if blank is None:
        found_mm = blank_for_cup_mm(punch, height or 0.0)
        return found_mm, (f"Blank for the cup: √({punch:.4g}² + 4 × {punch:.4g} × {height:.4g}) = {found_mm:.1f} mm.",)
    if blank <= punch:
        raise refuse("blank", f"{blank:g} mm is no more than the punch, {punch:g} mm", "Give a blank larger than that")
    return blank, ()


def _work(given: Given) -> Worked:
    punch, thickness = given.number("punch"), given.number("thickness")
    tensile, yields = given.number("tensile"), given.number("yields")
    if yields > tensile:
        raise refuse("yields", f"{yields:g} N/mm² is more than the tensile strength", "Give no more than that")
    blank, first = _blank(given)
    ratio, reduction, share = blank / punch, (blank - punch) / blank, thickness / blank
    force = drawing_force_n(punch, thickness, tensile, ratio)
    hold = holding_force_n(blank, punch, thickness, yields, given.number("corner"))
    verdict, warnings = _verdict(ratio, reduction, share)
    values: dict[str, float | str] = {
        "blank_size": blank, "ratio": ratio, "reduction": 100 * reduction, "thickness_share": 100 * share,
        "force": force / 1000, "holder": hold / 1000, "verdict": verdict,
    }  # fmt: skip
    steps = (
        *first,
        f"{blank:.4g} / {punch:.4g} = {ratio:.2f}.",
        f"({blank:.4g} − {punch:.4g}) / {blank:.4g} = {100 * reduction:.1f} %.",
        f"{thickness:.4g} / {blank:.4g} = {100 * share:.2f} %.",
        f"π × {punch:.4g} × {thickness:.4g} × {tensile:.4g} × ({ratio:.2f} − 0.7) = {force / 1000:.1f} kN.",
        f"The holder: {hold / 1000:.1f} kN.",
    )
    compare = f"A ring {(blank - punch) / 2:.1f} mm wide has to fold in to make the wall."
    return Worked(values, steps, warnings, compare)


def _verdict(ratio: float, reduction: float, share: float) -> tuple[str, tuple[str, ...]]:
    """Whether it goes in one draw, and what stands against it."""
    told = []
    if ratio > GREATEST_RATIO + 1e-9:
        told.append(f"The ratio is above {GREATEST_RATIO:g}: the cup tears. Draw it in steps.")
    if reduction > GREATEST_REDUCTION + 1e-9:
        told.append("The reduction is above 50 %.")
    if share < LEAST_THICKNESS_SHARE:
        told.append("The sheet is under 1 % of the blank: it wrinkles unless it is held well.")
    return ("not in one draw" if ratio > GREATEST_RATIO + 1e-9 else "in one draw"), tuple(told)


CUP_DRAWING = Reckoner(
    name="press/cup-drawing",
    title="Drawing a cup",
    about="Whether a blank can be drawn into a cup at once, the force it takes, and how hard it must be held.",
    inputs=(
        number("punch", "Across the punch", "mm", 0.5, 3000, "The inside of the cup.", default="22 mm"),
        number("blank", "Across the blank", "mm", 0.5, 6000, "If you know it.", optional=True),
        number("height", "Or height of the cup", "mm", 0.1, 3000, "Of a plain cup: the blank is worked out.",
               optional=True),
        number("thickness", "Thickness", "mm", 0.05, 20, "Of the sheet.", default="0.9 mm"),
        number("tensile", "Tensile strength", "N/mm²", 20, 2000, "In the temper it is drawn in.", default="320 N/mm²"),
        number("yields", "Yield strength", "N/mm²", 5, 2000, "Where it begins to give for good.", default="110 N/mm²"),
        number("corner", "Radius of the corner of the die", "mm", 0, 200, "Over which the metal is pulled.",
               default="3 mm"),
    ),
    outputs=(
        words("verdict", "It goes"),
        Output("blank_size", "Across the blank", "mm", 1),
        Output("ratio", "Drawing ratio", "times", 2),
        Output("reduction", "Reduction", "%", 1),
        Output("thickness_share", "Thickness as a share of the blank", "%", 2),
        Output("force", "Greatest force of the draw", "kN", 1),
        Output("holder", "Force of the blank holder", "kN", 1),
    ),
    formula="ratio = blank / punch, up to 2.0; force = π × punch × thickness × tensile strength × (ratio − 0.7)",
    work=_work,
    sources=("groover", "arithmetic"),
    good_for=("A round cup, the first draw, with a holder. The ratio of 2.0 is a limit for good deep-drawing metal.",),
)  # fmt: skip
