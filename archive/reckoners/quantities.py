"""Reads a quantity as people write it: fractions, gauges, hundredweights, £sd, and what is only "about"."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from archive.reckoners.gauge_words import gauge_mm
from archive.reckoners.measures import family_of_spelling, plain, unit_of, unit_written, units_in
from archive.reckoners.money import pence_written
from archive.reckoners.unread import NotRead

ABOUT_SHARE = 0.10
_LONGEST = 120
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d*)?(?:e[+-]?\d+)?|\.\d+)"
_PAIR = re.compile(rf"({_NUMBER})\s*((?:[^\d\s£][^\s]*(?:\s+|$))*)", re.IGNORECASE)
_LEADING = re.compile(rf"[+-]?{_NUMBER}\s*", re.IGNORECASE)
_PLUS_MINUS = re.compile(r"(.+?)\s*(?:±|\+/-|\+-)\s*(.+)")
_ABOUT = re.compile(r"(?:about|around|roughly|some|circa|c\.|ca\.|~|≈)\s*(.+)", re.IGNORECASE)
_BETWEEN = re.compile(r"between\s+(.+?)\s+and\s+(.+)", re.IGNORECASE)
_TO = re.compile(r"(?:from\s+)?(.+?)\s*(?:\bto\b|[–—])\s*(.+)", re.IGNORECASE)
_HYPHEN = re.compile(rf"({_NUMBER}[^\d-]*)-\s*({_NUMBER}\D.*|{_NUMBER})", re.IGNORECASE)
_HYPHEN_INSIDE = re.compile(r"\d+-\d+/\d+|\de-\d", re.IGNORECASE)


@dataclass(frozen=True)
class Amount:
    """A quantity in the unit asked for; low and high differ from the point where it was "about"."""

    low: float
    point: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether it was given as one figure."""
        return self.low == self.high


def read_amount(text: str, unit: str) -> Amount:
    """The amount that the text tells, in `unit`; a bare number is in that unit.

    "8 to 12" is 8, 10, 12 (the middle is the point); "10 ± 1" and "10 ± 10 %" are read as hard ends; "about 10" is
    a tenth each way. Faults are raised as NotRead.
    """
    tidy = _tidied(text)
    if found := _ABOUT.fullmatch(tidy):
        return _about(found[1], unit)
    if found := _PLUS_MINUS.fullmatch(tidy):
        return _plus_minus(found[1], found[2], unit)
    ends = (
        _BETWEEN.fullmatch(tidy)
        or _TO.fullmatch(tidy)
        or (_HYPHEN.fullmatch(tidy) if not _hyphen_inside(tidy) else None)
    )
    if ends:
        return _between(ends[1].strip(), ends[2].strip(), unit)
    point = _one(tidy, unit)
    return Amount(point, point, point)


def _tidied(text: str) -> str:
    """One line, with fractions, minus signs and marks for feet and inches made plain."""
    if len(text) > _LONGEST:
        raise NotRead(f"“{text[:20]}…” is too long", f"Write one quantity, of up to {_LONGEST} characters")
    for sign, fraction in _VULGAR.items():
        text = re.sub(rf"(?<=\d)\s*{sign}", f" {fraction}", text).replace(sign, fraction)
    text = text.replace("−", "-").replace("″", '"').replace("′", "'").replace("”", '"').replace("’", "'")
    return " ".join(re.sub(r"(['\"])(?=\d)", r"\1 ", text).split())


def _hyphen_inside(text: str) -> bool:
    """Whether a hyphen is the one of "3-1/2" or "1e-3"."""
    return _HYPHEN_INSIDE.search(text) is not None


def _about(text: str, unit: str) -> Amount:
    """A tenth each way of the point."""
    point = _one(text, unit)
    spread = abs(point) * ABOUT_SHARE
    return Amount(point - spread, point, point + spread)


def _plus_minus(middle: str, spread: str, unit: str) -> Amount:
    """The middle less and more the spread; a spread in per cent is of the middle."""
    if spread.endswith("%") and unit not in ("%", "‰"):
        point = _one(middle, unit)
        share = _one(spread, "%") / 100
        return Amount(point - abs(point) * share, point, point + abs(point) * share)
    middle, spread = _with_unit_of(middle, spread, unit), _with_unit_of(spread, middle, unit)
    here = _first_unit(middle, unit)
    point, step = _one(middle, here), _difference(spread, here)
    ends = [_turned(value, here, unit) for value in (point - step, point, point + step)]
    return Amount(ends[0], ends[1], ends[2])


def _first_unit(text: str, unit: str) -> str:
    """The unit that a text is written in, else the unit asked for."""
    tail = _LEADING.sub("", text, count=1)
    found = unit_written(tail, unit_of(unit).family) if tail else None
    return found.symbol if found else unit


def _difference(text: str, unit: str) -> float:
    """A difference in `unit`: 9 °F of difference is 5 °C, whatever the zero."""
    return _one(text, unit) - _one(f"0 {_LEADING.sub('', text, count=1)}", unit)


def _turned(value: float, from_symbol: str, to_symbol: str) -> float:
    return unit_of(to_symbol).from_base(unit_of(from_symbol).to_base(value)) if from_symbol != to_symbol else value


def _between(first: str, last: str, unit: str) -> Amount:
    """The two ends, in whichever order; an end without a unit takes the other's."""
    written = (_with_unit_of(first, last, unit), _with_unit_of(last, first, unit))
    ends = sorted(_one(end, unit) for end in written)
    return Amount(ends[0], (ends[0] + ends[1]) / 2, ends[1])


def _with_unit_of(bare: str, other: str, unit: str) -> str:
    """A bare number with the unit that the other text ends with; "7/6" of money is whole as it stands."""
    is_bare = re.fullmatch(rf"[+-]?{_NUMBER}", bare, re.IGNORECASE)
    if not is_bare or ("/" in bare and unit_of(unit).family == "money"):
        return bare
    return f"{bare} {_LEADING.sub('', other, count=1)}".strip()


def _one(text: str, unit: str) -> float:
    """One figure in `unit`."""
    family = unit_of(unit).family
    value = _special(text, family)
    if value is None:
        return _finite(_sum_of_pairs(text, unit), text)
    return unit_of(unit).from_base(value)


def _finite(value: float, text: str) -> float:
    if not math.isfinite(value):
        raise NotRead(f"“{text}” is too great to be a number", "Give a plain number")
    return value


def _special(text: str, family: str) -> float | None:
    """A sum of money or a gauge, in the base of its family; None where the text is neither."""
    if family == "money":
        return pence_written(text)
    return gauge_mm(text) if family == "length" else None


def _sum_of_pairs(text: str, unit: str) -> float:
    """ "3 lb 4 oz", "1 h 30 min", "22 gross 5 dozen", or a bare number in `unit`."""
    sign = -1 if text.startswith("-") else 1
    body = text.lstrip("+-").strip()
    pairs = _PAIR.findall(body)
    if not pairs or "".join(n + u for n, u in pairs).replace(" ", "") != body.replace(" ", ""):
        raise _nonsense(text, unit)
    values = [_pair(sign * _number(written), spelling.strip(), unit, text) for written, spelling in pairs]
    if len(values) > 1 and not all(spelling.strip() for _, spelling in pairs[:-1]):
        raise _nonsense(text, unit)
    return sum(values)


def _pair(value: float, spelling: str, unit: str, text: str) -> float:
    """One number with its unit, in `unit`."""
    if not spelling:
        return value
    family = unit_of(unit).family
    written = unit_written(spelling, family)
    if written is None:
        raise _wrong_unit(spelling, family, text)
    return _turned(value, written.symbol, unit)


def _number(written: str) -> float:
    """ "3 1/2", "1/16", "1,500", "2.5"."""
    if "/" in written:
        parts = [Fraction(part) for part in re.split(r"[ -]", written) if _has_a_bottom(part, written)]
        return float(sum(parts))
    return float(written.replace(",", ""))


def _has_a_bottom(part: str, written: str) -> bool:
    if "/" in part and int(part.split("/")[1]) == 0:
        raise NotRead(f"“{written}” divides by nothing", "Give a fraction such as 1/16")
    return True


def _wrong_unit(spelling: str, family: str, text: str) -> NotRead:
    known = family_of_spelling(spelling)
    is_what = f"“{spelling}” is a unit of {known}" if known else f"“{spelling}” is not a unit known here"
    if re.match(r",\d", plain(spelling)):
        return NotRead(f"“{text}” has a comma", "Write decimals with a full stop: 1.5")
    return NotRead(f"{is_what}", f"Units of {family} are {', '.join(units_in(family))}")


def _nonsense(text: str, unit: str) -> NotRead:
    allowed = f"Write it like “12 {unit}”, “8 to 12 {unit}” or “about 10 {unit}”"
    return NotRead(f"“{text}” is not a number with a unit", allowed)
