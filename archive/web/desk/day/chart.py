"""A day drawn as rows over time: a row for each departure, by guide, or a row for each room. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive.tours.day.building import Day
from archive.tours.day.clashes import Clash
from archive.tours.day.problem import TENTHS, Going
from archive.values.dayclock import minute_told

WIDTH, LEFT, ROW = 1000.0, 190.0, 38.0
TOP = 30.0


@dataclass(frozen=True)
class Mark:
    """Something on a row: `kind` is stay, walk, through (a room), warm, run or clash."""

    kind: str
    x: float
    width: float
    text: str = ""


@dataclass(frozen=True)
class Row:
    """A row with its name and what lies on it."""

    name: str
    y: float
    marks: tuple[Mark, ...]


@dataclass(frozen=True)
class Chart:
    """The rows, and the whole and half hours over them."""

    rows: tuple[Row, ...]
    ticks: tuple[tuple[float, str], ...]

    @property
    def height(self) -> float:
        """How high it is drawn."""
        return TOP + ROW * len(self.rows) + 6


class _Scale:
    def __init__(self, day: Day) -> None:
        times = day.times
        ends = [times[one.ref] * TENTHS + one.tenths for one in day.problem.goings if one.ref in times]
        self.first = min(times.values()) // 30 * 30
        self.last = max(-(-max(ends) // (30 * TENTHS)) * 30, self.first + 60)
        self._per_tenth = (WIDTH - LEFT - 24) / ((self.last - self.first) * TENTHS)

    def x(self, tenths: int) -> float:
        return LEFT + (tenths - self.first * TENTHS) * self._per_tenth

    def mark(self, kind: str, begins: int, ends: int, text: str = "") -> Mark:
        x = self.x(begins)
        return Mark(kind, x, max(self.x(ends) - x, 1.5), text)

    def ticks(self) -> tuple[tuple[float, str], ...]:
        step = 30 if self.last - self.first <= 300 else 60
        first = -(-self.first // step) * step
        return tuple((self.x(minute * TENTHS), minute_told(minute)) for minute in range(first, self.last + 1, step))


def by_departure(day: Day, letters: dict[str, str], broken: Sequence[Clash]) -> Chart | None:
    """A row for each departure that has a time, those of one guide under each other; None when there is none."""
    if not day.times:
        return None
    scale = _Scale(day)
    going = [one for one in day.problem.goings if one.ref in day.times]
    going.sort(key=lambda one: (one.guide == "", one.guide, day.times[one.ref], one.ref))
    rows = [
        Row(f"{letters[one.ref]}  {one.guide}".strip(), TOP + ROW * at, tuple(_departure(day, one, scale, broken)))
        for at, one in enumerate(going)
    ]
    return Chart(tuple(rows), scale.ticks())


def by_room(day: Day, letters: dict[str, str], broken: Sequence[Clash]) -> Chart | None:
    """A row for each room that a group comes to, in the order of the plan."""
    if not day.times:
        return None
    scale = _Scale(day)
    order = [room for floor in day.floors for room in floor.rooms]
    used = {stay.room for one in day.problem.goings if one.ref in day.times for stay in one.rooms}
    rooms = [room for room in order if room.ref in used]
    rows = [
        Row(room.name, TOP + ROW * at, tuple(_room(day, room.ref, scale, letters, broken)))
        for at, room in enumerate(rooms)
    ]
    return Chart(tuple(rows), scale.ticks())


def _departure(day: Day, one: Going, scale: _Scale, broken: Sequence[Clash]) -> Iterable[Mark]:
    at = day.times[one.ref] * TENTHS
    yield scale.mark("walk", at, at + one.tenths)
    for stop in day.sheets[one.ref].stops:
        begins, ends = round(stop.arrive * TENTHS), round(stop.leave * TENTHS)
        mark = scale.mark("stay", at + begins, at + ends)
        yield Mark(mark.kind, mark.x, mark.width, str(stop.stop.station.number) if mark.width >= 16 else "")
    for run in one.runs:
        yield scale.mark("warm", at + run.begins, at + run.told_from)
        yield scale.mark("run", at + run.told_from, at + run.ends)
    yield from _clashes(scale, (clash for clash in broken if one.ref in clash.refs))


def _room(day: Day, room: str, scale: _Scale, letters: dict[str, str], broken: Sequence[Clash]) -> Iterable[Mark]:
    for one in day.problem.goings:
        at = day.times.get(one.ref)
        for stay in one.rooms if at is not None else ():
            if stay.room == room:
                kind = "through" if stay.walking else "stay"
                begins = (at or 0) * TENTHS
                mark = scale.mark(kind, begins + stay.begins, begins + stay.ends)
                text = f"{letters[one.ref]} {one.size}" if mark.width >= 38 else letters[one.ref]
                yield Mark(kind, mark.x, mark.width, text if mark.width >= 12 and kind == "stay" else "")
    yield from _clashes(scale, (clash for clash in broken if clash.kind == "room" and clash.thing == room))


def _clashes(scale: _Scale, broken: Iterable[Clash]) -> Iterable[Mark]:
    for clash in broken:
        if clash.begins is not None and clash.ends is not None and clash.ends > clash.begins:
            yield scale.mark("clash", clash.begins, clash.ends)
