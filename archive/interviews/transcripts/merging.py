"""Two people's changes to the same transcript, brought together line by line. Pure.

What one of them changed is taken; what both changed stands side by side, for a person to choose.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.matching import pair


@dataclass(frozen=True)
class Part:
    """A few lines that belong together, as they were, as I have them, and as the other has them."""

    base: tuple[Line, ...]
    mine: tuple[Line, ...]
    theirs: tuple[Line, ...]

    @property
    def taken_from(self) -> str:
        """Whose lines stand: "same" where nobody changed them or both did alike, "mine", "theirs", or "choose"."""
        base, mine, theirs = (_bare(lines) for lines in (self.base, self.mine, self.theirs))
        if mine == theirs:
            return "same"
        if mine == base:
            return "theirs"
        return "mine" if theirs == base else "choose"

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines that stand; mine, until a person has chosen, where both changed them."""
        return self.theirs if self.taken_from in {"same", "theirs"} else self.mine


def merge(base: Sequence[Line], mine: Sequence[Line], theirs: Sequence[Line]) -> list[Part]:
    """The parts of the merged transcript in order. Each starts at a line that all three have, changed or not."""
    return [part for part in _parts(base, mine, theirs) if part.base or part.mine or part.theirs]


def _parts(base: Sequence[Line], mine: Sequence[Line], theirs: Sequence[Line]) -> Iterator[Part]:
    at = (0, 0, 0)
    for anchor in [*_anchors(base, mine, theirs), (len(base), len(mine), len(theirs))]:
        yield Part(tuple(base[at[0] : anchor[0]]), tuple(mine[at[1] : anchor[1]]), tuple(theirs[at[2] : anchor[2]]))
        at = anchor


def _anchors(base: Sequence[Line], mine: Sequence[Line], theirs: Sequence[Line]) -> list[tuple[int, int, int]]:
    """The lines that all three have and that stand in the same order in all three, by their places."""
    here, there = _places(pair(base, mine)), _places(pair(base, theirs))
    both = [(at, here[at], there[at]) for at in range(len(base)) if at in here and at in there]
    both = [both[place] for place in _rising([anchor[1] for anchor in both])]
    return [both[place] for place in _rising([anchor[2] for anchor in both])]


def _places(pairs: Sequence[int | None]) -> dict[int, int]:
    return {was: now for now, was in enumerate(pairs) if was is not None}


def _rising(numbers: Sequence[int]) -> list[int]:
    """The places of a longest run of rising numbers."""
    tails: list[int] = []
    ends: list[int] = []
    before: list[int] = []
    for place, number in enumerate(numbers):
        at = bisect_left(tails, number)
        tails[at : at + 1], ends[at : at + 1] = [number], [place]
        before.append(ends[at - 1] if at else -1)
    run: list[int] = []
    place = ends[-1] if ends else -1
    while place >= 0:
        run.append(place)
        place = before[place]
    return run[::-1]


def _bare(lines: Sequence[Line]) -> list[Line]:
    return [line.bare for line in lines]
