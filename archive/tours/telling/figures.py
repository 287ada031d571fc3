"""The figures of a sentence that somebody must bear out: numbers with a unit, large counts, years and money. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from archive.reckoners.measures import convert, family_of_spelling, unit_written
from archive.reckoners.money import PENCE_IN_POUND, PENCE_IN_SHILLING, pence_written, pounds_shillings_pence
from archive.values.numerals import TENS, UNITS, Numeral, numeral_at

# Smaller counts of plain things ("two lads", "three shops") can be seen, and need nobody's word.
LARGE_COUNT = 13
ROUND_SHARE = 0.05
_FARTHING = 0.25
_HALF = 0.5

_TOKEN = re.compile(
    r"£?\d+(?:,\d{3})*(?:\.\d+)?[¼½¾]?|[¼½¾]|°[CF]\b|[A-Za-zµ][A-Za-zµ0-9]*(?:['’][a-z]+)?|[%°/,;:.!?()]"
)
_STERLING = re.compile(
    r"£\s?\d[\d,]*(?:\.\d+)?(?: \d+s\b)?(?: [\d¼½¾]+d\b)?|\b\d+s(?: [\d¼½¾]+d\b)?"
    r"|(?<![\w.])[\d¼½¾]+d\b|\b\d+/(?:\d+|-)(?!\w)"
)
_FRACTION_SIGNS = {"¼": " 1/4", "½": " 1/2", "¾": " 3/4"}
_HYPHEN = re.compile(rf"\b({'|'.join(TENS)}) ({'|'.join(list(UNITS)[1:10])})\b", re.IGNORECASE)
_DECADE = re.compile(r"\b(1[5-9]\d\d|20\d\d)['’]?s\b")
_ABOUT = {"about", "around", "roughly", "nearly", "some", "almost", "approximately", "say", "near", "over", "under"}
_PENCE = {
    "penny": 1, "halfpenny": 0.5, "farthing": 0.25, "farthings": 0.25, "twopence": 2, "tuppence": 2, "threepence": 3,
    "fourpence": 4, "fivepence": 5, "sixpence": 6, "sevenpence": 7, "eightpence": 8, "ninepence": 9, "tenpence": 10,
    "elevenpence": 11, "pence": 1, "pennies": 1, "shilling": 12, "shillings": 12, "guinea": 252, "guineas": 252,
    "crown": 60, "crowns": 60,
}  # fmt: skip
_LONE = {"penny", "farthing", "shilling", "guinea", "halfpenny", "crown"}
_WHOLE_COINS = {word for word, worth in _PENCE.items() if word.endswith("pence") and worth > 1}
_TIMES = {"second", "minute", "hour", "day", "week", "month", "year"}
_TRADE = {
    "times", "strokes", "stroke", "blows", "gross", "dozen", "percent", "%", "degrees", "degree", "decibels", "db",
    "tons", "o'clock", "parts", "knots", "joules", "gauge", "rpm", "turns",
}  # fmt: skip
_STOPS = frozenset(",;:.!?()")
# Units that count things which can be seen.
_COUNTED = {"count", "people", "rows", "points", "lifts", "lots", "machines"}
# Short spellings of units that are everyday words.
_EVERYDAY = {
    "numbers",
    "number",
    "in",
    "a",
    "to",
    "off",
    "x",
    "s",
    "m",
    "c",
    "f",
    "d",
    "fine",
    "hand",
    "hands",
    "press",
    "at",
    "as",
    "b",
}
_ORDERS = re.compile(
    r"^(?:and |but |now |then |so )?(?:look|talk|think|count|stand|take|try|keep|choose|imagine|put|hold|find|listen|"
    r"multiply|remember|come|pass|feel|lift|lay|ask|wait|tell|guess|turn)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Figure:
    """A figure as it is written, its value, the symbol of its unit if we know it, and how far it may be off.

    Money is in old pence. A decade is a year with ten years of slack.
    """

    written: str
    value: float
    kind: str
    unit: str = ""
    slack: float = _HALF
    about: bool = False

    @property
    def in_digits(self) -> str:
        """As a reckoner's reader takes it."""
        about = "about " if self.about else ""
        if self.kind == "money":
            return f"{about}{pounds_shillings_pence(self.value)}"
        return f"{about}{self.value:.10g} {self.unit}".rstrip()


def claims(sentence: str) -> tuple[Figure, ...]:
    """The figures that a sentence asserts: none in a question or in what listeners are bidden to do."""
    if sentence.rstrip("\"”’' ").endswith("?") or _ORDERS.match(sentence):
        return ()
    return figures_in(sentence)


@lru_cache(maxsize=4096)
def figures_in(text: str) -> tuple[Figure, ...]:
    """Every figure of a text, in order of kind: money in signs first, then as they stand."""
    text = _DECADE.sub(r"\1 s", text)
    sums = [Figure(match[0], pence, "money", slack=_FARTHING / 2) for match in _STERLING.finditer(text)
            if (pence := _pence(match[0])) is not None]  # fmt: skip
    tokens = _TOKEN.findall(_STERLING.sub(" , ", text).replace("-", " ").replace("–", " to "))
    return (*sums, *_walk(tokens))


def agree(claim: Figure, known: Figure) -> bool:
    """Whether a known figure bears out a claim: the same value in units that may be the same."""
    if "money" in (claim.kind, known.kind):
        same = claim.kind == known.kind
        return same and abs(claim.value - known.value) <= max(claim.slack, known.slack if known.about else 0)
    if claim.kind == "year" and known.kind == "year":
        return abs(claim.value - known.value) < max(claim.slack, known.slack)
    value = known.value
    if claim.unit and known.unit and claim.unit != known.unit:
        family = family_of_spelling(claim.unit)
        if family != family_of_spelling(known.unit) or not family:
            return False
        value = convert(known.value, known.unit, claim.unit)
    return abs(claim.value - value) <= max(claim.slack, known.slack if known.about else 0) * (1 + 1e-9)


def _pence(written: str) -> float | None:
    plain = written.replace(",", "")
    for sign, part in _FRACTION_SIGNS.items():
        plain = plain.replace(sign, part)
    return pence_written(plain)


def _walk(tokens: Sequence[str]) -> list[Figure]:
    found: list[Figure] = []
    place = 0
    while place < len(tokens):
        money = _spelt_money(tokens, place)
        if money:
            found.append(money[0])
            place = money[1]
            continue
        number = numeral_at(tokens, place)
        if number is None:
            place += 1
            continue
        figure = _figure(tokens, place, number)
        if figure:
            found.append(figure)
        place = number.end
    return found


def _figure(tokens: Sequence[str], start: int, number: Numeral) -> Figure | None:
    about = _is_about(tokens, start)
    if number.year and not _unit(tokens, number.end)[0]:
        written = _written(tokens[start : number.end])
        decade = number.end < len(tokens) and tokens[number.end] == "s"
        return Figure(
            f"{written}s" if decade else written,
            number.value,
            "year",
            slack=10 if decade else 5 if about else 1,
            about=about,
        )
    unit, spelling, end = _unit_of_range(tokens, number)
    if not unit and not spelling and (number.part or number.value < LARGE_COUNT):
        return None
    small = number.value == 1 and not number.digits
    if small and spelling.rstrip("s") in _TIMES:
        return None
    slack = _slack(number, about)
    return Figure(
        _written(tokens[start:end]), number.value, "quantity" if unit or spelling else "count", unit, slack, about
    )


def _slack(number: Numeral, about: bool) -> float:
    slack = 0.02 * number.value if number.part else _HALF * 10.0**-number.decimals
    if about:
        slack = max(slack, ROUND_SHARE * number.value)
    # Words that are said aloud are rounder than print: "twenty-eight thousand" stands for 28,000 and no other.
    return slack


def _unit_of_range(tokens: Sequence[str], number: Numeral) -> tuple[str, str, int]:
    """The unit after a number; the first number of "427 to 788 °C" has that of the second."""
    unit, spelling, end = *_unit(tokens, number.end), number.end
    if unit or spelling:
        while tokens[end].lower() in ("of", "a", "an"):
            end += 1
        return unit, spelling, end + len(spelling.split())
    joined = number.end < len(tokens) and tokens[number.end].lower() in ("to", "and", "or")
    other = numeral_at(tokens, number.end + 1) if joined and number.end + 1 < len(tokens) else None
    if other is None or other.year:
        return "", "", end
    return *_unit(tokens, other.end), end


def _unit(tokens: Sequence[str], start: int) -> tuple[str, str]:
    """The symbol of a known unit and how it is spelt; a trade's unit has no symbol."""
    while start < len(tokens) and tokens[start].lower() in ("of", "a", "an"):
        if tokens[start].lower() != "of" and tokens[start - 1].lower() not in ("of", "half", "quarter"):
            break
        start += 1
    stop = next((place for place in range(start, min(start + 4, len(tokens))) if tokens[place] in _STOPS), start + 4)
    for count in range(stop - start, 0, -1):
        spelling = " ".join(_plain(token) for token in tokens[start : start + count])
        printed = spelling == "m" and start > 0 and tokens[start - 1][0].isdigit()
        family = None if spelling.lower() in _EVERYDAY and not printed else family_of_spelling(spelling)
        known = unit_written(spelling, family) if family else None
        if known and known.family in _COUNTED:
            break
        if known:
            # "Degrees" alone are of heat here, more often than of an angle.
            return "" if known.family == "angle" else known.symbol, spelling
    word = _plain(tokens[start]).lower() if start < len(tokens) else ""
    if word == "per" and start + 1 < len(tokens) and tokens[start + 1].lower() == "cent":
        return "%" if family_of_spelling("%") else "", "per cent"
    return "", word if word in _TRADE or word in _TIMES or word.rstrip("s") in _TIMES else ""


def _spelt_money(tokens: Sequence[str], start: int) -> tuple[Figure, int] | None:
    """ "nine shillings and threepence", "seven and sixpence", "a penny", "half a crown", "£2"."""
    pence, place, coins = 0.0, start, 0
    while place < len(tokens):
        worth, after = _coin(tokens, place)
        if worth is None:
            break
        pence, place, coins = pence + worth, after, coins + 1
        if place < len(tokens) and tokens[place].lower() == "and" and _coin(tokens, place + 1)[0] is not None:
            place += 1
    if not coins:
        return None
    about = _is_about(tokens, start)
    slack = max(_FARTHING / 2, ROUND_SHARE * pence if about else 0)
    return Figure(_written(tokens[start:place]), pence, "money", slack=slack, about=about), place


def _coin(tokens: Sequence[str], start: int) -> tuple[float | None, int]:
    words = [token.lower() for token in tokens[start : start + 4]] + [""] * 4
    if words[0] in _WHOLE_COINS:
        return _PENCE[words[0]], start + 1
    if words[0] == "half" and words[1] in ("a", "an") and words[2] in _PENCE:
        return _PENCE[words[2]] / 2, start + 3
    if words[0] in ("a", "an", "one") and words[1] in _LONE:
        return _PENCE[words[1]], start + 2
    number = numeral_at(tokens, start) if start < len(tokens) else None
    if number is None:
        return None, start
    word = tokens[number.end].lower() if number.end < len(tokens) else ""
    if word in _PENCE and word not in _WHOLE_COINS:
        return number.value * _PENCE[word], number.end + 1
    after = tokens[number.end + 1].lower() if number.end + 1 < len(tokens) else ""
    if word == "and" and after in _WHOLE_COINS:
        return number.value * PENCE_IN_SHILLING + _PENCE[after], number.end + 2
    follow = numeral_at(tokens, number.end + 1) if number.end + 1 < len(tokens) else None
    if word in ("pound", "pounds") and follow and tokens[min(follow.end, len(tokens) - 1)].lower() in _PENCE:
        return number.value * PENCE_IN_POUND, number.end + 1
    return None, start


def _written(tokens: Sequence[str]) -> str:
    """The words as they stand, with the hyphen of "forty-seven" back in its place."""
    return _HYPHEN.sub(r"\1-\2", " ".join(tokens))


def _plain(token: str) -> str:
    """A word without the ending of "an hour's money"."""
    return token.replace("’", "'").removesuffix("'s").removesuffix("'")


def _is_about(tokens: Sequence[str], start: int) -> bool:
    return start > 0 and tokens[start - 1].lower() in _ABOUT
