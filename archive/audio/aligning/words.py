"""A typed line as the words that a voice says: figures, money and short forms said out, marks and noises left away."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from archive.audio.aligning.numbers import decimal, number, ordinal, plural, year

_UNCLEAR = re.compile(r"\[unclear: ([^\[\]]+)\]", re.IGNORECASE)
_BRACKETED = re.compile(r"\[[^\[\]]*\]|<[^<>]*>")
# What typists put in round brackets for sounds that are no words.
_NOISE = re.compile(
    r"\((?:[^()]{0,20}\b)?(?:laugh\w*|cough\w*|sigh\w*|pause\w*|inaudible|indistinct|unclear|interrupt\w*|noise|silence"
    r"|sneez\w*|crosstalk|whistl\w*|clock\b[^()]{0,20}|telephone\b[^()]{0,20}|phone\b[^()]{0,20})\b[^()]{0,20}\)",
    re.IGNORECASE,
)
_FRACTIONS = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_PARTS = {2: "half", 3: "third", 4: "quarter", 8: "eighth", 10: "tenth", 16: "sixteenth", 20: "twentieth",
          32: "thirty second", 64: "sixty fourth", 100: "hundredth"}  # fmt: skip
_UNITS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "km": "kilometres", "in": "inches", "ins": "inches",
    "ft": "feet", "yd": "yards", "yds": "yards", "lb": "pounds", "lbs": "pounds", "oz": "ounces",
    "cwt": "hundredweight",
    "g": "grams", "kg": "kilograms", "st": "stone", "gall": "gallons", "pt": "pints", "hp": "horsepower",
    "h.p": "horsepower",
    "rpm": "revs a minute", "mph": "miles an hour", "psi": "pounds a square inch", "kw": "kilowatts", "v": "volts",
    "mins": "minutes", "min": "minutes", "hrs": "hours", "secs": "seconds", "thou": "thou", "gr": "gross",
    "doz": "dozen",
    "am": "a m", "pm": "p m", "a.m": "a m", "p.m": "p m", "s": "shillings", "d": "pence", "p": "p", "c": "c", "f": "f",
    "°": "degrees", "°c": "degrees centigrade", "°f": "degrees fahrenheit", "%": "per cent", '"': "inches", "'": "feet",
}  # fmt: skip
_SHORT = {
    "mr": "mister", "mrs": "missus", "ms": "miz", "dr": "doctor", "st": "saint", "rd": "road", "ave": "avenue",
    "co": "company", "ltd": "limited", "bros": "brothers", "no": "number", "nos": "numbers", "etc": "et cetera",
    "eg": "e g", "ie": "i e", "jr": "junior", "snr": "senior", "sr": "senior", "prof": "professor", "rev": "reverend",
    "sgt": "sergeant", "capt": "captain", "approx": "approximately", "vs": "versus", "qr": "quarter",
}  # fmt: skip
# Of these the short form is a word too: only with its full stop is it short.
_SHORT_WITH_STOP = {"co", "st", "ave", "rev", "sr", "ms"}
_SHORT_BEFORE_FIGURES = {"no", "nos"}
_SIGNS = {"&": "and", "+": "plus", "=": "equals", "@": "at", "£": "pounds", "$": "dollars", "×": "by"}

_FIGURE = r"\d{1,3}(?:,\d{3})+|\d+"
_UNIT = "|".join(sorted((re.escape(unit) for unit in _UNITS), key=len, reverse=True))
_TOKEN = re.compile(
    rf"£(?P<pounds>{_FIGURE})(?:[.](?P<pence>\d\d)(?!\d))?(?P<thousand>k\b)?"
    rf"|(?P<lsd>\d+)/(?P<lsd_pence>\d+(?:½)?|-)(?:/(?P<lsd_last>\d+|-))?(?![\d/])"
    r"|['’](?P<short_year>\d\d)(?P<short_many>s\b)?(?!\d)"
    r"|(?P<hour>\d{1,2})[:.](?P<minute>[0-5]\d)(?=\s*(?:[ap]\.?m\b|o['’]clock))"
    r"|(?P<ordinal>\d+)(?:st|nd|rd|th)\b"
    r"|(?P<many>\d{2,4})['’]?s\b"
    rf"|(?P<whole>{_FIGURE})?[.](?P<fraction>\d+)"
    rf"|(?P<figure>{_FIGURE})"
    r"|(?P<letters>(?:[A-Za-z]\.){2,})"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)(?P<stop>\.)?"
    rf"|(?P<sign>[&+=@£$×%°])"
)
_AFTER = re.compile(rf"\s?(?P<unit>{_UNIT})(?![\w])", re.IGNORECASE)
_TO = re.compile(r"\s?[-–—]\s?(?=£?\d)")
_FEWEST_CAPITALS, _MOST_CAPITALS = 2, 4


def words_of(text: str, known: frozenset[str] | None = None) -> list[str]:
    """The words of a line in small letters. `known` are words of the dictionary: other capitals are spelt out."""
    return [word for word in _said(_plain(text), known) if word]


def _plain(text: str) -> str:
    """Without marks, noises and odd signs; accents are taken off the letters."""
    text = _UNCLEAR.sub(r" \1 ", text)
    text = _NOISE.sub(" ", _BRACKETED.sub(" ", text))
    for sign, written in _FRACTIONS.items():
        text = re.sub(rf"(?<=\d)\s?{sign}", f" & {written}", text).replace(sign, written)
    text = text.replace("ʼ", "'").replace("‘", "'")
    split = unicodedata.normalize("NFKD", text)
    return "".join(sign for sign in split if not unicodedata.combining(sign))


def _said(text: str, known: frozenset[str] | None) -> Iterator[str]:
    at = 0
    while match := _TOKEN.search(text, at):
        at = match.end()
        yield from _token(match, known)
        if match["word"] or match["letters"] or match["sign"]:
            continue
        if to := _TO.match(text, at):
            yield "to"
            at = to.end()
        elif (unit := _AFTER.match(text, at)) and not match["pounds"]:
            yield from _UNITS[unit["unit"].casefold()].split()
            at = unit.end()


def _token(match: re.Match[str], known: frozenset[str] | None) -> list[str]:
    if match["pounds"]:
        return _pounds(match)
    if match["lsd"]:
        return _slashed(match["lsd"], match["lsd_pence"], match["lsd_last"])
    if match["short_year"]:
        return _years(int(match["short_year"]), many=bool(match["short_many"]))
    if match["hour"]:
        minute = int(match["minute"])
        return [*number(int(match["hour"])), *(number(minute) if minute else [])]
    if match["ordinal"]:
        return ordinal(int(match["ordinal"]))
    if match["many"]:
        return _many(int(match["many"]))
    if match["fraction"]:
        return decimal((match["whole"] or "").replace(",", ""), match["fraction"])
    if match["figure"]:
        return _figure(match["figure"])
    if match["sign"]:
        sign = match["sign"]
        return (_SIGNS.get(sign) or _UNITS[sign]).split()
    if match["letters"]:
        return list(match["letters"].replace(".", "").casefold())
    return _word(match, known)


def _pounds(match: re.Match[str]) -> list[str]:
    value = int(match["pounds"].replace(",", "")) * (1000 if match["thousand"] else 1)
    pence = int(match["pence"] or 0)
    name = "pound" if value == 1 else "pounds"
    return [*number(value), name, *(number(pence) if pence else [])]


def _slashed(first: str, second: str, third: str | None) -> list[str]:
    """A fraction of an inch, or shillings and pence as they were written."""
    if third is not None:
        shillings = [] if second == "-" else number(int(second.rstrip("½")))
        return [*number(int(first)), "pounds", *shillings, *([] if third == "-" else number(int(third)))]
    if second == "-":
        return [*number(int(first)), "shilling" if first == "1" else "shillings"]
    above, below = int(first), int(second.rstrip("½"))
    if "½" not in second and below in _PARTS and above < below and (above % 2 or below % 2):
        part = _PARTS[below]
        if above == 1:
            return ["a" if below == 2 else "one", *part.split()]
        return [*number(above), *plural(part).split()]
    return [*number(above), "and", *number(below), *(["and", "a", "half"] if "½" in second else [])]


def _years(value: int, *, many: bool) -> list[str]:
    said = year(value)
    return [*said[:-1], plural(said[-1])] if many else said


def _figure(figure: str) -> list[str]:
    value = int(figure.replace(",", ""))
    if figure.startswith("0") and len(figure) > 1:
        return [("oh" if digit == "0" else number(int(digit))[0]) for digit in figure]
    return year(value) if len(figure) == 4 else number(value)


def _many(value: int) -> list[str]:
    """The fifties, the nineteen twenties; but ten shillings."""
    if value < 1100 and (value % 10 or value < 20):
        return [*number(value), "shillings"]
    return _years(value, many=True)


def _word(match: re.Match[str], known: frozenset[str] | None) -> list[str]:
    written, stop = match["word"], bool(match["stop"])
    word = written.replace("’", "'").casefold()
    if word in _SHORT and _is_short(word, stop, match.string[match.end() : match.end() + 2]):
        return _SHORT[word].split()
    capitals = written.isupper() and _FEWEST_CAPITALS <= len(written) <= _MOST_CAPITALS
    if capitals and known is not None and word not in known:
        return [letter for letter in word if letter.isascii() and letter.isalpha()]
    return ["".join(sign for sign in word if sign.isascii())]


def _is_short(word: str, stop: bool, after: str) -> bool:
    if word in _SHORT_BEFORE_FIGURES:
        return any(sign.isdigit() for sign in after)
    return stop or word not in _SHORT_WITH_STOP
