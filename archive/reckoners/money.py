"""Pounds, shillings and pence: read as people wrote them, told as people wrote them, and their decimal worth."""

from __future__ import annotations

import re
from fractions import Fraction

PENCE_IN_SHILLING = 12
PENCE_IN_POUND = 240
FARTHINGS_IN_PENNY = 4
_QUARTERS = {Fraction(0): "", Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}
_SLASH = re.compile(r"(?:£?\s*(\d+)\s*/\s*)?(\d+)\s*/\s*(\d+|-)(?:\s+(1/4|1/2|3/4))?")
_PARTS = re.compile(
    r"(?:£\s*(?P<pounds>(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?))?\s*"
    r"(?:(?P<shillings>\d+)\s*(?:s|shillings?)\.?)?\s*"
    r"(?:(?P<pence>(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)\s*(?:d|pence|penny)\.?)?"
)


def _fraction(written: str) -> Fraction:
    """ "2 1/2" as a fraction."""
    return sum((Fraction(part) for part in written.split()), Fraction(0))


def pence_written(text: str) -> float | None:
    """Old pence in "£3 17s 6d", "7/6", "7/-", "£3/17/6" or "2 1/2d"; None where the text is no such sum."""
    tidy = text.strip().lower()
    if slashed := _SLASH.fullmatch(tidy):
        pounds, shillings, pence, part = slashed.groups()
        whole = int(pounds or 0) * PENCE_IN_POUND + int(shillings) * PENCE_IN_SHILLING
        return float(whole + (0 if pence == "-" else int(pence)) + Fraction(part or 0))
    found = _PARTS.fullmatch(tidy)
    if not found or not any(found.groups()):
        return None
    pounds, shillings, pence = (
        (found["pounds"] or "0").replace(",", ""),
        found["shillings"] or "0",
        found["pence"] or "0",
    )
    total = Fraction(pounds) * PENCE_IN_POUND + Fraction(shillings) * PENCE_IN_SHILLING + _fraction(pence)
    return float(total)


def pounds_shillings_pence(pence: float) -> str:
    """ "£10 8s 4d", "17s 8½d": to the nearest farthing."""
    farthings = round(pence * FARTHINGS_IN_PENNY)
    whole, quarter = divmod(farthings, FARTHINGS_IN_PENNY)
    pounds, rest = divmod(whole, PENCE_IN_POUND)
    shillings, odd = divmod(rest, PENCE_IN_SHILLING)
    penny = f"{odd or ''}{_QUARTERS[Fraction(quarter, FARTHINGS_IN_PENNY)]}" or "0"
    if pounds:
        return f"£{pounds:,} {shillings}s {penny}d"
    return f"{shillings}s {penny}d" if shillings else f"{penny}d"


def decimal_pounds(pence: float) -> float:
    """The same sum in pounds of 100 new pence: £1 = 240d (day of change 15 February 1971)."""
    return pence / PENCE_IN_POUND
