"""Years and decades as they are spoken: "nineteen oh six", "in fifty-one", "the late forties". Pure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from archive.interviews.said.line import Line
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import per_at, unit_at
from archive.interviews.said.words import LINKS, PRONOUNS, SEASONS, listed
from archive.values.numerals import TENS

_DECADES = {f"{word[:-1]}ies": worth for word, worth in TENS.items()}
_PARTS = {"early": (0, 4), "mid": (4, 6), "middle": (4, 6), "late": (5, 9), "later": (5, 9)}
_IN = (
    listed("in since from until till during christmas easter whitsun summer autumn spring winter early late") | SEASONS
)
_NEAR = listed("by before after about around roughly to of")
_WHOSE = listed("my his her their your our")
_OPEN_BEFORE = listed("before until till")
_OPEN_AFTER = listed("since after")
_LEAST_SHORT = 20


@dataclass(frozen=True)
class _Years:
    low: int
    high: int
    end: int
    certain: bool = True


def date_at(line: Line, place: int) -> tuple[Spoken, int] | None:
    """The year, decade or stretch of years that begins at a place, and where it ends."""
    first = _decade(line, place) or _year(line, place) or _short(line, place)
    if first is None:
        return None
    low, high, end = float(first.low), float(first.high), first.end
    second = _second(line, place, first)
    if second:
        high, end = second.high, second.end
    elif line.word(place - 1) in _OPEN_BEFORE and line.word(place - 2) not in {"not", "from"}:
        low = -math.inf
    elif _goes_on(line, place, end):
        high = math.inf
    start = place
    return Spoken("date", low, high, "year", line.places[start][0], line.places[end - 1][1]), end


def _goes_on(line: Line, place: int, end: int) -> bool:
    onwards = line.word(end) in {"on", "onwards", "onward"} and line.word(place - 1) == "from"
    return onwards or line.word(place - 1) in _OPEN_AFTER


def _second(line: Line, place: int, first: _Years) -> _Years | None:
    """The further end of "from nineteen forty-nine to seventy-one", "1914-18", "fifty-one or fifty-two"."""
    join = line.word(first.end)
    between = line.word(place - 1) == "between" and join == "and"
    if not between and join not in {"to", "till", "until", "or"} and not join.startswith("~"):
        return None
    here = first.end + 1
    second = _decade(line, here) or _year(line, here) or _two_digits(line, here, first.low // 100)
    return second if second and second.low > first.low else None


def _decade(line: Line, place: int) -> _Years | None:
    """ "The late forties", "the nineteen-fifties", "the '50s", "1950s"; those of a person's life are ages."""
    here, part = place, (0, 9)
    if line.word(here) in _PARTS and line.word(here + 1) != "of":
        part, here = _PARTS[line.word(here)], here + 1
    century, here, named = 19, here, False
    number = line.number(here)
    if number and number.value in {17, 18, 19} and line.word(number.end) in _DECADES:
        century, here, named = int(number.value), number.end, True
    word = line.word(here)
    if word in _DECADES:
        tens = _DECADES[word]
    elif word.strip("'").endswith("0s") and word.strip("'s").isdigit():
        tens = int(word.strip("'s")) % 100
    elif number and number.year and line.word(here + 1) == "s":
        century, tens, here, named = int(number.value) // 100, int(number.value) % 100, here + 1, True
    else:
        return None
    led = line.word(place - 1) in {"the", "nineteen", "mid", "early", "late", "or", "to", "and", "~"} or place != here
    if not named and (not led or line.word(place - 1) in _WHOSE):
        return None
    start = century * 100 + tens
    return _Years(start + part[0], start + part[1], here + 1)


def _year(line: Line, place: int) -> _Years | None:
    """A year in full: "nineteen thirty-one", "1931", "nineteen hundred and six", "two thousand and one"."""
    number = line.number(place)
    if number is None or number.part:
        return None
    value, end = number.value, number.end
    if line.word(end) == "s" and number.digits:
        return None
    if number.year:
        counts = number.digits and not _led(line, place) and not _free(line, end)
        return None if unit_at(line, end) or counts else _Years(int(value), int(value), end)
    whole = value in {1800, 1900, 2000} or 1900 < value < 1910 or 2000 < value < 2030
    led = _led(line, place) or (line.begins(place) and 1900 < value < 1910)
    if whole and value % 1 == 0 and led and _free(line, end):
        return _Years(int(value), int(value), end)
    return None


def _short(line: Line, place: int) -> _Years | None:
    """ "In fifty-one", "'44", and a year that begins a sentence: "Forty-six I went in the stamp shop"."""
    if line.word(place).startswith("'") and line.word(place)[1:3].isdigit():
        return _two_digits(line, place, 19)
    years = _two_digits(line, place, 19)
    if years is None or per_at(line, years.end):
        return None
    odd, before = years.low % 10 != 0, line.word(place - 1)
    further = _further(line, years)
    if before in _IN and line.word(place - 2) != "put" and (odd or before not in {"from"} or further):
        return years
    if before in {"about", "around", "roughly"} and line.word(place - 2) in _IN and odd:
        return years
    if before == "of" and line.word(place - 2) in SEASONS:
        return years
    if before in _NEAR - {"of", "to", "about"} and odd:
        return years
    if before == "," and odd and line.sentence(place) & {"war", "blitz"}:
        return years
    if line.begins(place) and odd and _told(line, years.end, further):
        return years
    return None


def _told(line: Line, end: int, further: bool) -> bool:
    """Whether a short year that begins a sentence is one: told alone, or before who did what, or up to another."""
    if line.word(end) == "?":
        return False
    return further or line.word(end) in {"."} or line.word(end) in PRONOUNS - {"who", "that", "me", "him", "them", "us"}


def _further(line: Line, first: _Years) -> bool:
    if line.word(first.end) not in {"to", "till", "until"} and not line.word(first.end).startswith("~"):
        return False
    second = _two_digits(line, first.end + 1, 19)
    return second is not None and second.low > first.low and (first.low % 10 != 0 or second.low % 10 != 0)


def _two_digits(line: Line, place: int, century: int) -> _Years | None:
    word = line.word(place)
    if word.startswith("'") and word[1:].isdigit():
        return _Years(century * 100 + int(word[1:]), century * 100 + int(word[1:]), place + 1)
    number = line.number(place)
    if number is None or number.part or number.value % 1 or not 10 <= number.value <= 99 or number.value < _LEAST_SHORT:
        return (
            None
            if number is None or not number.digits or not 10 <= number.value <= 19 or century != 19
            else (
                _Years(1900 + int(number.value), 1900 + int(number.value), number.end)
                if _after_year(line, place)
                else None
            )
        )
    if not _free(line, number.end):
        return None
    return _Years(century * 100 + int(number.value), century * 100 + int(number.value), number.end)


def _after_year(line: Line, place: int) -> bool:
    """Whether digits follow a year's dash, as in 1914-18."""
    before = line.number(place - 2) if place >= 2 else None
    return line.word(place - 1).startswith("~") and before is not None and before.year


def _led(line: Line, place: int) -> bool:
    before = line.word(place - 1)
    if before in _IN or before in _NEAR or before in {"the", "between"}:
        return True
    return before in {",", "or", "and", "to", "till"} and bool(line.sentence(place) & SEASONS)


def _free(line: Line, end: int) -> bool:
    """Whether nothing is counted or measured by the number that ends here."""
    if unit_at(line, end) or line.word(end) in {"odd", "per", "percent", "of", "past", "o'clock"}:
        return False
    return line.pauses(end) or line.word(end) in LINKS or line.word(end).startswith("~") or line.word(end) == "onwards"
