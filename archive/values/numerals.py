"""Numbers in a line of words, whether written in digits or spelt out. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

_ONES = """
    zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen
    eighteen nineteen
"""
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
UNITS = {word: place for place, word in enumerate(_ONES.split())} | {"nought": 0}
TENS = {word: 10 * place for place, word in enumerate(_TENS.split(), 2)}
SCALES = {"hundred": 100, "thousand": 1000, "million": 1_000_000}
PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fifth": 5, "fifths": 5,
    "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16, "twentieth": 20,
    "twentieths": 20, "thou": 1000, "hundredth": 100, "hundredths": 100, "thousandth": 1000, "thousandths": 1000,
}  # fmt: skip
_FINE_PARTS = {("thirty", "second"): 32, ("sixty", "fourth"): 64}
_SIGNS = {"¼": 0.25, "½": 0.5, "¾": 0.75}
_DIGITS = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?[¼½¾]?|[¼½¾]")
_NOUGHTS = {"oh", "o", "nought", "aught"}
_FIRST_YEAR, _LAST_YEAR = 15, 20


@dataclass(frozen=True)
class Numeral:
    """A number that begins at a token and ends before another. `decimals` are those printed; `part` is a fraction."""

    value: float
    end: int
    digits: bool = False
    decimals: int = 0
    part: bool = False
    year: bool = False


def numeral_at(tokens: Sequence[str], start: int) -> Numeral | None:
    """The number that begins at a token, as long as it goes; None where none does."""
    if _DIGITS.fullmatch(tokens[start]):
        return _with_part(tokens, _in_digits(tokens, start))
    year = _spelt_year(tokens, start)
    if year:
        return year
    spelt = _spelt(tokens, start)
    return _with_part(tokens, spelt) if spelt else _bare_part(tokens, start)


def _in_digits(tokens: Sequence[str], start: int) -> Numeral:
    written = tokens[start].replace(",", "")
    sign = _SIGNS.get(written[-1], 0.0)
    plain = written.rstrip("¼½¾")
    value, end = float(plain or 0) + sign, start + 1
    while _word(tokens, end) in SCALES:
        value, end = value * SCALES[tokens[end]], end + 1
    decimals = 2 if sign else len(plain.partition(".")[2])
    year = (
        plain.isdigit() and len(plain) == 4 and 1500 <= value < 2100 and "," not in tokens[start] and end == start + 1
    )
    return Numeral(value, end, True, decimals, year=year)


def _spelt_year(tokens: Sequence[str], start: int) -> Numeral | None:
    """ "nineteen fifty-one", "nineteen oh six": a century, then a number from ten on, or nought and a digit."""
    century = UNITS.get(_word(tokens, start), TENS.get(_word(tokens, start), 0))
    if not _FIRST_YEAR <= century <= _LAST_YEAR:
        return None
    if _word(tokens, start + 1) in _NOUGHTS and 0 < UNITS.get(_word(tokens, start + 2), 0) < 10:
        return Numeral(century * 100 + UNITS[tokens[start + 2].lower()], start + 3, year=True)
    rest = _below_hundred(tokens, start + 1)
    if rest is None or rest.value < 10:
        return None
    if _word(tokens, rest.end) in SCALES:
        return None
    return Numeral(century * 100 + rest.value, rest.end, year=True)


def _below_hundred(tokens: Sequence[str], start: int) -> Numeral | None:
    word = _word(tokens, start)
    if word in TENS:
        more = UNITS.get(_word(tokens, start + 1), 0)
        joined = 0 < more < 10
        return Numeral(TENS[word] + (more if joined else 0), start + (2 if joined else 1))
    if word not in UNITS:
        return None
    if _word(tokens, start + 1) == "and" and 0 < UNITS[word] < 10 and _word(tokens, start + 2) in TENS:
        # "five-and-twenty", as older people count.
        return Numeral(UNITS[word] + TENS[tokens[start + 2].lower()], start + 3)
    return Numeral(UNITS[word], start + 1)


def _spelt(tokens: Sequence[str], start: int) -> Numeral | None:
    """ "twenty-eight thousand", "a hundred and twelve", "eleven hundred"."""
    total, here, end = 0.0, start, start
    if _word(tokens, start) in ("a", "an") and _word(tokens, start + 1) in SCALES:
        piece: Numeral | None = Numeral(1, start + 1)
    else:
        piece = _below_hundred(tokens, start)
    if piece is None:
        return None
    part, here = piece.value, piece.end
    while True:
        word = _word(tokens, here)
        if word in SCALES:
            scale = SCALES[word]
            part = (part or 1) * scale
            if scale >= 1000:
                total, part = total + part, 0.0
            here += 1
            end = here
            continue
        joined = here + 1 if word == "and" and end == here else here
        more = _below_hundred(tokens, joined) if end == here and end > start else None
        if more is None or (part % 100 and part):
            break
        part, here = part + more.value, more.end
        end = here if _word(tokens, here) in SCALES else end
    return Numeral(total + part, here)


def _with_part(tokens: Sequence[str], number: Numeral) -> Numeral:
    """The number with "and a half", "point five" or "tenths" after it."""
    end = number.end
    ahead = [_word(tokens, end + place) for place in range(4)]
    if ahead[0] == "and" and ahead[1] in ("a", "an", "three") and ahead[2] in ("half", "quarter", "quarters", "third"):
        top = 3 if ahead[1] == "three" else 1
        return Numeral(number.value + top / PARTS[ahead[2]], end + 3, number.digits, 2)
    if ahead[0] == "and" and ahead[1] in UNITS and ahead[2] in PARTS:
        return Numeral(number.value + UNITS[ahead[1]] / PARTS[ahead[2]], end + 3, number.digits, 2)
    if ahead[0] == "point" and ahead[1] in UNITS:
        said: list[str] = []
        while _word(tokens, end + 1 + len(said)) in UNITS and UNITS[tokens[end + 1 + len(said)]] < 10:
            said.append(str(UNITS[tokens[end + 1 + len(said)]]))
        if said:
            return Numeral(float(f"{number.value:.0f}.{''.join(said)}"), end + 1 + len(said), False, len(said))
    if ahead[0] in PARTS and ahead[0] not in ("half", "third", "quarter") and not number.year:
        return Numeral(number.value / PARTS[ahead[0]], end + 1, number.digits, 4, part=True)
    return number


def _bare_part(tokens: Sequence[str], start: int) -> Numeral | None:
    """ "half", "a quarter", "a sixteenth": parts of one."""
    word, after = _word(tokens, start), _word(tokens, start + 1)
    fine = _FINE_PARTS.get((after, _word(tokens, start + 2)))
    if fine and word in ("a", "one") and _word(tokens, start + 3) == "of":
        return Numeral(1 / fine, start + 3, part=True, decimals=4)
    if word in ("half", "quarter"):
        return Numeral(1 / PARTS[word], start + 1, part=True, decimals=4)
    if word in ("a", "an", "one") and after in PARTS:
        return Numeral(1 / PARTS[after], start + 2, part=True, decimals=4)
    return None


def _word(tokens: Sequence[str], place: int) -> str:
    return tokens[place].lower() if place < len(tokens) else ""
