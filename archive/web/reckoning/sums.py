"""A result as pages tell it: the answer in one line, the figures, and the address of its page with these figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from urllib.parse import urlencode

from flask import url_for

from archive.errors import NotFound, OutOfRange, Unacceptable
from archive.reckoners.figures import figure_for
from archive.reckoners.figures.figure import Figure as Drawing
from archive.reckoners.registry import reckon
from archive.reckoners.shape import Result
from archive.reckoners.telling import figure_told

# An answer in one line is its first figure, and the second where both fit.
_LINE = 90


@dataclass(frozen=True)
class Figure:
    """One figure of an answer, with its unit and its range."""

    title: str
    told: str


@dataclass(frozen=True)
class Sum:
    """A sum worked out: the answer in a line, every figure, and its page."""

    result: Result
    line: str
    figures: tuple[Figure, ...]
    url: str
    about: str = ""

    @property
    def drawing(self) -> Drawing | None:
        """The sum as a picture; None where none is drawn."""
        return figure_for(self.result)


def sum_of(result: Result, given: Mapping[str, Any], *, kiosk: bool, about: str = "") -> Sum:
    """A result for a page."""
    figures = tuple(Figure(value.output.title, figure_told(value)) for value in result.values)
    return Sum(result, _line(figures), figures, address(result.reckoner.name, given, kiosk=kiosk), about)


def sum_kept(name: str, given: Mapping[str, Any], *, kiosk: bool, about: str = "") -> Sum | None:
    """The sum of a record's own figures; None where a record from before names what there is no longer."""
    try:
        return sum_of(
            _reckoned(name, tuple((key, str(value)) for key, value in given.items())), given, kiosk=kiosk, about=about
        )
    except (NotFound, Unacceptable, OutOfRange):
        return None


@lru_cache(maxsize=512)
def _reckoned(name: str, given: tuple[tuple[str, str], ...]) -> Result:
    """A record's sum, worked out once: the same figures always give the same answer."""
    return reckon(name, dict(given))


def address(name: str, given: Mapping[str, Any], *, kiosk: bool) -> str:
    """The page of a reckoner with its fields filled; for the kiosk in the kiosk's type."""
    asked = urlencode({**given, **({"face": "kiosk"} if kiosk else {})})
    return url_for("reckoning.one", name=name) + (f"?{asked}" if asked else "")


def _line(figures: tuple[Figure, ...]) -> str:
    lines = [f"{figure.title}: {figure.told}" for figure in figures[:2]]
    whole = "; ".join(lines)
    return whole if len(whole) <= _LINE else lines[0]
