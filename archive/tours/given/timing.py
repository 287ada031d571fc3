"""Real times of an outing beside the planned ones, stop by stop, from the lines of its log. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from archive.tours.given.planned import PlannedStop, due_stops


class Line(Protocol):
    """What is asked of one line of a log."""

    @property
    def at(self) -> dt.datetime: ...
    @property
    def kind(self) -> str: ...
    @property
    def station(self) -> str: ...
    @property
    def telling(self) -> str: ...


@dataclass(frozen=True)
class RealStop:
    """A planned stop and what became of it. Times are minutes from the start; None where the log does not tell.

    `planned_wait` is how long it was to be waited here.
    """

    planned: PlannedStop
    due: float
    planned_wait: float
    arrived: float | None
    left: float | None
    walked: float | None
    told: tuple[str, ...]
    dropped: tuple[str, ...]

    @property
    def minutes(self) -> float | None:
        """How long the group stood here."""
        return None if self.arrived is None or self.left is None else round(self.left - self.arrived, 2)

    @property
    def telling_minutes(self) -> float | None:
        """How long it was told something here: without what it had to wait, having come when it did."""
        if self.arrived is None or self.minutes is None:
            return None
        return round(max(0.0, self.minutes - self.planned.wait(self.arrived)), 2)

    @property
    def missed(self) -> bool:
        """Whether the group never came here."""
        return self.arrived is None

    @property
    def whole(self) -> bool:
        """Whether nothing was dropped here, so that its minutes say how long all of it takes."""
        return not self.dropped and self.minutes is not None


@dataclass(frozen=True)
class RealTour:
    """An outing's stops, when it started and how long it took."""

    started: dt.datetime | None
    stops: tuple[RealStop, ...]
    minutes: float | None

    @property
    def planned_minutes(self) -> float:
        """How long it was to take."""
        last = self.stops[-1] if self.stops else None
        return round(last.due + last.planned_wait + last.planned.minutes, 2) if last else 0.0


def real_tour(planned: Iterable[PlannedStop], lines: Iterable[Line]) -> RealTour:
    """The times of a log. A station on the tour twice takes its arrivals in turn."""
    kept = sorted(lines, key=lambda line: line.at)
    start = next((line.at for line in kept if line.kind in {"started", "arrived"}), None)
    if start is None:
        unknown = (RealStop(one.planned, one.due, one.wait, None, None, None, (), ()) for one in due_stops(planned))
        return RealTour(None, tuple(unknown), None)
    stops: list[RealStop] = []
    last = 0.0
    for number, one in enumerate(due_stops(planned)):
        stop = one.planned
        turn = sum(each.planned.station == stop.station for each in stops[:number])
        arrived = _nth(kept, "arrived", stop.station, turn, start)
        left = _nth(kept, "left", stop.station, turn, start)
        walked = None if arrived is None else round(max(0.0, arrived - last), 2)
        refs = {telling.ref for telling in stop.tellings}
        told, dropped = _marked(kept, "told", refs), _marked(kept, "dropped", refs)
        stops.append(RealStop(stop, one.due, one.wait, arrived, left, walked, told, dropped))
        last = left if left is not None else last
    ends = [_since(line.at, start) for line in kept if line.kind == "finished"]
    return RealTour(start, tuple(stops), ends[-1] if ends else None)


def _nth(lines: Sequence[Line], kind: str, station: str, turn: int, start: dt.datetime) -> float | None:
    times = [line.at for line in lines if line.kind == kind and line.station == station]
    return _since(times[turn], start) if turn < len(times) else None


def _marked(lines: Sequence[Line], kind: str, refs: set[str]) -> tuple[str, ...]:
    """The tellings last marked so: a telling dropped and told after all was told."""
    last = {line.telling: line.kind for line in lines if line.kind in {"told", "dropped"} and line.telling in refs}
    return tuple(ref for ref, said in last.items() if said == kind)


def _since(at: dt.datetime, start: dt.datetime) -> float:
    return round((at - start).total_seconds() / 60, 2)
