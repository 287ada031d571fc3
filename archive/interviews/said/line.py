"""A line of speech cut into words, and the amounts that stand in it. Pure."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cached_property

from archive.interviews.said.words import listed
from archive.values.numerals import PARTS, SCALES, Numeral, numeral_at

_TOKEN = re.compile(
    r"(?P<money>£\s?\d[\d,]*(?:\.\d+)?(?:[ -]\d+s\b)?(?:[ -][\d¼½¾]+d\b)?|\b\d+s(?: [\d¼½¾]+d\b)"
    r"|(?<![\w.])\d*[¼½¾]?d\b|\b\d+/(?:\d+|-)(?![\w/])(?!\s?-?inch|\s?\"|\s?of an?\b))|\b\d+/\d+\b"
    r"|\d+(?:,\d{3})*(?:\.\d+)?[¼½¾]?|[¼½¾]|['’]\d\ds?\b|[A-Za-z]+(?:['’][A-Za-z]+)?|°\s?[CF]?\b|[^\sA-Za-z\d]"
)
_DIGITS_JOINED = re.compile(r"(?<=\d)\s?[-–—]\s?(?=[£\d])")
STOPS = frozenset(".?!;:")
PAUSES = STOPS | {",", "—", "–", "…", "(", ")", "”", '"', "’", "'", ""}
_FILLERS = listed("about around roughly only just some maybe perhaps say nearly almost the near a well er")
_AT_LEAST = {"more than", "better than", "at least", "less no", "upwards of", "no less than", "not less than",
             "no fewer than", "not under", "well over", "never less than", "never under",
             "never fewer than"}  # fmt: skip
_AT_MOST = {"less than", "fewer than", "at most", "no more than", "not more than", "up to", "not over", "never over",
            "never more than"}  # fmt: skip
# "It got up to ninety" reached ninety; "up to ninety" alone is at most ninety.
_RISING = listed(
    "it them took get gets got went go goes going come comes came brought rose worked heated count counted"
)
_AFTER_MORE = {"or more", "and more", "or over", "and over", "and upwards", "or upwards", "and up", "or better"}
_AFTER_LESS = {"or less", "or under", "and under", "or fewer"}
# "A dozen" is one dozen; "a foot" and "a yard" are mostly other things, and need a number.
_ONE_OF = listed("dozen gross score hundredweight ton fortnight gallon pint inch mile ounce volt")
# "Ten or a dozen" is ten to twelve, and not ten dozen.
_COUNTED_IN = {"dozen": 12, "score": 20, "gross": 144}


@dataclass(frozen=True)
class Amount:
    """A number or a range of numbers between two words; `part` is a fraction of what follows, `year` looks like one."""

    low: float
    high: float
    start: int
    end: int
    part: bool = False
    year: bool = False
    thou: bool = False
    digits: bool = False

    @property
    def single(self) -> bool:
        """Whether it is one number and no range."""
        return self.low == self.high


class Line:
    """The words of a line, each with its place in the text."""

    def __init__(self, text: str) -> None:
        joined = _DIGITS_JOINED.sub(lambda gap: "~" * len(gap[0]), text)
        self.text = text
        self.places = [(one.start(), one.end()) for one in _TOKEN.finditer(joined) if one[0] != "-"]
        self.words = [_plain(joined[start:end]) for start, end in self.places]
        self._numbers: dict[int, Numeral | None] = {}

    def word(self, place: int) -> str:
        """The word at a place, in small letters; "" beyond either end."""
        return self.words[place] if 0 <= place < len(self.words) else ""

    def said(self, start: int, count: int) -> str:
        """Some words in a row."""
        return " ".join(self.words[max(0, start) : max(0, start + count)])

    def before(self, place: int) -> int:
        """The place of the last word before that is no filler such as "about"."""
        place -= 1
        while place >= 0 and (self.words[place] in _FILLERS or self.words[place] == ","):
            place -= 1
        return place

    def begins(self, place: int) -> bool:
        """Whether a sentence begins here."""
        return place == 0 or self.word(place - 1) in STOPS

    def pauses(self, place: int) -> bool:
        """Whether the speaker stops or pauses here, or the line ends."""
        return self.word(place) in PAUSES

    def sentence(self, place: int) -> frozenset[str]:
        """The words of the sentence in which a place lies."""
        return self._sentences[place]

    @cached_property
    def _sentences(self) -> list[frozenset[str]]:
        found: list[frozenset[str]] = []
        start = 0
        for place in range(len(self.words) + 1):
            if place == len(self.words) or self.words[place] in STOPS:
                words = frozenset(self.words[start : place + 1])
                found += [words] * (min(place + 1, len(self.words)) - start)
                start = place + 1
        return found

    def number(self, place: int) -> Numeral | None:
        """The plain number that begins here."""
        if not 0 <= place < len(self.words):
            return None
        if place not in self._numbers:
            self._numbers[place] = self._number(place)
        return self._numbers[place]

    def _number(self, place: int) -> Numeral | None:
        word, after = self.words[place], self.word(place + 1)
        if word == "a" and after == "couple":
            return Numeral(2, place + (3 if self.word(place + 2) == "of" else 2))
        if word in {"a", "an"} and after in _ONE_OF:
            return numeral_at(self.words, place) or Numeral(1, place + 1)
        if "/" in word and word.replace("/", "").isdigit() and int(word.partition("/")[2]):
            return Numeral(int(word.partition("/")[0]) / int(word.partition("/")[2]), place + 1, part=True)
        if word in {"half", "quarter"} and after in {"past", "to", "way", "as", "the", "asleep"}:
            return None
        return numeral_at(self.words, place)

    def amount(self, place: int) -> Amount | None:
        """The amount that begins here: a number, or a range of two."""
        first = self.number(place)
        if first is None:
            return None
        amount = self._single(first, place)
        second = self._second(first, place)
        if second:
            low = _scaled(amount.low, second.value)
            ends = sorted((low, self._single(second, place).low))
            amount = Amount(ends[0], ends[1], place, second.end, second.part, first.year or second.year,
                            self._single(second, place).thou, first.digits)  # fmt: skip
        return self._loose(amount)

    def _single(self, found: Numeral, start: int) -> Amount:
        value, end = found.value, found.end
        thou = found.part and self.word(end - 1) in {"thou", "thousandth", "thousandths"}
        parted = found.part or (0 < found.value < 1)
        if parted and not thou and self.word(end) == "of" and self.word(end + 1) in {"a", "an"}:
            end += 2
        elif found.part and self.word(end) in {"a", "an"}:
            end += 1
            if self.word(end) == "thou":
                return Amount(value, value, start, end + 1, part=True, thou=True)
        value = value * PARTS["thou"] if thou else value
        scale = SCALES.get(self.word(end), 1) if value % 1 and not thou else 1
        if scale > 1:
            return Amount(value * scale, value * scale, start, end + 1)
        if self.word(end) == "score":
            value, end = value * 20, end + 1
        return Amount(value, value, start, end, found.part, found.year, thou, found.digits)

    def _second(self, first: Numeral, start: int) -> Numeral | None:
        """The further end of a range: "eight to twelve", "two or three", "between six and seven", "ten, twelve"."""
        join, place = self.word(first.end), first.end + 1
        between = self.word(start - 1) == "between" or self.said(start - 2, 2) == "somewhere between"
        if join not in {"to", "or", "~", "~~", "~~~", ","} and not (join == "and" and between):
            return None
        while join == "or" and self.word(place) in {"maybe", "perhaps", "even"}:
            place += 1
        second = self._one_lot(place) if first.value > 1 else None
        second = second or self.number(place)
        if second is None or second.year != first.year or second.part != first.part:
            return None
        if join == "," and not (first.value < second.value <= 2 * first.value and first.value > 1):
            return None
        return second if _scaled(first.value, second.value) != second.value else None

    def _one_lot(self, place: int) -> Numeral | None:
        """The "a dozen" of "ten or a dozen", as a number of things."""
        many = _COUNTED_IN.get(self.word(place + 1)) if self.word(place) == "a" else None
        return None if many is None else Numeral(many, place + 2)

    def _loose(self, amount: Amount) -> Amount:
        """An amount with "odd", "or so", "or more" after it, or "over", "up to" before it."""
        low, high, end = amount.low, amount.high, amount.end
        if self.word(end) == "odd":
            high = high + _step(high) - 1 if low == high else high
            end += 1
        if self.said(end, 2) in {"or so", "or thereabouts", "or more", "or less", "or over"}:
            end += 2
        after, before = self.said(amount.end, 2), self._bound(amount.start)
        if before > 0 or after in _AFTER_MORE:
            high = math.inf
        elif before < 0 or after in _AFTER_LESS:
            low = -math.inf
        return Amount(low, high, amount.start, end, amount.part, amount.year, amount.thou, amount.digits)

    def _denied(self, place: int) -> bool:
        """Whether the words just before say no: "couldn't lift more than", "never less than"."""
        return any(
            word in {"never", "not", "no"} or word.endswith("n't") for word in self.words[max(0, place - 3) : place]
        )

    def _bound(self, start: int) -> int:
        """1 where "at least" or the like stands before, -1 where "at most" does, 0 else."""
        three, two, one = self.said(start - 3, 3), self.said(start - 2, 2), self.word(start - 1)
        if two in {"more than", "less than"} and self._denied(start - 2):
            return -1 if two == "more than" else 1
        if two == "up to" and self.word(start - 3) in _RISING:
            return 0
        if three in _AT_MOST or two in _AT_MOST:
            return -1
        if three in _AT_LEAST or two in _AT_LEAST:
            return 1
        return {"over": 1, "above": 1, "under": -1, "below": -1}.get(one, 0)


def _plain(token: str) -> str:
    """A word in small letters, without the ending of "an hour's money"."""
    word = token.replace("’", "'").lower()
    return word.removesuffix("'s") if word not in {"'s", "o'clock"} and len(word) > 3 else word


def _scaled(first: float, second: float) -> float:
    """The first number of "six or seven hundred", in hundreds too."""
    for scale in (1_000_000, 1000, 100):
        if second % scale == 0 and 0 < first < second / scale:
            return first * scale
    return first


def _step(value: float) -> float:
    """How far "odd" may reach: "forty-odd" to 49, "two hundred odd" to 299."""
    step = 1
    while value and value % (step * 10) == 0:
        step *= 10
    return step
