"""Counts as the trade told them: by the dozen, the gross and the great gross."""

from __future__ import annotations

DOZEN, GROSS, GREAT_GROSS = 12, 144, 1728


def gross_told(pieces: float) -> str:
    """Whole gross and what is over: "194 gross and 64"."""
    whole, over = divmod(round(pieces), GROSS)
    return f"{whole:,} gross and {over}" if over else f"{whole:,} gross"


def great_gross_told(pieces: float) -> str:
    """Great gross, gross, dozens and odd pieces: "1 great gross 10 gross 5 dozen"."""
    left = round(pieces)
    told = []
    for size, name in ((GREAT_GROSS, "great gross"), (GROSS, "gross"), (DOZEN, "dozen")):
        whole, left = divmod(left, size)
        if whole:
            told.append(f"{whole:,} {name}")
    return " ".join(told + ([f"and {left}"] if told and left else [] if told else [str(left)]))
