"""What to drop to end on time; the device runs the same rule in static/js/desk/giving/dropping.js. Pure.

Of all ways to save the minutes that are too many, two are told: the one that loses least, and the one that drops the
fewest tellings. A telling loses what it is worth, or where nobody says so, its minutes. Where two lose alike, the one
that drops the shorter tellings is taken, then the one that drops fewer, then the one that comes first on the way.

Before a machine that may not begin earlier, only so much can be saved as the group comes there later than that: what is
saved beyond is waited. Where the machine is dropped itself, the wait for it is saved as well.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

TENTHS = 10


@dataclass(frozen=True)
class Droppable:
    """One telling still to come: its minutes, what it is worth (None: its minutes), and whether it must stay.

    `late` says for a machine how many minutes later than it may begin the group comes to it if nothing is dropped;
    less than none is waited.
    """

    ref: str
    minutes: float
    worth: float | None = None
    pinned: bool = False
    late: float | None = None


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

    def dropping(self, telling: Droppable, loss: int) -> _Way:
        """The way that drops one more."""
        rank = self.rank[0] + loss, self.rank[1] + _tenths(telling.minutes), self.rank[2] + 1
        return _Way(rank, (*self.tellings, telling))


def what_to_drop(to_come: Sequence[Droppable], over: float) -> tuple[Drop, ...]:
    """The choices, given what is still to come and how many minutes are too many; none where none are."""
    need = math.ceil(math.floor(over * 1000 + 0.5) / 100)
    if need <= 0:
        return ()
    chosen = [_least(to_come, need, _worth), _least(to_come, need, lambda _telling: 1)]
    return tuple(dict.fromkeys(_drop(to_come, tellings, need) for tellings in chosen if tellings))


def _least(to_come: Sequence[Droppable], need: int, loss: Callable[[Droppable], int]) -> tuple[Droppable, ...]:
    """The tellings that together save enough, or as much as can be, and lose least."""
    best: dict[int, _Way] = {0: _Way((0, 0, 0), ())}
    for telling in to_come:
        after: dict[int, _Way] = {}
        for saved, way in best.items():
            _better(after, _kept(telling, saved), way)
        for saved, way in best.items() if not telling.pinned else ():
            _better(after, min(need, _dropped(telling, saved)), way.dropping(telling, loss(telling)))
        best = dict(sorted(after.items()))
    return best[max(best)].tellings


def _better(ways: dict[int, _Way], saved: int, way: _Way) -> None:
    there = ways.get(saved)
    if there is None or way.rank < there.rank:
        ways[saved] = way


def _kept(telling: Droppable, saved: int) -> int:
    """What is still saved behind a telling that is told: at a machine no more than the group was late there."""
    return saved if telling.late is None else min(saved, max(0, _tenths(telling.late)))


def _dropped(telling: Droppable, saved: int) -> int:
    """What is saved behind a telling that is dropped: its minutes, and the wait for it."""
    return saved + _tenths(telling.minutes) + (0 if telling.late is None else max(0, -_tenths(telling.late)))


def _drop(to_come: Sequence[Droppable], tellings: Sequence[Droppable], need: int) -> Drop:
    saves = 0
    for telling in to_come:
        saves = _dropped(telling, saves) if telling in tellings else _kept(telling, saves)
    return Drop(tuple(telling.ref for telling in tellings), saves / TENTHS, max(0, need - saves) / TENTHS)


def _worth(telling: Droppable) -> int:
    return _tenths(telling.minutes if telling.worth is None else telling.worth)


def _tenths(minutes: float) -> int:
    return math.floor(minutes * TENTHS + 0.5)
