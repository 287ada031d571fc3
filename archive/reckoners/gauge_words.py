"""Reads a gauge as people write it: "20 SWG", "No. 4/0 BG"; without its table's name it is refused."""

from __future__ import annotations

import re

from archive.reckoners.gauges import TABLES, gauge, table_named, thicknesses
from archive.reckoners.unread import NotRead

_NUMBER = r"(?:no\.?\s*)?(\d+(?:/0)?)"
_NAME = r"([a-z][a-z& .]*?)"
_BEFORE = re.compile(rf"{_NUMBER}\s*(?:gauge\s*)?{_NAME}", re.IGNORECASE)
_AFTER = re.compile(rf"{_NAME}\s*(?:gauge\s*)?{_NUMBER}", re.IGNORECASE)
_NO_TABLE = re.compile(rf"{_NUMBER}\s*(?:gauge|ga|gge)\.?|(?:gauge|ga)\s*{_NUMBER}", re.IGNORECASE)


def gauge_mm(text: str) -> float | None:
    """The thickness that a gauge with its table's name means."""
    if found := _NO_TABLE.fullmatch(text):
        raise _without_table(found[1] or found[2], text)
    if found := _BEFORE.fullmatch(text):
        written, name = found[1], found[2]
    elif found := _AFTER.fullmatch(text):
        written, name = found[2], found[1]
    else:
        return None
    table = table_named(name)
    if table is None:
        return None
    held = gauge(table, written)
    if held is None:
        raise NotRead(f"{TABLES[table]} has no number {written} here", "Give the thickness in mm or inches")
    return held.thickness_mm


def _without_table(written: str, text: str) -> NotRead:
    """A gauge without its table's name means as many thicknesses as there are tables."""
    meant = thicknesses(written)
    told = "; ".join(f"{written} {one.table} is {one.thickness_mm:.3f} mm ({one.thickness_in:.4g} in)" for one in meant)
    allowed = (
        f"Name the table, for the number means different thicknesses: {told}"
        if told
        else (f"Name the table ({', '.join(TABLES)}) or give the thickness in mm or inches")
    )
    return NotRead(f"“{text}” does not say which gauge", allowed)
