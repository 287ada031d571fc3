"""Works a reckoner out: at the point given, and over the whole range where something is only "about"."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

from archive.reckoners.quantities import Amount
from archive.reckoners.reading import Fields, Written, read_fields
from archive.reckoners.shape import Given, Output, Reckoner, Result, Value, Worked
from archive.reckoners.sources import source

INTERVAL_NOTE = (
    "What was given as “about” or as a range is a range here too: the least and the greatest answer over its ends "
    "and over points between them. “About” is read as a tenth each way."
)
_POINTS_BETWEEN = 7


def work_out(reckoner: Reckoner, given: Mapping[str, Written]) -> Result:
    """The result; raises Unacceptable with every fault of the fields, or OutOfRange where the method has no answer."""
    fields = read_fields(reckoner, given)
    points = {key: amount.point for key, amount in fields.amounts.items()}
    worked = reckoner.work(Given(points, fields.words))
    whole = {item.key for item in reckoner.inputs if item.whole}
    around = [reckoner.work(Given({**points, **place}, fields.words)) for place in _places(fields.amounts, whole)]
    sources = dict.fromkeys((*reckoner.sources, *worked.sources))
    return Result(
        reckoner=reckoner,
        taken=tuple(fields.taken),
        values=tuple(_value(out, worked, around) for out in reckoner.outputs if out.key in worked.values),
        steps=worked.steps,
        warnings=_warnings(fields, worked, around),
        sources=tuple(source(key) for key in sources),
        compare=worked.compare,
        interval_note=INTERVAL_NOTE if around else "",
    )


def _places(amounts: Mapping[str, Amount], whole: set[str]) -> Iterator[dict[str, float]]:
    """Every corner of what is "about", and points along each edge through the middle, for answers that bend."""
    wide = {key: amount for key, amount in amounts.items() if not amount.exact}
    if not wide:
        return
    for ends in itertools.product(*((amount.low, amount.high) for amount in wide.values())):
        yield dict(zip(wide, ends, strict=True))
    for key, amount in wide.items():
        step = (amount.high - amount.low) / (_POINTS_BETWEEN + 1)
        between = (amount.low + step * place for place in range(1, _POINTS_BETWEEN + 1))
        yield from ({key: round(value) if key in whole else value} for value in (amount.low, *between, amount.high))


def _value(output: Output, worked: Worked, around: list[Worked]) -> Value:
    """One figure with its range."""
    value = worked.values[output.key]
    seen = [other.values[output.key] for other in around if output.key in other.values]
    if isinstance(value, str):
        others = dict.fromkeys(str(other) for other in seen if other != value)
        return Value(output, value, others=tuple(others))
    if not seen:
        return Value(output, value)
    numbers = [value, *(float(other) for other in seen)]
    return Value(output, value, min(numbers), max(numbers))


def _warnings(fields: Fields, worked: Worked, around: list[Worked]) -> tuple[str, ...]:
    """What the fields and the work warn of; where only part of a range does, that is said."""
    at_an_end: tuple[str, ...] = ()
    if not worked.warnings:
        first = next((other.warnings for other in around if other.warnings), ())
        at_an_end = tuple(f"In part of the range given: {warning}" for warning in first)
    return (*fields.warnings, *worked.warnings, *at_an_end)
