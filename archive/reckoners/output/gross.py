"""Pieces to gross and great gross, and back."""

from __future__ import annotations

from archive.reckoners.output.counting import DOZEN, GREAT_GROSS, great_gross_told, gross_told
from archive.reckoners.output.counting import GROSS as GROSS_PIECES
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, words


def _work(given: Given) -> Worked:
    pieces = given.number("pieces")
    whole, over = divmod(round(pieces), GROSS_PIECES)
    values: dict[str, float | str] = {
        "pieces": pieces, "told": gross_told(pieces), "in_full": great_gross_told(pieces), "whole": whole,
        "over": over, "dozen": pieces / DOZEN, "great": pieces / GREAT_GROSS,
    }  # fmt: skip
    steps = (
        f"{pieces:,.0f} / 144 = {whole:,} gross, and {over} over.",
        f"12 gross are a great gross of 1,728: {values['in_full']}.",
    )
    return Worked(values, steps, compare="A gross is twelve dozen: a card of 24 buttons, six times over.")


GROSS = Reckoner(
    name="output/gross",
    title="Gross and great gross",
    about="A count as the warehouse told it.",
    inputs=(
        number("pieces", "Count", "pieces", 1, 1e8, "Pieces, or 22 gross 5 dozen.", whole=True),
    ),
    outputs=(
        words("told", "In gross"),
        words("in_full", "In full"),
        Output("pieces", "Pieces", "pieces", 0),
        Output("whole", "Whole gross", "gross", 0),
        Output("over", "Over", "pieces", 0),
        Output("dozen", "In dozens", "dozen", 2),
        Output("great", "In great gross", "great gross", 2),
    ),
    formula="1 dozen = 12; 1 gross = 12 dozen = 144; 1 great gross = 12 gross = 1,728",
    work=_work,
    sources=("weights-and-measures",),
    good_for=("Whole pieces. A small gross of 120 was also spoken of; it is not meant here.",),
)  # fmt: skip
