"""Amounts with a unit, rates, and counts of things: "four foot six", "forty a minute", "thirty-one women". Pure."""

from __future__ import annotations

from archive.interviews.said.line import Amount, Line
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import PER_TIME, UNITS, Unit, per_at, unit_at
from archive.interviews.said.words import LINKS, WEIGHT_TALK, listed

_LARGE = 13
_OF = {"a", "an", "of", "good", "whole", "full", "solid", "square", "cubic"}
# The smaller unit that may follow the larger one, named or understood: "four foot six", "ten stone four".
_SMALLER = {"ft": ("inch", 12), "stone": ("lb", 14), "yd": ("foot", 3), "lb": ("ounce", 16), "h": ("minute", 60),
            "ton": ("hundredweight", 20), "cwt": ("lb", 112), "year": ("month", 12), "mile": ("yard", 1760),
            "min": ("second", 60), "day": ("hour", 24), "week": ("day", 7)}  # fmt: skip
_UNDERSTOOD = {"ft", "stone"}
_PRESSURE = {"to the inch", "per square inch", "to the square inch", "a square inch"}
_OFTEN = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_TIMES = listed("times time strokes stroke blows blow revs revolutions turns")
_PEOPLE = listed("us them those you these")
# "One day" is some day.
_SOME = {"day", "week", "month", "year"}
_FRACTIONS = {"a half": 0.5, "half": 0.5, "a quarter": 0.25, "three quarters": 0.75, "a third": 1 / 3}
_IDIOMS = ("nineteen to the dozen", "forty winks", "second to none", "ten a penny", "twenty four seven",
           "sixes and sevens", "six of one", "one of those", "four by two", "hundred per cent sure")  # fmt: skip


def measure_at(line: Line, place: int) -> tuple[Spoken, int] | None:
    """The amount with a unit, the rate or the count that begins at a place, and where it ends."""
    if line.word(place) in _OFTEN:
        per = per_at(line, place + 1)
        often = _OFTEN[line.word(place)]
        return _spoken(line, "rate", often, often, f"/{per[0]}", place, per[1]) if per and _is_time(per[0]) else None
    if any(line.said(place, len(idiom.split())) == idiom for idiom in _IDIOMS):
        return None
    amount = line.amount(place) or _one_span(line, place)
    if amount is None:
        return None
    return _measured(line, amount) or _rate(line, amount) or _count(line, amount)


def _one_span(line: Line, place: int) -> Amount | None:
    """ "An hour and a half", "a week, that took": a lone span of time is a figure only where it is told as one."""
    if line.word(place) not in {"a", "an"} or line.word(place + 1) not in PER_TIME | {"foot", "yard", "pound", "stone"}:
        return None
    led = line.word(place - 1) in {
        "had",
        "spent",
        "for",
        "in",
        "took",
        "within",
        "about",
        "nearly",
        "wait",
        "takes",
        "lasted",
        "over",
    }
    time = line.word(place + 1) in PER_TIME - {"second", "night", "shift"}
    following = _fraction(line, place + 2)
    return Amount(1, 1, place, place + 1) if following or (led and time and line.word(place + 2) != "or") else None


def _measured(line: Line, amount: Amount) -> tuple[Spoken, int] | None:
    unit, many, end = _unit_of(line, amount)
    if unit is None:
        return None
    if unit.symbol == "s" and (line.word(end) in {"time", "of", "floor", "hand"}) and amount.low != 1:
        # "The twenty-second of March".
        return None
    if unit.family == "duration" and line.word(amount.start) == "one" and line.word(end - 1) in _SOME:
        return None
    low, high = amount.low * many, amount.high * many
    extra, end = _more(line, unit, end)
    low, high, symbol = low + extra, high + extra, unit.symbol
    odd = line.word(end) == "odd"
    per = _per_time(line, end + odd)
    if unit.family == "count" and not per:
        per, times = _per_later(line, end)
        low, high, symbol = (low * unit.worth, high * unit.worth, "") if times and per else (low, high, symbol)
    if line.said(end, 3) in _PRESSURE or line.said(end, 4) in _PRESSURE:
        return None
    kind = unit.kind
    if kind == "duration" and amount.part and line.word(end) == "past":
        return None
    if per and (per[0] != symbol):
        kind, symbol, end = "rate", f"{symbol}/{per[0]}", per[1]
    return _spoken(line, kind, low, high, symbol, amount.start, end)


def _per_time(line: Line, place: int) -> tuple[str, int] | None:
    """What time an amount is done in; "two dozen to a card" is no rate."""
    per = per_at(line, place)
    return per if per and _is_time(per[0]) else None


def _per_later(line: Line, end: int) -> tuple[tuple[str, int] | None, bool]:
    """The time after the things of "two hundred dozen cards a month", and whether the things are times."""
    if not line.word(end).isalpha() or line.word(end) in LINKS:
        return None, False
    return _per_time(line, end + 1), line.word(end) in _TIMES


def _unit_of(line: Line, amount: Amount) -> tuple[Unit | None, float, int]:
    here = amount.end
    if amount.thou:
        # "Two thou of brass"; "two thousandths of an inch" says so.
        end = here + 3 if line.said(here, 3) in {"of an inch", "of a inch"} else here
        end = amount.end + 1 if line.word(here) == "inch" else end
        return UNITS["thou"], 1, end
    if line.word(here) in {"of", "whole", "full", "solid", "good", "long", "more", "odd"} and not amount.part:
        here += 1 if line.word(here) != "of" else 0
    if line.word(here) == "horse" and line.word(here + 1) in {"motor", "engine", "dynamo", "gas"}:
        return UNITS["hp"], 1, here + 1
    if line.word(here) in {"pound", "pounds"} and _is_weight(line, here):
        return UNITS["lb"], 1, here + 1 + (line.word(here + 1) == "weight")
    found = unit_at(line, here) or _by(line, amount)
    if found is None and amount.part and line.word(here) == "of" and line.word(here + 1) in {"a", "an"}:
        found = unit_at(line, here + 2)
    if (
        found is None
        or found[0].symbol in {"g", "m", "V", "A", "W"}
        and len(line.word(here)) == 1
        and not amount.digits
    ):
        return None, 1, here
    return found


def _by(line: Line, amount: Amount) -> tuple[Unit, float, int] | None:
    """The unit of the other side: "twelve by eighteen inches", "two foot by four"."""
    other = line.amount(amount.end + 1) if line.word(amount.end) == "by" else None
    found = unit_at(line, other.end) if other else None
    if found is None and line.word(amount.start - 1) == "by":
        found = unit_at(line, amount.start - 2)
    return (found[0], 1, amount.end) if found and found[0].family == "length" else None


def _is_weight(line: Line, place: int) -> bool:
    if line.sentence(place) & {"steam", "pressure", "boiler"}:
        return False
    if line.said(place + 1, 4) == "and a half of":
        return True
    return line.word(place + 1) in {"of", "weight"} or bool(line.sentence(place) & WEIGHT_TALK)


def _more(line: Line, unit: Unit, end: int) -> tuple[float, int]:
    """What follows the larger unit: "and a half", "six inches", the bare "six" of four foot six."""
    fraction = _fraction(line, end)
    if fraction:
        return fraction
    if unit.symbol not in _SMALLER:
        return 0, end
    word, parts = _SMALLER[unit.symbol]
    here = end + 1 if line.word(end) in {"and", ","} else end
    number = line.number(here)
    if number is None or number.year or number.value >= parts:
        return 0, end
    named = unit_at(line, number.end)
    pounds = word == "lb" and line.word(number.end) in {"pound", "pounds"}
    if pounds or (named and named[0] is UNITS[word]):
        return number.value / parts, number.end + 1
    bare = unit.symbol in _UNDERSTOOD and here == end and not named
    hyphen = line.text[line.places[here][0] - 1] == "-"
    if bare and (
        hyphen or line.pauses(number.end) or line.word(number.end) in LINKS | {"high", "long", "wide", "deep", "tall"}
    ):
        return number.value / parts, number.end
    return 0, end


def _fraction(line: Line, end: int) -> tuple[float, int] | None:
    if line.word(end) != "and":
        return None
    for count in (2, 1):
        value = _FRACTIONS.get(line.said(end + 1, count))
        if value and not (line.word(end + count + 1) in {"a", "dozen"} or unit_at(line, end + count + 1)):
            return value, end + count + 1
    return None


def _rate(line: Line, amount: Amount) -> tuple[Spoken, int] | None:
    """So many in a time: "eight to twelve a minute", "four hundred dies a year", "three times a week"."""
    if amount.part or amount.year:
        return None
    here = amount.end
    for _more_words in range(4):
        per = per_at(line, here)
        if per and _is_time(per[0]):
            symbol = f"/{per[0]}"
            return _spoken(line, "rate", amount.low, amount.high, symbol, amount.start, per[1])
        if not line.word(here).isalpha() or line.word(here) in LINKS - {"of"}:
            break
        if line.word(here) in {"rev", "revs", "revolutions", "rpm"} and not per_at(line, here + 1):
            return _spoken(line, "rate", amount.low, amount.high, "/min", amount.start, here + 1)
        here += 1
    if line.word(amount.end) == "mph" or line.said(amount.end, 3) == "miles an hour":
        return _spoken(line, "rate", amount.low, amount.high, "mile/h", amount.start, amount.end + 1)
    return None


def _count(line: Line, amount: Amount) -> tuple[Spoken, int] | None:
    """So many things; a small number that counts nothing is none, and "one" is mostly no number."""
    word, end = line.word(amount.end), amount.end
    lone = line.word(amount.start) == "one" and line.word(amount.start - 1) in {"had", "only", "just"}
    if amount.part or amount.high <= (0 if lone else 1) or amount.year and not amount.digits:
        return None
    if word in {"pound", "pounds", "gauge"} or unit_at(line, end):
        return None
    if word == "of" and line.word(end + 1) in _PEOPLE:
        return _spoken(line, "quantity", amount.low, amount.high, "", amount.start, end)
    counts = word.isalpha() and word not in LINKS and word not in {"more", "times" if lone else ""}
    if not counts and min(abs(amount.low), abs(amount.high)) < _LARGE:
        return None
    return _spoken(line, "quantity", amount.low, amount.high, "", amount.start, end)


def _is_time(per: str) -> bool:
    return per in {"s", "min", "h"} or per in PER_TIME


def _spoken(line: Line, kind: str, low: float, high: float, unit: str, start: int, end: int) -> tuple[Spoken, int]:
    return Spoken(kind, low, high, unit, line.places[start][0], line.places[end - 1][1]), end
