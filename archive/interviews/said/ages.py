"""How old people are said to be: "fifteen years old", "I was sixteen", "a lad of fourteen". Pure."""

from __future__ import annotations

import math

from archive.interviews.said.line import Amount, Line
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import per_at, unit_at
from archive.interviews.said.words import BEINGS, LINKS, SPEAKERS, WHO, listed
from archive.values.numerals import TENS

_OLDEST = 110
_LEAST_AT = 12
_DECADES = {f"{word[:-1]}ies": worth for word, worth in TENS.items()} | {"teens": 13}
_PARTS = {"early": (0, 4), "mid": (4, 6), "late": (5, 9)}
_WHOSE = listed("my his her their your our")
_BY_THEN = listed("when before then at by")


def age_at(line: Line, place: int) -> tuple[Spoken, int] | None:
    """The age that begins at a place, and where it ends."""
    decade = _decade(line, place)
    if decade:
        return decade
    amount = line.amount(place)
    if amount is None or amount.part or amount.year or not 0 < min(abs(amount.low), abs(amount.high)) < _OLDEST:
        return None
    end, share = _years_old(line, amount) or 0, _share_of_a_year(line, amount)
    if not end and _is_told(line, amount):
        end = amount.end
    if not end:
        return None
    low = -math.inf if line.said(place - 2, 2) == "not yet" else amount.low * share
    return Spoken("age", low, amount.high * share, "year", line.places[place][0], line.places[end - 1][1]), end


def _decade(line: Line, place: int) -> tuple[Spoken, int] | None:
    """ "In my late forties"."""
    here, part = place, (0, 9)
    if line.word(here) in _PARTS:
        part, here = _PARTS[line.word(here)], here + 1
    if line.word(here) not in _DECADES or line.word(place - 1) not in _WHOSE:
        return None
    low = _DECADES[line.word(here)]
    ends = (13, 19) if low == 13 else (low + part[0], low + part[1])
    return Spoken("age", *ends, "year", line.places[place][0], line.places[here][1]), here + 1


def _years_old(line: Line, amount: Amount) -> int | None:
    """Where "years old", "years of age" or "year-olds" ends."""
    if line.word(amount.end) not in {"year", "years", "month", "months", "week", "weeks"}:
        return None
    if line.word(amount.end + 1) in {"old", "olds"}:
        return amount.end + 2
    return amount.end + 3 if line.said(amount.end + 1, 2) == "of age" else None


def _share_of_a_year(line: Line, amount: Amount) -> float:
    return {"month": 1 / 12, "months": 1 / 12, "week": 1 / 52, "weeks": 1 / 52}.get(line.word(amount.end), 1)


def _is_told(line: Line, amount: Amount) -> bool:
    start, end = amount.start, amount.end
    if line.word(start - 1) == "aged" or line.said(start - 2, 2) in {"age of", "age was", "at age"}:
        return True
    if not (line.pauses(end) or line.word(end) in LINKS) or unit_at(line, end) or per_at(line, end):
        return False
    if line.word(end) in {"of", "to", "into", "o'clock"}:
        return False
    if line.said(start - 2, 2) == "not yet":
        return True
    return _of_somebody(line, start) or _somebody_was(line, start, end) or _at_that_age(line, start, end)


def _of_somebody(line: Line, start: int) -> bool:
    """ "A lad of fourteen", "all of us over twenty-five"."""
    if line.word(start - 1) in {"over", "under"}:
        return line.word(start - 2) in WHO
    return line.word(start - 1) == "of" and line.word(start - 2) in WHO - {"those", "people", "men", "women", "them"}


def _somebody_was(line: Line, start: int, end: int) -> bool:
    """ "I was sixteen", "she'd be about sixty", "he turned twenty-one"."""
    place = line.before(start)
    while place >= 0 and line.word(place) in {"what", "not", "then", "barely", "still", "getting", "on", "for"}:
        place = line.before(place)
    if line.word(place) == "turned":
        return line.word(start) not in {"one"} and line.word(end) != "in"
    if line.word(place) not in BEINGS or line.word(start) == "one":
        return False
    who = line.word(place - 1) if line.word(place) not in {"i'm", "she's", "he's"} else "i"
    if who in {"'d", "would", "must", "could", "have"}:
        who = line.word(place - 2)
    return who in SPEAKERS | WHO - {"those", "them"} and line.word(end) not in {
        "at",
        "on",
        "down",
        "up",
        "off",
        "from",
        "into",
        "to",
    }


def _at_that_age(line: Line, start: int, end: int) -> bool:
    """ "At fourteen you left school", "sixteen when I started"."""
    amount = line.amount(start)
    least = amount.low if amount else 0
    if least < _LEAST_AT:
        return False
    somebody = bool(line.sentence(start) & (SPEAKERS | WHO | {"we"}))
    if (
        somebody
        and line.word(start - 1) == "at"
        and line.word(start - 2)
        not in {
            "look",
            "sold",
            "price",
            "paid",
            "stood",
            "stopped",
        }
    ):
        return True
    spoke = line.word(end) == "when" and line.word(end + 1) in SPEAKERS
    return spoke and (line.begins(start) or line.word(start - 1) in {",", "only", "just", "about"})
