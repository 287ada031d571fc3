"""A day of departures in plain values, and which two of them may not leave how far apart. Pure.

What happens on a tour is counted in tenths of a minute from its leaving; leaving is counted in minutes from midnight.
A span holds its first moment and not its last, so that one group may come as another goes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

TENTHS = 10


@dataclass(frozen=True)
class Span:
    """From when to when, in tenths from the leaving."""

    begins: int
    ends: int


@dataclass(frozen=True)
class InRoom(Span):
    """A group in a room. Walking through in a line, it fills the room at most."""

    room: str
    walking: bool = False


@dataclass(frozen=True)
class AtStation(Span):
    """A group that stands at a station."""

    station: str


@dataclass(frozen=True)
class Run(Span):
    """A machine that is run for a group, from its warm-up on."""

    machine: str
    demonstration: str
    title: str = ""
    told_from: int = 0


@dataclass(frozen=True)
class Going:
    """A tour that leaves on the day: where its group is when, and when it may leave.

    `noise` are the levels in dB(A) with the hours that its guide stands in them. `name` is how people speak of it.
    """

    ref: str
    name: str
    guide: str
    size: int
    tenths: int
    earliest: int
    latest: int
    leaves: int | None = None
    fixed: bool = False
    rooms: tuple[InRoom, ...] = ()
    stations: tuple[AtStation, ...] = ()
    runs: tuple[Run, ...] = ()
    noise: tuple[tuple[float, float], ...] = ()

    def times(self, step: int) -> list[int]:
        """The minutes at which it may leave; the one that it has is among them, whatever the step."""
        if self.fixed and self.leaves is not None:
            return [self.leaves]
        first = -(-self.earliest // step) * step
        grid = set(range(first, self.latest + 1, step))
        held = {self.leaves} if self.leaves is not None and self.earliest <= self.leaves <= self.latest else set()
        return sorted(grid | held) or [self.earliest]

    def cost(self, at: int) -> int:
        """The minutes that it leaves later than it could; for one that has a time, the minutes that it is moved."""
        return at - self.earliest if self.leaves is None else abs(at - self.leaves)


@dataclass(frozen=True)
class Rules:
    """What a day is held to: a guide's pause, the level of another's noise, the value of a guide's day, the step."""

    pause: int = 10
    level_db: float = 80.0
    value_db: float = 80.0
    step: int = 5


@dataclass(frozen=True)
class DayProblem:
    """The departures of a day, what the rooms hold, how loud each demonstration is at each station, and the rules."""

    goings: tuple[Going, ...]
    capacities: Mapping[str, int] = field(default_factory=dict)
    levels: Mapping[tuple[str, str], float] = field(default_factory=dict)
    rules: Rules = field(default_factory=Rules)

    @cached_property
    def by_ref(self) -> dict[str, Going]:
        """The departures by reference."""
        return {going.ref: going for going in self.goings}

    def only(self, refs: frozenset[str]) -> DayProblem:
        """The same day with some of its departures."""
        return replace(self, goings=tuple(going for going in self.goings if going.ref in refs))

    def fills(self, going: Going, stay: InRoom) -> int:
        """How many of a room's places a group takes."""
        return min(going.size, self.capacities[stay.room]) if stay.walking else going.size

    def too_loud(self, run: Run, at: AtStation) -> bool:
        """Whether a demonstration is heard at a station above the level."""
        return self.levels.get((run.demonstration, at.station), 0.0) > self.rules.level_db


@dataclass(frozen=True)
class Meeting:
    """Two departures that may meet: in what way, by which spans, and over which thing.

    `one` and `other` are their spans from their leavings; they meet when the spans share a moment.
    """

    kind: str
    one: Span
    other: Span
    thing: str

    @property
    def barred(self) -> tuple[int, int]:
        """How many whole minutes later the other may not leave than the one: from, to, both included."""
        low, high = self.one.begins - self.other.ends, self.one.ends - self.other.begins
        return low // TENTHS + 1, -(-high // TENTHS) - 1


def meetings(problem: DayProblem, one: Going, other: Going) -> Iterator[Meeting]:
    """Every way in which two departures may be in each other's way."""
    yield from _in_rooms(problem, one, other)
    for mine in one.runs:
        for theirs in other.runs:
            if mine.machine == theirs.machine:
                yield Meeting("machine", mine, theirs, mine.machine)
    for run in one.runs:
        for at in other.stations:
            if problem.too_loud(run, at):
                yield Meeting("noise", run, at, run.demonstration)
    for at in one.stations:
        for run in other.runs:
            if problem.too_loud(run, at):
                yield Meeting("noise back", at, run, run.demonstration)
    if one.guide and one.guide == other.guide:
        pause = problem.rules.pause * TENTHS
        yield Meeting("guide", Span(0, one.tenths + pause), Span(0, other.tenths + pause), one.guide)


def barred_gaps(problem: DayProblem, one: Going, other: Going) -> list[tuple[int, int]]:
    """The minutes by which the other may not leave after the one, as closed stretches in order, none touching."""
    stretches = sorted(meeting.barred for meeting in meetings(problem, one, other))
    joined: list[tuple[int, int]] = []
    for low, high in stretches:
        if low > high:
            continue
        if joined and low <= joined[-1][1] + 1:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return joined


def _in_rooms(problem: DayProblem, one: Going, other: Going) -> Iterator[Meeting]:
    for mine in one.rooms:
        for theirs in other.rooms:
            if mine.room == theirs.room:
                both = problem.fills(one, mine) + problem.fills(other, theirs)
                if both > problem.capacities[mine.room]:
                    yield Meeting("room", mine, theirs, mine.room)
