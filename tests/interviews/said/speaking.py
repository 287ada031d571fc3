"""Numbers as they are spoken, for telling them to the recogniser."""

from __future__ import annotations

from archive.values.numerals import TENS, UNITS

_ONES = {value: word for word, value in UNITS.items() if word != "nought"}
_TENS = {value: word for word, value in TENS.items()}


def in_words(number: int) -> str:
    """ "Two hundred and twelve thousand and five"."""
    if number >= 1000:
        rest = number % 1000
        joined = "" if not rest else f" {'and ' if rest < 100 else ''}{in_words(rest)}"
        return f"{in_words(number // 1000)} thousand{joined}"
    if number >= 100:
        rest = number % 100
        return f"{_ONES[number // 100]} hundred{f' and {in_words(rest)}' if rest else ''}"
    if number in _ONES:
        return _ONES[number]
    ones = number % 10
    return _TENS[number - ones] + (f"-{_ONES[ones]}" if ones else "")
