"""How a set of sentences with their figures is read, and how many of them the recogniser finds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from archive.interviews.said.figures import figures_in
from archive.interviews.said.spoken import Spoken
from archive.interviews.said.units import comparable

Told = tuple[str, float, float, str]


@dataclass(frozen=True)
class Score:
    """How many figures were found that are there, found that are not, and missed."""

    right: int
    false: int
    missed: int

    @property
    def precision(self) -> float:
        """Which share of what was found is right."""
        return self.right / (self.right + self.false)

    @property
    def recall(self) -> float:
        """Which share of what is there was found."""
        return self.right / (self.right + self.missed)


def sentences(path: Path) -> Iterator[tuple[str, list[Told]]]:
    """Each sentence of a file with its figures: kind, low, high, unit."""
    for row in path.read_text("utf-8").splitlines():
        if row.startswith("#") or not row.strip():
            continue
        sentence, _tab, told = row.partition("\t")
        pieces = [piece.split() for piece in told.split(";")] if told.strip() not in {"", "none"} else []
        yield sentence, [(p[0], float(p[1]), float(p[2]), p[3] if len(p) > 3 else "") for p in pieces]


def written(figure: Spoken) -> Told:
    """A figure as the file writes it."""
    return figure.kind, figure.low, figure.high, figure.unit


def in_base_units(told: Told) -> Told:
    """The same in the base unit of its family, so that 54 in and 4.5 ft are one; years and ages need no unit."""
    kind, low, high, unit = told
    if kind in {"date", "age"}:
        return kind, low, high, ""
    (least, family), (most, _family) = comparable(low, unit), comparable(high, unit)
    return kind, _rounded(least), _rounded(most), family


def score(path: Path, exact: bool = False) -> tuple[Score, list[tuple[str, list[Told], list[Told]]]]:
    """The score of the recogniser on a file, and the sentences where it differs (missed, false)."""
    right = false = missed = 0
    differing = []
    for sentence, told in sentences(path):
        same = (lambda one: one) if exact else in_base_units
        wanted, found = list(map(same, told)), [same(written(one)) for one in figures_in(sentence)]
        both = [one for one in found if _taken(one, wanted)]
        right, false, missed = right + len(both), false + len(found) - len(both), missed + len(wanted)
        if wanted or len(both) < len(found):
            differing.append((sentence, wanted, [one for one in found if one not in both]))
    return Score(right, false, missed), differing


def _taken(one: Told, wanted: list[Told]) -> bool:
    if one not in wanted:
        return False
    wanted.remove(one)
    return True


def _rounded(value: float) -> float:
    return float(f"{value:.6g}")
