"""Every figure of a line of speech. Pure; what was recognised once is remembered by its text."""

from __future__ import annotations

import re
from functools import lru_cache

from archive.interviews.said.ages import age_at
from archive.interviews.said.dates import date_at
from archive.interviews.said.line import Line
from archive.interviews.said.measures import measure_at
from archive.interviews.said.money import money_at
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import per_at, unit_at
from archive.interviews.said.words import LABELS, LINKS
from archive.values.numerals import PARTS, SCALES, TENS, UNITS

# The first that finds something has it: a sum before a year before an age before a measure.
_READERS = (money_at, date_at, age_at, measure_at)
_ORDINALS = frozenset(["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"])
_STREETS = frozenset(["row", "street", "road", "lane", "terrace", "avenue", "court", "buildings"])
_MAY_HOLD = re.compile(
    r"[\d£¼½¾]|\b(?:once|twice|thrice|an?|dozen|gross|score|penny|shilling|florin|guinea|tuppence|thruppence|\w+pence|"
    + "|".join([*UNITS, *TENS, *SCALES, *PARTS, *(f"{word[:-1]}ies" for word in TENS)])
    + r")\b",
    re.IGNORECASE,
)


@lru_cache(maxsize=65_536)
def figures_in(text: str) -> tuple[Spoken, ...]:
    """The figures of a text, in order."""
    if not _MAY_HOLD.search(text):
        return ()
    line = Line(text)
    found: list[Spoken] = []
    place = 0
    while place < len(line.words):
        passed = (
            _label(line, place)
            or _address(line, place)
            or _clock(line, place)
            or _ordinal(line, place)
            or _twins(line, place)
        )
        if passed:
            place = passed
            continue
        read = next((read for reader in _READERS if (read := reader(line, place))), None)
        if read is None:
            amount = line.amount(place)
            place = max(place + 1, amount.end if amount else 0)
            continue
        found.append(read[0])
        place = read[1]
    return tuple(found)


def _label(line: Line, place: int) -> int | None:
    """ "Number three stamp", "platform two", "No. 112": a name, not a number of things."""
    if line.word(place) not in LABELS:
        return None
    here = place + 2 if line.word(place) in {"no", "nos"} and line.word(place + 1) == "." else place + 1
    number = line.number(here)
    if number is None or line.word(place) == "no" and here == place + 1 and not number.digits:
        return None
    named = line.word(place) in {"number", "no", "nos", "numbers"}
    if not named and (
        number.value > 999 or unit_at(line, number.end) or per_at(line, number.end) or _counts(line, number.end)
    ):
        return None
    return number.end


def _address(line: Line, place: int) -> int | None:
    """ "14 Cinder Row": where somebody lives."""
    number = line.number(place)
    if number is None or number.part:
        return None
    after = [line.word(number.end + 1), line.word(number.end + 2)]
    named = number.end < len(line.words) and line.text[line.places[number.end][0]].isupper()
    return number.end if named and not _STREETS.isdisjoint(after) else None


def _counts(line: Line, end: int) -> bool:
    return line.word(end).isalpha() and line.word(end) not in LINKS


def _clock(line: Line, place: int) -> int | None:
    """ "Half past seven", "ten to eight", "eight o'clock", "seven thirty": a time of day."""
    word = line.word(place)
    if word in {"half", "quarter"} and line.word(place + 1) in {"past", "to"} and line.number(place + 2):
        return place + 3
    number = line.number(place)
    if number is None or number.part or number.year:
        return None
    after, end = line.word(number.end), number.end
    if after in {"o'clock", "o", "am", "pm"} or line.said(end, 3) in {"a . m", "p . m"}:
        return end + (2 if after == "o" and line.word(end + 1) == "'" else 1)
    if after in {"minute", "minutes"} and line.word(end + 1) in {"past", "to"}:
        after, end = line.word(end + 1), end + 1
    if after not in {"past", "to"} or number.value >= 30:
        return None
    return _hour(line, place, end, after)


def _hour(line: Line, place: int, end: int, after: str) -> int | None:
    """Where the hour ends of "ten past six", "at twenty to eight", "about five past"."""
    hour = line.number(end + 1)
    if hour is None:
        return end + 1 if after == "past" else None
    led = line.word(place - 1) in {"at", "by", "about", "till", "until", "or"} or line.word(end - 1) == "minutes"
    timed = after == "past" or (led and hour.value <= 12)
    clear = not unit_at(line, hour.end) and not per_at(line, hour.end) and not _counts(line, hour.end)
    return hour.end if clear and timed and hour.value <= 12 else None


def _ordinal(line: Line, place: int) -> int | None:
    """ "The twenty-second of March", "the thirty-first": a place in a row."""
    return place + 2 if line.word(place) in TENS and line.word(place + 1) in _ORDINALS and _close(line, place) else None


def _close(line: Line, place: int) -> bool:
    """Whether a hyphen joins a word to the next; "twenty second" with a space may be a slip for it before "of"."""
    return line.places[place + 1][0] - line.places[place][1] == 1 and (
        line.text[line.places[place][1]] == "-" or line.word(place + 2) == "of"
    )


def _twins(line: Line, place: int) -> int | None:
    """ "Fifty-fifty", "two and two", "eighty-five fifteen": the same number twice, or two in a row, is a saying."""
    number = line.number(place)
    other = line.number(number.end + (line.word(number.end) == "and")) if number and number.value > 1 else None
    if number is None or other is None or other.year or per_at(line, other.end):
        return None
    if other.value == number.value and other.end - number.end <= 2:
        return other.end
    side_by_side = line.number(number.end) is not None and number.value >= 13 and other.value >= 10
    return other.end if side_by_side and not number.year and not unit_at(line, other.end) else None
