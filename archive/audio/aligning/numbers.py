"""Whole numbers, years, ordinals and decimals as they are said."""

from __future__ import annotations

_ONES = [
    "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
]  # fmt: skip
_TENS = [
    "_", "_", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
]  # fmt: skip
_GREAT = ((10**9, "billion"), (10**6, "million"), (1000, "thousand"))
_ORDINALS = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
}
_LARGEST = 10**12


def number(value: int) -> list[str]:
    """A whole number, from 0 on: one hundred and twelve."""
    if value >= _LARGEST:
        return [_ONES[int(digit)] for digit in str(value)]
    for size, name in _GREAT:
        if value >= size:
            rest = value % size
            joint = ["and"] if 0 < rest < 100 else []
            return [*number(value // size), name, *joint, *(number(rest) if rest else [])]
    if value >= 100:
        rest = value % 100
        return [_ONES[value // 100], "hundred", *(["and", *number(rest)] if rest else [])]
    if value >= 20:
        return [_TENS[value // 10], *([_ONES[value % 10]] if value % 10 else [])]
    return [_ONES[value]]


def year(value: int) -> list[str]:
    """A year: nineteen fifty two, nineteen hundred, nineteen oh four, two thousand and six."""
    century, rest = divmod(value, 100)
    if not 1100 <= value <= 2099 or 2000 <= value <= 2009:
        return number(value)
    if rest == 0:
        return [*number(century), "hundred"]
    return [*number(century), *(["oh", _ONES[rest]] if rest < 10 else number(rest))]


def ordinal(value: int) -> list[str]:
    """A place in a row: twenty first."""
    *before, last = number(value)
    if last in _ORDINALS:
        return [*before, _ORDINALS[last]]
    return [*before, f"{last[:-1]}ieth" if last.endswith("y") else f"{last}th"]


def decimal(whole: str, fraction: str) -> list[str]:
    """A figure with a point: two point five; a fraction is read digit by digit."""
    return [*number(int(whole or "0")), "point", *(_ONES[int(digit)] for digit in fraction)]


def plural(word: str) -> str:
    """The word for many of it: fifties, hundreds."""
    return f"{word[:-1]}ies" if word.endswith("y") else f"{word}es" if word.endswith("x") else f"{word}s"
