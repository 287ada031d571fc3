"""What a figure is: a drawing, its title, what it says in words, and the table behind it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from archive.reckoners.reading import read_fields
from archive.reckoners.shape import Result


@dataclass(frozen=True)
class Figure:
    """A drawing as SVG to be put in a page as it is (style: static/css/figures.css).

    `alternative` says in sentences what it shows; `head` and `rows` are the table behind it; `notes` what to heed.
    """

    svg: str
    title: str
    alternative: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Drawn:
    """A result with what it was worked out from, as numbers in the units of its inputs and as words."""

    result: Result
    numbers: Mapping[str, float]
    words: Mapping[str, str]

    def figure(self, key: str) -> float | None:
        """The number that came out under a key; None for a gap."""
        found = next((value for value in self.result.values if value.output.key == key), None)
        return None if found is None else float(found.value)


def drawn(result: Result) -> Drawn:
    """The result with its inputs read again."""
    fields = read_fields(result.reckoner, {taken.key: taken.written for taken in result.taken})
    return Drawn(result, {key: amount.point for key, amount in fields.amounts.items()}, fields.words)
