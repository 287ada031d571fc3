"""The units that are spoken of, by every word for them: symbol, kind of figure, and worth in a base unit. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from archive.interviews.said.line import Line
from archive.interviews.said.words import listed

# Kind of figure, family, symbol, worth in the family's base unit, and the words for it.
_TABLE = """
length   length   thou   0.0254        thou thous thousandth thousandths
length   length   in     25.4          inch inches
length   length   ft     304.8         foot feet ft
length   length   yd     914.4         yard yards
length   length   mile   1609344       mile miles
length   length   mm     1             mm millimetre millimetres
length   length   cm     10            cm centimetre centimetres
length   length   m      1000          metre metres
length   length   km     1000000       km kilometre kilometres
weight   weight   gr     0.06479891    grain grains
weight   weight   dwt    1.55517384    pennyweight pennyweights dwt
weight   weight   oz     28.349523125  ounce ounces oz
weight   weight   lb     453.59237     lb lbs
weight   weight   stone  6350.29318    stone stones
weight   weight   cwt    50802.34544   hundredweight hundredweights cwt
weight   weight   ton    1016046.9088  ton tons
weight   weight   t      1000000       tonne tonnes
weight   weight   g      1             gram grams gramme grammes g
weight   weight   kg     1000          kilo kilos kilogram kilograms kg
duration duration s      1             second seconds sec secs
duration duration min    60            minute minutes min mins
duration duration h      3600          hour hours hr hrs
duration duration day    86400         day days
duration duration week   604800        week weeks
duration duration month  2629746       month months
duration duration year   31556952      year years yr yrs
power    voltage  V      1             volt volts v
power    voltage  kV     1000          kilovolt kilovolts
power    current  A      1             amp amps ampere amperes
power    power    W      1             watt watts
power    power    kW     1000          kilowatt kilowatts kw
power    power    hp     745.7         horsepower hp
power    sound    dB     1             decibel decibels db
power    light    cd     1             candlepower
quantity volume   gal    4.54609       gallon gallons
quantity volume   quart  1.1365225     quart quarts
quantity volume   pt     0.56826125    pint pints
quantity volume   l      1             litre litres
quantity count    gross  144           gross
quantity count    dozen  12            dozen dozens
quantity share    %      1             % percent
quantity fineness carat  1             carat carats
"""
# What an amount may be so much of, or so much in.
_PER = {
    "second": "s", "minute": "min", "hour": "h", "day": "day", "shift": "shift", "week": "week", "month": "month",
    "year": "year", "annum": "year", "fortnight": "fortnight", "night": "night", "gross": "gross", "dozen": "dozen",
    "hundred": "hundred", "thousand": "thousand", "ton": "ton", "hundredweight": "cwt", "ounce": "oz", "pound": "lb",
    "stone": "stone", "foot": "ft", "yard": "yd", "inch": "in", "mile": "mile", "gallon": "gal", "pint": "pt",
    "head": "head", "card": "card", "piece": "piece", "button": "button", "badge": "badge", "tray": "tray",
}  # fmt: skip
PER_TIME = listed("second minute hour day shift week month year annum fortnight night")
_PER_WORDS = listed("a an per every each the")
_SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "day": 86400.0, "week": 604800.0, "fortnight": 1209600.0,
            "month": 2629746.0, "year": 31556952.0}  # fmt: skip
_FAHRENHEIT = {"fahrenheit", "f"}
_CELSIUS = {"centigrade", "celsius", "c"}


@dataclass(frozen=True)
class Unit:
    """A unit: how it is written, what kind of figure it makes, its family, and how many base units it is."""

    symbol: str
    kind: str
    family: str
    worth: float


def _table() -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for row in _TABLE.strip().splitlines():
        kind, family, symbol, worth, *words = row.split()
        found |= dict.fromkeys(words, Unit(symbol, kind, family, float(worth)))
    return found


UNITS = _table()
_BY_SYMBOL = {unit.symbol: unit for unit in UNITS.values()}
_PHRASES = {
    "great gross": Unit("great gross", "quantity", "count", 1728),
    "horse power": UNITS["horsepower"],
    "candle power": UNITS["candlepower"],
    "per cent": UNITS["percent"],
}
_WEEK = UNITS["week"]


def unit_at(line: Line, place: int) -> tuple[Unit, float, int] | None:
    """The unit that stands at a place, how many of it the words mean, and where they end."""
    word = line.word(place)
    if word.startswith(("degree", "°")) or word in {"fahrenheit", "centigrade", "celsius"}:
        return _degrees(line, place)
    if line.said(place, 2) in _PHRASES:
        return _PHRASES[line.said(place, 2)], 1, place + 2
    if word in {"fortnight", "fortnights"}:
        return _WEEK, 2, place + 1
    if word in UNITS:
        return UNITS[word], 1, place + 1
    return None


def _degrees(line: Line, place: int) -> tuple[Unit, float, int]:
    word, after, end = line.word(place), line.word(place + 1), place + 1
    if word in {"°c", "centigrade", "celsius"} or after in _CELSIUS:
        symbol = "°C"
    elif word in {"°f", "fahrenheit"} or after in _FAHRENHEIT:
        symbol = "°F"
    else:
        symbol = "°"
    return Unit(symbol, "temperature", symbol, 1), 1, end + (after in _CELSIUS | _FAHRENHEIT)


def per_at(line: Line, place: int) -> tuple[str, int] | None:
    """What an amount is so much of ("a gross", "per week", "to the card", "in an hour"), and where the words end."""
    here = place
    if line.word(here) in {"to", "in", "for"} and line.word(here + 1) in {"a", "an", "the", "every", "each"}:
        # "Two pounds for a week" may be anything; "for a gross" is a price.
        if line.word(here) in {"for", "in"} and line.word(here + 2) in PER_TIME - {"minute", "second"}:
            return None
        here += 1
    elif line.word(here) == "the" and line.word(here + 1) not in {"gross", "dozen", "hundred", "thousand", "week"}:
        return None
    if line.word(here) not in _PER_WORDS:
        return None
    if line.said(here + 1, 2) == "great gross":
        return "great gross", here + 3
    named = _PER.get(line.word(here + 1))
    return (named, here + 2) if named else None


def comparable(value: float, unit: str) -> tuple[float, str]:
    """A value in the base unit of its family, with the family, so that ounces meet pounds and hours meet minutes."""
    top, slash, bottom = unit.partition("/")
    bottom = _PER.get(bottom, bottom)
    known = _BY_SYMBOL.get(top)
    value, family = (value * known.worth, known.family) if known else (value, top)
    if not slash:
        return value, family
    if bottom in _SECONDS:
        return value / _SECONDS[bottom], f"{family}/time"
    if bottom in {"gross", "dozen", "great gross", "hundred", "thousand"}:
        many = {"gross": 144, "dozen": 12, "great gross": 1728, "hundred": 100, "thousand": 1000}[bottom]
        return value / many, f"{family}/count"
    return value, f"{family}/{bottom}"
