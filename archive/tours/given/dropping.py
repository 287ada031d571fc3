"""What to drop to end on time; the device runs the same rule in static/js/desk/giving/dropping.js. Pure.

Of all ways to save the minutes that are too many, two are told: the one that loses least, and the one that drops the
fewest tellings. A telling loses what it is worth, or where nobody says so, its minutes. Where two lose alike, the one
that saves least is taken, then the one that drops fewer, then the one that comes first on the way.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

TENTHS = 10


@dataclass(frozen=True)
class Droppable:
    """One telling still to come: its minutes, what it is worth (None: its minutes), and whether it must stay."""

    ref: str
    minutes: float
    worth: float | None = None
    pinned: bool = False


@dataclass(frozen=True)
class Drop:
    """One choice: what is dropped, the minutes that this saves, and those that are still too many."""

    tellings: tuple[str, ...]
    saves: float
    short: float


@dataclass(frozen=True)
class _Way:
    """The best way so far to save so many tenths: loss, tenths and count in this order, and what is dropped."""

    rank: tuple[int, int, int]
    tellings: tuple[Droppable, ...]


def what_to_drop(to_come: Sequence[Droppable], over: float) -> tuple[Drop, ...]:
    """The choices, given what is still to come and how many minutes are too many; none where none are."""
    need = math.ceil(math.floor(over * 1000 + 0.5) / 100)
    if need <= 0:
        return ()
    free = [telling for telling in to_come if not telling.pinned]
    chosen = [_least(free, need, _worth), _least(free, need, lambda _telling: 1)]
    return tuple(dict.fromkeys(_drop(tellings, need) for tellings in chosen if tellings))


def _least(free: Sequence[Droppable], need: int, loss: Callable[[Droppable], int]) -> tuple[Droppable, ...]:
    """The tellings that together save enough, or all there are, and lose least."""
    wanted = min(need, sum(_tenths(telling.minutes) for telling in free))
    best: list[_Way | None] = [_Way((0, 0, 0), ()), *([None] * wanted)]
    for telling in free:
        before = tuple(best)
        for saved, way in enumerate(before):
            if way is None:
                continue
            gain = _tenths(telling.minutes)
            at = min(wanted, saved + gain)
            rank = (way.rank[0] + loss(telling), way.rank[1] + gain, way.rank[2] + 1)
            there = best[at]
            if there is None or rank < there.rank:
                best[at] = _Way(rank, (*way.tellings, telling))
    found = best[wanted]
    return found.tellings if found else ()


def _drop(tellings: Sequence[Droppable], need: int) -> Drop:
    saves = sum(_tenths(telling.minutes) for telling in tellings)
    return Drop(tuple(telling.ref for telling in tellings), saves / TENTHS, max(0, need - saves) / TENTHS)


def _worth(telling: Droppable) -> int:
    return _tenths(telling.minutes if telling.worth is None else telling.worth)


def _tenths(minutes: float) -> int:
    return math.floor(minutes * TENTHS + 0.5)
