"""Sums of money as they are spoken, in old pence: "seven and six", "half a crown", "three pound ten". Pure."""

from __future__ import annotations

from dataclasses import dataclass

from archive.interviews.said.line import Amount, Line
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import per_at, unit_at
from archive.interviews.said.words import LINKS, MONEY_TALK, WEIGHT_TALK
from archive.reckoners.money import PENCE_IN_SHILLING, pence_written

_COINS = {
    "farthing": 0.25, "farthings": 0.25, "halfpenny": 0.5, "halfpennies": 0.5, "ha'penny": 0.5, "ha'pence": 0.5,
    "penny": 1, "pennies": 1, "pence": 1, "shilling": 12, "shillings": 12, "bob": 12, "florin": 24, "florins": 24,
    "crown": 60, "crowns": 60, "guinea": 252, "guineas": 252, "sovereign": 240, "sovereigns": 240, "quid": 240,
    "pound": 240, "pounds": 240, "tanner": 6, "tanners": 6, "sixpence": 6, "sixpences": 6, "tenner": 2400,
    "fiver": 1200, "ha'pennies": 0.5, "halfcrown": 30,
}  # fmt: skip
_WHOLE = {
    "twopence": 2, "tuppence": 2, "threepence": 3, "thruppence": 3, "thrupence": 3, "fourpence": 4, "fivepence": 5,
    "sixpence": 6, "sevenpence": 7, "eightpence": 8, "ninepence": 9, "tenpence": 10, "elevenpence": 11,
}  # fmt: skip
_POUNDS = {"pound", "pounds", "quid"}
_SMALL = {"ha'penny": 0.5, "halfpenny": 0.5, "farthing": 0.25}
# Words that are coins only where money is spoken of: a polisher's bob, a king's crown, a pound to a dog.
_OTHER_THINGS = {"bob", "crown", "sovereign", "pound", "tanner"}
_NEW = {"p", "np"}


@dataclass(frozen=True)
class _Sum:
    low: float
    high: float
    end: int
    unit: str = "d"


def money_at(line: Line, place: int) -> tuple[Spoken, int] | None:
    """The sum of money that begins at a place, with what it is paid by, and where it ends."""
    found = _sum(line, place)
    if found is None:
        return None
    low, high, end = found.low, found.high, found.end
    second = _sum(line, end + 1) if line.word(end) in {"to", "or", "~"} else None
    if second and second.unit == found.unit and low < second.high:
        high, end = second.high, second.end
    per = per_at(line, end)
    unit = found.unit
    if per:
        unit, end = f"{unit}/{per[0]}", per[1]
    return Spoken("money", low, high, unit, line.places[place][0], line.places[end - 1][1]), end


def _sum(line: Line, place: int) -> _Sum | None:
    return _in_signs(line, place) or _in_coins(line, place) or _shillings_and_pence(line, place)


def _in_signs(line: Line, place: int) -> _Sum | None:
    """ "£2 10s", "7/6", "4½d"."""
    word = line.word(place)
    if not any(sign in word for sign in "£/") and not word.endswith(("d", "s")) or not any(map(str.isdigit, word)):
        return None
    if "/" in word and "£" not in word and (unit_at(line, place + 1) or line.word(place + 1) == "of"):
        # "3/8 inch plate".
        return None
    for sign, part in (("¼", " 1/4"), ("½", " 1/2"), ("¾", " 3/4")):
        word = word.replace(sign, part)
    pence = pence_written(word.replace("-", " ") if not word.endswith("/-") else word)
    return None if pence is None else _Sum(pence, pence, place + 1)


def _in_coins(line: Line, place: int) -> _Sum | None:
    """Coins named one after another: "nine shillings and threepence", "two pound ten and six", "a guinea"."""
    first = _coin(line, place)
    if first is None:
        return None
    low, high, end, worth = first
    while True:
        here = end + 1 if line.word(end) in {"and", ","} else end
        more = _coin(line, here) or _bare(line, here, worth)
        if more is None or more[3] >= worth or (line.word(end) == "," and more[3] == 0):
            break
        low, high, end, worth = low + more[0], high + more[1], more[2], more[3]
    unit = "p" if worth == -1 else "d"
    return _Sum(low, high, end, unit)


def _coin(line: Line, place: int) -> tuple[float, float, int, float] | None:
    """An amount of one coin: both ends in pence, where it ends, and the coin's worth (-1 for new pence)."""
    word = line.word(place)
    if word in _WHOLE and not _is_sixpence_of(line, place):
        extra = _SMALL.get(line.word(place + 1), 0)
        return _WHOLE[word] + extra, _WHOLE[word] + extra, place + (2 if extra else 1), 1
    if word in {"a", "an", "one"} and line.word(place + 1) in _COINS:
        if line.word(place + 1) in _OTHER_THINGS and not line.sentence(place) & MONEY_TALK - _OTHER_THINGS:
            return None
        return _named(line, Amount(1, 1, place, place + 1))
    if word in {"a", "an"} and line.said(place + 1, 2) == "half crown":
        return 30, 30, place + 3, 30
    amount = line.amount(place)
    return _named(line, amount) if amount and not amount.year else None


def _is_sixpence_of(line: Line, place: int) -> bool:
    """ "Two sixpences" is read from its number."""
    return line.word(place) == "sixpence" and line.word(place - 1) in {"two", "three"}


def _named(line: Line, amount: Amount) -> tuple[float, float, int, float] | None:
    word, end = line.word(amount.end), amount.end + 1
    if amount.part and word == "half" and line.word(amount.end + 1) == "crown":
        return None
    if word == "half" and line.word(amount.end + 1) in {"crown", "crowns"}:
        return amount.low * 30, amount.high * 30, end + 1, 30
    if word == "new" and line.word(end) in {"pence", "penny", "p"}:
        return amount.low, amount.high, end + 1, -1
    if word in _NEW:
        return amount.low, amount.high, end, -1
    worth = _COINS.get(word)
    if word in _POUNDS and line.sentence(amount.start) & {"steam", "pressure", "boiler"}:
        return None
    if worth is None or word in _POUNDS and _weighs(line, amount):
        return None
    extra = 0.0
    if line.word(end) == "and" and line.word(end + 1) in {"a", "half"} and "half" in line.said(end + 1, 2):
        extra, end = worth / 2, end + (3 if line.word(end + 1) == "a" else 2)
    elif worth == 1 and line.word(end) in _SMALL:
        extra, end = _SMALL[line.word(end)], end + 1
    return amount.low * worth + extra, amount.high * worth + extra, end, worth


def _weighs(line: Line, amount: Amount) -> bool:
    """Whether these pounds are of weight: by the words around, the sum if they do not tell."""
    after = line.word(amount.end + 1)
    if after == "of" or after == "weight" or unit_at(line, amount.end + 2) and after.isdigit():
        return line.word(amount.end + 2) not in {"money", "it", "that", "my", "your", "his", "her"}
    words = line.sentence(amount.start)
    return len(words & WEIGHT_TALK) > len(words & MONEY_TALK)


def _bare(line: Line, place: int, worth: float) -> tuple[float, float, int, float] | None:
    """The shillings of "seven pound ten", the pence of "two shillings and six": numbers whose coin is understood."""
    limit, coin = {240.0: (20, 12), 12.0: (12, 1)}.get(worth, (0, 0))
    number = line.number(place) if limit else None
    if number is None or number.part or number.value >= limit or number.value % 1 and worth != 12:
        return None
    if unit_at(line, number.end) or not _ends(line, number.end):
        return None
    return number.value * coin, number.value * coin, number.end, coin


def _shillings_and_pence(line: Line, place: int) -> _Sum | None:
    """ "Seven and six", "nine and threepence": where the words around speak of money, or something is paid by."""
    shillings = line.number(place)
    if shillings is None or shillings.part or shillings.value >= 40 or line.word(shillings.end) != "and":
        return None
    here = shillings.end + 1
    pence, end, certain = float(_WHOLE.get(line.word(here), 0)), here + 1, True
    if line.said(here, 2) in {"a penny", "a ha'penny"}:
        pence, end = (1, here + 2) if line.word(here + 1) == "penny" else (0.5, here + 2)
    if not pence:
        number = line.number(here)
        if number is None or number.part or not 0 < number.value < PENCE_IN_SHILLING or shillings.value < 1:
            return None
        pence, end, certain = number.value, number.end, False
    if not certain and not (_ends(line, end) and _speaks_of_money(line, place, end)):
        return None
    value = shillings.value * PENCE_IN_SHILLING + pence
    return _Sum(value, value, end)


def _speaks_of_money(line: Line, place: int, end: int) -> bool:
    alone = line.begins(place) and line.pauses(end) and bool(frozenset(line.words) & MONEY_TALK)
    return alone or per_at(line, end) is not None or bool(line.sentence(place) & MONEY_TALK)


def _ends(line: Line, place: int) -> bool:
    """Whether a number ends a phrase here, and counts no things."""
    return line.pauses(place) or line.word(place) in LINKS or per_at(line, place) is not None
