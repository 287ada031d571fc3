"""Reads lists of spells as people write them: "100 dB 4 h; 85 dB for 30 min"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archive.reckoners.quantities import read_amount
from archive.reckoners.shape import refuse
from archive.reckoners.unread import NotRead

MOST_SPELLS = 40
HOURS_IN_A_DAY = 24.0
_SPELL = re.compile(r"(?P<what>.*?[^\d\s.,/+-]\S*?(?:\(\w\))?)\s+(?:for\s+)?(?P<time>[\d.½¼¾].*)")
_BARE = re.compile(r"(?P<what>[\d.]+(?:\s*/\s*[\d.]+)*)\s+for\s+(?P<time>[\d.½¼¾].*)")


@dataclass(frozen=True)
class Spell:
    """One spell of the day: one figure or several (samples, or axes), and for how long."""

    figures: tuple[float, ...]
    hours: float
    unit: str


def pieces(text: str, key: str, how: str) -> list[str]:
    """The list cut at semicolons, commas and line ends; refused if empty or too long."""
    found = [piece.strip() for piece in re.split(r"[;\n]|,(?=\s)", text) if piece.strip()]
    if not 1 <= len(found) <= MOST_SPELLS:
        raise refuse(key, f"There are {len(found)} entries", f"Give 1 to {MOST_SPELLS}. {how}")
    return found


def spells_written(text: str, key: str, units: tuple[str, ...], low: float, high: float, how: str) -> list[Spell]:
    """Every spell, in the first unit that reads it; raises Unacceptable for the field `key`."""
    found = [_spell(piece, key, units, low, high, how) for piece in pieces(text, key, how)]
    whole = sum(spell.hours for spell in found)
    if whole > HOURS_IN_A_DAY + 1e-9:
        raise refuse(key, f"The spells make {whole:g} h", "Give no more than 24 h in a day")
    return found


def _spell(piece: str, key: str, units: tuple[str, ...], low: float, high: float, how: str) -> Spell:
    parts = _BARE.fullmatch(piece) or _SPELL.fullmatch(piece)
    if not parts:
        raise refuse(key, f"“{piece[:40]}” is not a spell", how)
    hours = _figure(parts["time"], "h", key, 0.0, HOURS_IN_A_DAY, how)
    unit = next((unit for unit in units[1:] if _ends_in(parts["what"], unit)), units[0])
    return Spell(tuple(_figures(parts["what"], unit, key, low, high, how)), hours, unit)


def _ends_in(what: str, unit: str) -> bool:
    return what.lower().replace(" ", "").endswith(unit.lower())


def _figures(what: str, unit: str, key: str, low: float, high: float, how: str) -> Iterator[float]:
    """One figure, or several with strokes between: "80.1/82.2/79.6 dB"."""
    numbers = re.fullmatch(r"([\d.]+(?:\s*/\s*[\d.]+)+)\s*(\D.*)?", what)
    if not numbers:
        yield _figure(what, unit, key, low, high, how)
        return
    for number in numbers[1].split("/"):
        yield _figure(f"{number.strip()} {numbers[2] or ''}".strip(), unit, key, low, high, how)


def _figure(text: str, unit: str, key: str, low: float, high: float, how: str) -> float:
    """One exact figure within its range."""
    try:
        amount = read_amount(text, unit)
    except NotRead as error:
        raise refuse(key, error.found, how) from error
    if not amount.exact or not low <= amount.point <= high:
        raise refuse(key, f"“{text[:40]}” is not one figure from {low:g} to {high:g} {unit}", how)
    return amount.point


def levels_written(text: str, key: str, how: str) -> list[float]:
    """A list of levels in dB; raises Unacceptable for the field `key`."""
    return [_figure(piece, "dB", key, 0.0, 194.0, how) for piece in pieces(text, key, how)]
