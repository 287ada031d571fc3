"""A tour as it is given: its stops with planned times, what may be told at each, and what stands in the way."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from archive.evidence.queries import ShownStatement
from archive.interviews.names import shown_text
from archive.objects.clearance import ClearanceState, clearance_on
from archive.tours.model import Stop, Telling, Tour
from archive.tours.planning.problem import TENTHS
from archive.tours.titles import shown_title
from archive.tours.waiting import Hours, Windows, hours_of, timed_stop


@dataclass(frozen=True)
class ToldItem:
    """One telling of a stop, with the statements it rests on; for a demonstration, whether it may run.

    Title and advice of a voice have its narrators under their shown names. `not_before` are the minutes from the start
    of the tour before which a demonstration may not begin.
    """

    telling: Telling
    title: str
    advice: str
    statements: tuple[ShownStatement, ...]
    clearance: ClearanceState | None
    not_before: float | None = None

    @property
    def refused(self) -> bool:
        """Whether it may not be given today."""
        return self.clearance is not None and not self.clearance.valid


@dataclass(frozen=True)
class TimedStop:
    """A stop with the minutes walked to it, and those from the start at which the group arrives and goes on.

    On arriving it waits for `wait` minutes, where a machine is not to begin yet.
    """

    stop: Stop
    number: int
    walk: float
    arrive: float
    leave: float
    told: tuple[ToldItem, ...]
    wait: float = 0.0

    @property
    def minutes(self) -> float:
        """How long the group stands here."""
        return self.leave - self.arrive

    @property
    def telling_minutes(self) -> float:
        """How long it is told something here."""
        return round(self.minutes - self.wait, 2)

    @property
    def waits_for(self) -> ToldItem | None:
        """The demonstration that the group waits for here, if it waits: of several, the one that may begin last."""
        timed = [item for item in self.told if item.not_before is not None]
        return max(timed, key=lambda item: item.not_before or 0.0) if self.wait and timed else None

    @property
    def statements(self) -> tuple[ShownStatement, ...]:
        """What its tellings rest on, each statement once."""
        return tuple({shown.statement.ref: shown for item in self.told for shown in item.statements}.values())


@dataclass(frozen=True)
class TourSheet:
    """A tour with its timed stops, and the hours in which its machines may run."""

    tour: Tour
    stops: tuple[TimedStop, ...]
    on: dt.date
    hours: Hours

    @property
    def minutes(self) -> float:
        """From the first step to the last word."""
        return self.stops[-1].leave if self.stops else 0.0

    @property
    def walking(self) -> float:
        """The minutes of it that are walked."""
        return sum(timed.walk for timed in self.stops)

    @property
    def waiting(self) -> float:
        """The minutes of it that the group waits for machines."""
        return sum(timed.wait for timed in self.stops)

    @property
    def spare(self) -> float:
        """What is left of the tour's minutes; negative when it runs over."""
        return self.tour.minutes - self.minutes

    @property
    def refusals(self) -> tuple[ToldItem, ...]:
        """The tellings that may not be given today."""
        return tuple(item for timed in self.stops for item in timed.told if item.refused)


def tour_sheet(
    tour: Tour,
    *,
    open_tellings: frozenset[int],
    statements: Mapping[int, ShownStatement],
    names: dict[int, str],
    on: dt.date,
    starts_at: int | None = None,
) -> TourSheet:
    """The sheet of a tour for one day; tellings and statements that are not open are left out without a trace.

    A stop of which nothing is left is walked past, and no number, pause or empty place tells of it. Machines may begin
    as the tour's wishes say; the start that was wished gives way to `starts_at`, a minute of the day.
    """
    hours = hours_of(tour.inputs, tour.minutes, starts_at)
    timed: list[TimedStop] = []
    clock = walk = 0.0
    for stop in tour.stops:
        mine = [chosen.telling for chosen in stop.chosen if chosen.telling_id in open_tellings]
        walk += stop.walk_minutes
        if stop.chosen and not mine:
            continue
        arrive = clock + walk
        told, wait = _waited(told_items(mine, statements, names, on), hours, arrive)
        clock = arrive + wait + sum(item.telling.minutes for item in told)
        timed.append(TimedStop(stop, len(timed) + 1, walk, round(arrive, 2), round(clock, 2), told, round(wait, 2)))
        walk = 0.0
    return TourSheet(tour, tuple(timed), on, hours)


def _waited(told: Sequence[ToldItem], hours: Hours, arrive: float) -> tuple[tuple[ToldItem, ...], float]:
    """The items with when they may begin, and the minutes waited for that. What may not run is not waited for."""
    timed = timed_stop([(item.telling.minutes * TENTHS, _windows(item, hours)) for item in told], arrive * TENTHS)
    begins = [None if tenth is None else tenth / TENTHS for tenth in timed.not_before]
    items = [replace(item, not_before=begin) for item, begin in zip(told, begins, strict=True)]
    return tuple(items), timed.wait / TENTHS


def _windows(item: ToldItem, hours: Hours) -> Windows:
    shown = item.telling.demonstration
    return () if shown is None or item.refused else hours.windows(shown.warm_up_minutes, item.telling.minutes)


def statement_keys(tours: Iterable[Tour]) -> set[int]:
    """The keys of all statements that the tours' tellings rest on."""
    tellings = (chosen.telling for tour in tours for stop in tour.stops for chosen in stop.chosen)
    return {statement.id for telling in tellings for statement in telling.statements}


def told_items(
    tellings: Iterable[Telling], statements: Mapping[int, ShownStatement], names: dict[int, str], on: dt.date
) -> tuple[ToldItem, ...]:
    """Tellings with what they rest on, of the statements given, and people under the names given."""
    return tuple(_item(telling, statements, names, on) for telling in tellings)


def _item(telling: Telling, statements: Mapping[int, ShownStatement], names: dict[int, str], on: dt.date) -> ToldItem:
    shown = tuple(statements[row.id] for row in telling.statements if row.id in statements)
    machine = telling.demonstration.machine if telling.demonstration else None
    clip = telling.clip
    advice = shown_text(clip.content_advice, clip.recording.interview, names) if clip else ""
    return ToldItem(
        telling, shown_title(telling, names), advice, shown, clearance_on(machine.clearances, on) if machine else None
    )
