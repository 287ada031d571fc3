"""Whether a figure written in words follows from a result: every number in it must be one of the answer's."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archive.reckoners.measures import Unit, convert, family_of_spelling, unit_of, unit_written
from archive.reckoners.money import PENCE_IN_POUND, pence_written
from archive.reckoners.shape import Output, Result, Value
from archive.reckoners.telling import STERLING, figure_told

# A round figure after "about" may stand for anything that rounds to it, but for no more than this share of it.
ROUND_SHARE = 0.05
_FARTHING_D = 0.25
_NUMBER = re.compile(r"(?<![\w.])[−-]?\d[\d,]*(?:\.\d+)?")
_OTHER_END = re.compile(r"\s*(?:to|and|–)\s*[−-]?\d[\d,]*(?:\.\d+)?(?![\d.])")
_ABOUT = re.compile(r"(?:\b(?:about|around|roughly|nearly|some)|[~≈])\s*$", re.IGNORECASE)
_STERLING = re.compile(
    r"£\s?[\d,]+(?:\.\d+)?(?: \d+s\b)?(?: [\d¼½¾]+d\b)?|\b\d+s(?: [\d¼½¾]+d\b)?|(?<![\w.])[\d¼½¾]+d\b"
)
_PARTS = {"¼": " 1/4", "½": " 1/2", "¾": " 3/4"}
_EVERYDAY = {"in", "a", "to", "off", "x", "s", "m", "c", "f", "fine", "hand", "press", "hands"}


@dataclass(frozen=True)
class _Number:
    """One number of a figure: how far the answer may lie from it, and the words that come after it."""

    written: str
    value: float
    slack: float
    after: tuple[str, ...]


def strays(figure: str, result: Result) -> tuple[str, ...]:
    """What stands in a figure and not in the answer: numbers as written, or the whole where no part of it is there.

    A number stands in the answer if it is within half of its last printed digit of a value, or within that value's
    range; after "about" a round number may be as far off as it is round. Units of one family are turned into each
    other. What was given may be said again, but a figure must hold something of the answer.
    """
    rest, sums = _without_sums(figure) if _tells_money(result) else (figure, ())
    numbers = tuple(_numbers(rest))
    found = [number for number in numbers if any(_is(number, value) for value in result.values)]
    again = {number.value for taken in result.taken for number in _numbers(f"{taken.written} {taken.read_as}")}
    lost = [number.written for number in numbers if number not in found and number.value not in again]
    lost += [written for written, pence in sums if not any(_is_sum(pence, value) for value in result.values)]
    if lost:
        return tuple(lost)
    return () if found or sums or _says_words_of(rest, result) else (figure,)


def answer_told(result: Result) -> str:
    """The answer's figures in one line, to show beside one that does not follow."""
    return "; ".join(f"{value.output.title}: {figure_told(value)}" for value in result.values)


def _numbers(text: str) -> Iterator[_Number]:
    for match in _NUMBER.finditer(text):
        written = match[0].replace(",", "").replace("−", "-")
        digits = written.lstrip("-")
        slack = 0.5 * 10.0 ** -len(digits.partition(".")[2])
        if _ABOUT.search(text[: match.start()]):
            slack = max(slack, min(_roundness(digits) / 2, ROUND_SHARE * abs(float(written))))
        yield _Number(match[0], float(written), slack, _words_after(text[match.end() :]))


def _words_after(text: str) -> tuple[str, ...]:
    """The words in which a unit may stand; the first number of "427 to 788 °C" has the unit of the second."""
    end = _OTHER_END.match(text)
    words = (text[end.end() :] if end else text).split(maxsplit=3)[:3]
    return tuple(word.rstrip(".,;:") for word in words)


def _roundness(digits: str) -> float:
    """The size of the last digit that is not nought: 100 for 300, 10 for 1250, 0.1 for 6.4."""
    whole, _, decimals = digits.partition(".")
    if decimals.strip("0"):
        return 10.0 ** -len(decimals.rstrip("0"))
    return 10.0 ** (len(whole) - len(whole.rstrip("0")))


def _is(number: _Number, value: Value) -> bool:
    """Whether a number tells this value."""
    if isinstance(value.value, str):
        inside = (said for words in (value.value, *value.others) for said in _numbers(words))
        return any(abs(said.value - number.value) <= number.slack and _same_unit(number, said) for said in inside)
    unit = _unit_after(number, value.output)
    if unit is None:
        return False
    low = value.value if value.low is None else value.low
    high = value.value if value.high is None else value.high
    ends = sorted(convert(end, value.output.unit, unit) if unit else end for end in (low, high))
    slack = number.slack * (1 + 1e-9)
    return ends[0] - slack <= number.value <= ends[1] + slack


def _same_unit(number: _Number, said: _Number) -> bool:
    """Whether a number has the unit that the answer's words give it, or none that is known."""
    word = number.after[0] if number.after else ""
    return word.lower() in _EVERYDAY or not family_of_spelling(word) or word == (said.after[0] if said.after else "")


def _unit_after(number: _Number, output: Output) -> str | None:
    """The unit written after a number, as a symbol; "" where none is written, None where it is none of this output."""
    family = _family(output)
    for count in range(len(number.after), 0, -1):
        spelling = " ".join(number.after[:count])
        written: Unit | None = unit_written(spelling, family) if family else None
        if written:
            return written.symbol
        if spelling.lower() not in _EVERYDAY and family_of_spelling(spelling):
            return None
    return ""


def _family(output: Output) -> str:
    return unit_of(output.unit).family if output.unit and output.unit != STERLING else ""


def _tells_money(result: Result) -> bool:
    return any(value.output.unit in (STERLING, "£", "d") for value in result.values)


def _without_sums(figure: str) -> tuple[str, tuple[tuple[str, float], ...]]:
    """The figure without its sums of money, and these in old pence."""
    sums = []
    for match in _STERLING.finditer(figure):
        plain = match[0].replace(",", "")
        for sign, fraction in _PARTS.items():
            plain = plain.replace(sign, fraction)
        pence = pence_written(plain)
        if pence is not None:
            sums.append((match[0], pence))
    return _STERLING.sub(" ", figure), tuple(sums)


def _is_sum(pence: float, value: Value) -> bool:
    if isinstance(value.value, str) or value.output.unit not in (STERLING, "£", "d"):
        return False
    factor = PENCE_IN_POUND if value.output.unit == "£" else 1
    low = (value.value if value.low is None else value.low) * factor
    high = (value.value if value.high is None else value.high) * factor
    return low - _FARTHING_D / 2 <= pence <= high + _FARTHING_D / 2


def _says_words_of(figure: str, result: Result) -> bool:
    """Whether a figure without numbers says one of the answer's words, such as a temper."""
    said = figure.casefold()
    words = [word for value in result.values if isinstance(value.value, str) for word in (value.value, *value.others)]
    return any(word.casefold() in said for word in words if word)
