"""Strokes to shift output and back, with the share of the time that the press really strikes."""

from __future__ import annotations

from archive.reckoners.output.counting import GROSS, gross_told
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse, words


def shift_output(strokes_per_min: float, hours: float, share_percent: float) -> float:
    """Pieces in a shift, one a stroke: strokes a minute * 60 * hours * share of the time struck."""
    return strokes_per_min * 60 * hours * share_percent / 100


def strokes_needed_per_min(pieces: float, hours: float, share_percent: float) -> float:
    """Strokes a minute while striking, to make so many in a shift."""
    return pieces / (60 * hours * share_percent / 100)


def _work(given: Given) -> Worked:
    rate, pieces = given.maybe("rate"), given.maybe("pieces")
    hours, share = given.number("hours"), given.number("utilisation")
    if (rate is None) == (pieces is None):
        found = "Neither the strokes nor the pieces are given" if rate is None else "Both are given"
        raise refuse("rate", found, "Give the strokes a minute, or the pieces in the shift")
    if rate is not None:
        made, strokes = shift_output(rate, hours, share), rate
        step = f"{rate:g} a minute × 60 × {hours:g} h × {share:g} % = {made:,.0f} pieces."
    else:
        made = float(pieces or 0)
        strokes = strokes_needed_per_min(made, hours, share)
        step = f"{made:,.0f} pieces / (60 × {hours:g} h × {share:g} %) = {strokes:.1f} a minute."
    each = 60 / strokes
    values: dict[str, float | str] = {
        "pieces": made, "gross": made / GROSS, "told": gross_told(made), "rate": strokes, "each": each
    }  # fmt: skip
    return Worked(values, (step, f"60 / {strokes:.1f} = {each:.1f} s from one stroke to the next.",
                           f"{made:,.0f} / 144 = {made / GROSS:.1f} gross."),
                  compare=f"One stroke every {each:.1f} seconds, all shift long.")  # fmt: skip


SHIFT_OUTPUT = Reckoner(
    name="output/shift-output",
    title="Strokes and the output of a shift",
    about="How many pieces a shift makes, or how fast a hand had to strike.",
    inputs=(
        number("rate", "Strokes a minute while striking", "a minute", 0.1, 2000, "One piece a stroke.", optional=True),
        number("pieces", "Or pieces in the shift", "pieces", 1, 1e7, "Pieces, gross or great gross.", optional=True),
        number("hours", "Hours in the shift", "h", 0.1, 24, "Without the meal break.", default="8 h"),
        number("utilisation", "Share of the time struck", "%", 1, 100,
               "What is left after setting, carrying, waiting and rest.", default="100 %"),
    ),
    outputs=(
        Output("pieces", "Pieces", "pieces", 0),
        Output("gross", "In gross", "gross", 1),
        words("told", "As it was told"),
        Output("rate", "Strokes while striking", "a minute", 1),
        Output("each", "From one stroke to the next", "s", 1),
    ),
    formula="pieces = strokes a minute × 60 × hours × share of the time struck",
    work=_work,
    sources=("arithmetic", "trade-press-hand"),
    good_for=("One piece a stroke. It tells what was made, not what a hand could bear.",),
)  # fmt: skip
