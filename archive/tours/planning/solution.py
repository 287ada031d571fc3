"""The tour that the planner found, and how sure it is that there is no better. Pure."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import Any


@dataclass(frozen=True)
class PlannedStop:
    """A stop with its tellings, and its minutes from the start of the tour.

    The group walks for `walk`, arrives, waits for `wait` if a demonstration is not to begin yet, and leaves.
    """

    station: str
    tellings: tuple[str, ...]
    walk: float
    arrive: float
    wait: float
    leave: float
    pinned: bool = False


@dataclass(frozen=True)
class LeftOut:
    """A telling that was not chosen: what it would cost in words, and the minutes that are lacking, if it is time.

    `wish` is the field of the wishes that would let it in, if giving one up would.
    """

    telling: str
    station: str
    why: str
    minutes_over: float | None = None
    wish: str = ""


@dataclass(frozen=True)
class Solution:
    """The stops in order, what they are worth, the most that any tour could be worth, and whether that is proven.

    Without stops nothing fits, or (not proven) nothing was found in time. Worth is in points, see `worth.py`.
    """

    stops: tuple[PlannedStop, ...]
    value: float
    bound: float
    proven: bool
    seconds: float
    left_out: tuple[LeftOut, ...] = ()

    @property
    def fits(self) -> bool:
        """Whether there is a tour."""
        return bool(self.stops)

    @property
    def minutes(self) -> float:
        """From the first word to the last."""
        return self.stops[-1].leave if self.stops else 0.0

    @property
    def gap(self) -> float:
        """How much better, as a share of the bound, a tour might still be; 0 when this one is proven best."""
        if self.proven or self.bound <= self.value:
            return 0.0 if self.proven or self.fits else 1.0
        return min(1.0, (self.bound - self.value) / self.bound) if self.bound > 0 else 1.0

    @property
    def tellings(self) -> frozenset[str]:
        """Everything that is told."""
        return frozenset(ref for stop in self.stops for ref in stop.tellings)

    def explained(self, left_out: tuple[LeftOut, ...]) -> Solution:
        """The same tour with what was left out."""
        return replace(self, left_out=left_out)

    def as_data(self) -> dict[str, Any]:
        """What is kept of it with the tour, besides the stops: worth, bound, proof, and what was left out."""
        return {
            "value": self.value,
            "bound": self.bound,
            "proven": self.proven,
            "gap": round(self.gap, 4),
            "seconds": round(self.seconds, 2),
            "minutes": self.minutes,
            "left_out": [asdict(one) for one in self.left_out],
        }
