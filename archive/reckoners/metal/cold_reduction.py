"""Rolling and drawing cold: how much thinner, what temper that is called, how strong, and how much is left."""

from __future__ import annotations

import math
from collections.abc import Sequence

from archive.reckoners.metal.alloys import TEMPER_NUMBERS, Alloy, Cell, alloys
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse, words

# One number of the Brown and Sharpe gauge divides the thickness by 92^(1/39).
STEP_RATIO: float = 92.0 ** (1 / 39)
_SAME_TEMPER_WITHIN = 0.3
_SOFT_AGAIN = "Annealing makes it soft again, and the count starts from nothing."


def numbers_rolled(before_mm: float, after_mm: float) -> float:
    """B&S numbers from one thickness (or diameter) to another: n = 39 ln(before / after) / ln 92."""
    return math.log(before_mm / after_mm) / math.log(STEP_RATIO)


def strip_reduction_percent(numbers: float) -> float:
    """Reduction in thickness: 100 (1 - 92^(-n / 39)). Source: table of copper-base tempers, which it reproduces."""
    return float(100 * (1 - STEP_RATIO**-numbers))


def wire_reduction_percent(numbers: float) -> float:
    """Reduction in area of wire, in which each number counts twice: 100 (1 - 92^(-2 n / 39))."""
    return float(100 * (1 - STEP_RATIO ** (-2 * numbers)))


def temper_told(numbers: float) -> str:
    """The temper that so many numbers are called, or the two that it stands between."""
    known = list(TEMPER_NUMBERS.items())
    name, nearest = min(known, key=lambda item: abs(item[1] - numbers))
    if abs(nearest - numbers) <= _SAME_TEMPER_WITHIN:
        return name
    if numbers > known[-1][1]:
        return f"beyond {known[-1][0]}"
    above = next(place for place, (_, count) in enumerate(known) if count > numbers)
    return f"between {known[above - 1][0]} and {known[above][0]}"


def temper_pair(cells: Sequence[Cell], numbers: float) -> tuple[Cell, Cell, float] | None:
    """The two cells beside so many numbers, and how far along from the first to the second it stands, 0 to 1.

    None beyond the tempers tabled: a figure is never carried past the first or the last.
    """
    placed = sorted(cells, key=lambda cell: TEMPER_NUMBERS[cell.temper])
    if len(placed) < 2:
        return None
    counts = [TEMPER_NUMBERS[cell.temper] for cell in placed]
    if not counts[0] - _SAME_TEMPER_WITHIN <= numbers <= counts[-1] + _SAME_TEMPER_WITHIN:
        return None
    held = min(max(numbers, counts[0]), counts[-1])
    last = next(place for place, count in enumerate(counts) if place and count >= held)
    return placed[last - 1], placed[last], (held - counts[last - 1]) / (counts[last] - counts[last - 1])


def between(first: float | None, last: float | None, share: float) -> float | None:
    """A figure on the straight line between two; None if either is open-ended."""
    return None if first is None or last is None else first + share * (last - first)


def _cells(alloy: Alloy, what: str, form: str) -> tuple[Cell, ...]:
    """The cells by temper of one form; hardness told without a form is that of strip."""
    forms = ("wire",) if form == "wire" else ("strip", "")
    return tuple(cell for cell in alloy.every(what) if cell.form in forms and cell.temper in TEMPER_NUMBERS)


def _choices() -> dict[str, str]:
    """Alloys whose strength or hardness is known at two tempers or more."""
    return {
        key: alloy.name
        for key, alloy in alloys().items()
        if any(len(_cells(alloy, what, form)) > 1 for what in ("strength", "hardness") for form in ("strip", "wire"))
    }


def _after(given: Given) -> float:
    """The thickness after, however it was told."""
    before, after, percent = given.number("before"), given.maybe("after"), given.maybe("reduction")
    if (after is None) == (percent is None):
        found = "Neither the size after nor the reduction is given" if after is None else "Both are given"
        raise refuse("after", found, "Give the size after, or the reduction")
    if percent is not None:
        kept = 1 - percent / 100
        return before * (kept if given.word("form") == "strip" else math.sqrt(kept))
    if after is not None and after > before:
        raise refuse("after", f"{after:g} mm is more than before, {before:g} mm", "Give a size no greater than before")
    return float(after or 0)


def _work(given: Given) -> Worked:
    before, after, form = given.number("before"), _after(given), given.word("form")
    numbers = numbers_rolled(before, after)
    reduced = strip_reduction_percent(numbers) if form == "strip" else wire_reduction_percent(numbers)
    square = "²" if form == "wire" else ""
    values: dict[str, float | str] = {"reduction": reduced, "numbers": numbers, "temper": temper_told(numbers)}
    steps = [
        f"1 − ({after:.4g} / {before:.4g}){square} = {reduced:.1f} % off the {'area' if square else 'thickness'}.",
        f"39 × ln({before:.4g} / {after:.4g}) / ln 92 = {numbers:.2f} gauge numbers (B&S): {values['temper']}.",
    ]
    left, warnings = _left(before, numbers, given.word("stop_at"), form)
    values |= left
    if numbers > TEMPER_NUMBERS["extra spring"] + _SAME_TEMPER_WITHIN:
        warnings += ("No temper is named beyond extra spring, ten numbers; metal worked so far may split.",)
    key = given.word("alloy")
    known = [_by_temper(key, what, form, numbers) for what in ("strength", "hardness")] if key else []
    for one in known:
        values |= one.values
        steps += one.steps
    compare = f"A metre of it comes out {1 / (1 - reduced / 100):.2f} m long, if it does not spread."
    return Worked(values, tuple(steps), warnings, compare, tuple(key for one in known for key in one.sources))


def _left(before: float, numbers: float, stop_at: str, form: str) -> tuple[dict[str, float | str], tuple[str, ...]]:
    """How much more it will take before annealing, if work stops at a temper."""
    more = TEMPER_NUMBERS[stop_at] - numbers
    if more <= 0:
        return {"left": 0.0}, (f"It is at or past {stop_at}: anneal before working it further. {_SOFT_AGAIN}",)
    reduced = strip_reduction_percent(more) if form == "strip" else wire_reduction_percent(more)
    return {"left": reduced, "left_to": before / STEP_RATIO ** TEMPER_NUMBERS[stop_at]}, ()


def _by_temper(key: str, what: str, form: str, numbers: float) -> Worked:
    """The strength or hardness at this temper, with the step that tells it and its source."""
    alloy = alloys()[key]
    cells = _cells(alloy, what, form)
    found = temper_pair(cells, numbers)
    if found is None:
        return Worked({}, (f"No source here gives the {what} of {alloy.name} {form} at this temper: a gap.",))
    first, last, share = found
    ends = {"from": between(first.low, last.low, share), "to": between(first.high, last.high, share)}
    values: dict[str, float | str] = {f"{what}_{end}": value for end, value in ends.items() if value is not None}
    told = " to ".join(f"{value:.0f}" for value in ends.values() if value is not None)
    most = "" if ends["to"] is not None else "at least "
    step = (
        f"{what.capitalize()} of {alloy.name} {form}, straight between {first.temper} ({first}) and {last.temper} "
        f"({last}): {most}{told} {first.unit}."
    )
    return Worked(values, (step,), sources=(first.source, last.source))


COLD_REDUCTION = Reckoner(
    name="metal/cold-reduction",
    title="Cold rolling and drawing: temper and what is left",
    about="How hard metal has become by rolling or drawing it cold, and how far it can go before it must be annealed.",
    inputs=(
        number("before", "Before", "mm", 0.005, 200, "Thickness of strip or diameter of wire, when last annealed."),
        number("after", "After", "mm", 0.005, 200, "Thickness or diameter now.", optional=True),
        number("reduction", "Or the reduction", "%", 0, 99, "Off the thickness of strip, off the area of wire.",
               optional=True),
        choice("form", "Strip or wire", {"strip": "strip or sheet", "wire": "wire or rod"},
               "The same name of temper means more work in wire than in strip.", default="strip"),
        choice("alloy", "Alloy", _choices(), "For strength and hardness; may be left out.", optional=True),
        choice("stop_at", "Anneal again at", {name: name for name in TEMPER_NUMBERS if name != "annealed"},
               "The temper at which this shop would stop and anneal.", default="spring"),
    ),
    outputs=(
        Output("reduction", "Reduction", "%", 1),
        Output("numbers", "Gauge numbers worked (B&S)", "gauge numbers", 2),
        words("temper", "Temper"),
        Output("strength_from", "Tensile strength from", "N/mm²", 0),
        Output("strength_to", "Tensile strength to", "N/mm²", 0),
        Output("hardness_from", "Hardness from", "HV", 0),
        Output("hardness_to", "Hardness to", "HV", 0),
        Output("left", "Reduction left before annealing", "%", 1),
        Output("left_to", "Down to", "mm", 3),
    ),
    formula="strip: 1 − after / before; wire: 1 − (after / before)²; numbers = 39 × ln(before / after) / ln 92",
    work=_work,
    sources=("precision-tempers", "astm-b258"),
    good_for=(
        "Copper alloys, whose tempers are named by gauge numbers, up to extra spring (ten numbers).",
        "Not pewter, tin or lead, which soften again at room heat.",
    ),
)  # fmt: skip
