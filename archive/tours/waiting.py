"""When machines may begin on a tour and how long a group waits: one rule for plan, sheet, bench and day. Pure.

Times are tenths of a minute from the start of the tour. A group waits on arriving at a stop, no longer than it must.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from archive.tours.planning.problem import TENTHS
from archive.tours.reading_wishes import WishReader

Windows = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Hours:
    """The minutes of a tour, when it starts (a minute of the day), and the stretches of the day for machines, if any.

    Without a start, or without stretches, machines may run whenever they are warm.
    """

    minutes: float
    starts_at: int | None = None
    stretches: tuple[tuple[int, int], ...] = ()

    @property
    def bound(self) -> bool:
        """Whether machines run only in their hours."""
        return bool(self.stretches) and self.starts_at is not None

    def windows(self, warm_up: float, lasts: float) -> Windows:
        """When a machine may begin: warmed up since the tour or its hours began, and over before they end."""
        hours = [(0.0, float(self.minutes))]
        if self.stretches and self.starts_at is not None:
            hours = [(float(begin - self.starts_at), float(end - self.starts_at)) for begin, end in self.stretches]
        found = [
            (max(0, tenths_up(begin + warm_up)), math.floor(round((min(end, self.minutes) - lasts) * TENTHS, 6)))
            for begin, end in hours
        ]
        return tuple((earliest, latest) for earliest, latest in found if earliest <= latest)


@dataclass(frozen=True)
class Timed:
    """The tenths waited at a stop, and for each of its tellings the tenth before which it may not begin, if any."""

    wait: float
    not_before: tuple[int | None, ...]


def hours_of(inputs: Mapping[str, Any] | None, minutes: float, starts_at: int | None = None) -> Hours:
    """The hours in what a tour was planned from; those that cannot be read are none. A given start goes before."""
    read = WishReader(inputs or {})
    wished, stretches = read.clock("starts_at"), read.windows("demonstration_windows")
    return Hours(minutes, wished if starts_at is None else starts_at, () if read.faults else stretches)


def tenths_up(minutes: float) -> int:
    """Minutes as whole tenths, up."""
    return math.ceil(round(minutes * TENTHS, 6))


def shortest_wait(told: Sequence[tuple[float, Windows]], clock: float) -> float | None:
    """The shortest wait after which everything told at a stop begins when it may; None where no wait helps.

    `told` are the tenths of each telling, in order, with its windows (none: at any time); `clock` is the arrival.
    """
    timed = list(_starts(told, clock))
    waits = {0.0} | {begin - start for windows, start in timed for begin, _end in windows if begin > start}
    helps = (wait for wait in sorted(waits) if all(_within(windows, start + wait) for windows, start in timed))
    return next(helps, None)


def timed_stop(told: Sequence[tuple[float, Windows]], clock: float) -> Timed:
    """The wait of a stop, none where it would not help, and the moments that it waits for."""
    wait = shortest_wait(told, clock) or 0.0
    not_before: list[int | None] = []
    for tenths, windows in told:
        begins = round(clock + wait, 6)
        not_before.append(next((begin for begin, end in windows if begin <= begins <= end), None))
        clock += tenths
    return Timed(wait, tuple(not_before))


def _starts(told: Sequence[tuple[float, Windows]], clock: float) -> Iterable[tuple[Windows, float]]:
    for tenths, windows in told:
        if windows:
            yield windows, round(clock, 6)
        clock += tenths


def _within(windows: Windows, start: float) -> bool:
    return any(begin <= round(start, 6) <= end for begin, end in windows)
