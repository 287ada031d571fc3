"""A tour's sheet as a group's day has it: in which room when, at which station, and which machine runs. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from archive.tours.day.problem import TENTHS, AtStation, InRoom, Run
from archive.tours.sheet import TimedStop, TourSheet

# The rooms that a way leads through from one station to another, each with its share of the way. Empty: no way.
RoomsBetween = Callable[[str, str], Sequence[tuple[str, float]]]


@dataclass(frozen=True)
class Itinerary:
    """Where a group is from its leaving on."""

    tenths: int
    rooms: tuple[InRoom, ...]
    stations: tuple[AtStation, ...]
    runs: tuple[Run, ...]


def itinerary_of(sheet: TourSheet, between: RoomsBetween) -> Itinerary:
    """The itinerary of a sheet, of which only what is open stands on it. What may not run that day is not run."""
    rooms: list[InRoom] = []
    before: TimedStop | None = None
    for stop in sheet.stops:
        if before is not None:
            rooms.extend(_walked(before, stop, between))
        rooms.append(InRoom(_tenths(stop.arrive), _tenths(stop.leave), stop.stop.station.room.ref))
        before = stop
    stations = tuple(AtStation(_tenths(one.arrive), _tenths(one.leave), one.stop.station.ref) for one in sheet.stops)
    runs = tuple(run for stop in sheet.stops for run in _runs(stop))
    return Itinerary(_tenths(sheet.minutes), tuple(r for r in rooms if r.begins < r.ends), stations, runs)


def _walked(before: TimedStop, stop: TimedStop, between: RoomsBetween) -> Iterable[InRoom]:
    """Walking through rooms by their share of the way; where there is no way, half in the one and half in the other."""
    one, other = before.stop.station, stop.stop.station
    shares = between(one.ref, other.ref) or [(one.room.ref, 0.5), (other.room.ref, 0.5)]
    clock, whole = before.leave, sum(share for _, share in shares) or 1.0
    for room, share in shares:
        ends = clock + stop.walk * share / whole
        if room:
            yield InRoom(_tenths(clock), _tenths(ends), room, walking=True)
        clock = ends


def _runs(stop: TimedStop) -> Iterable[Run]:
    clock = stop.arrive + stop.wait
    for item in stop.told:
        shown = item.telling.demonstration
        ends = clock + item.telling.minutes
        if shown is not None and not item.refused:
            warm = _tenths(clock - shown.warm_up_minutes)
            yield Run(warm, _tenths(ends), shown.machine.ref, shown.ref, item.title, _tenths(clock))
        clock = ends


def _tenths(minutes: float) -> int:
    return round(minutes * TENTHS)
