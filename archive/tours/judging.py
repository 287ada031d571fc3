"""A tour as it stands, held against its wishes: what is wrong and what to do, and what adding a telling costs. Pure."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from archive.tours.planning.detours import detour, gaps, walked
from archive.tours.planning.problem import TENTHS, Choice, Problem
from archive.tours.waiting import Windows, shortest_wait


@dataclass(frozen=True)
class Standing:
    """A stop as it stands: its place on the tour, its station, and what is told there.

    `besides` are the tenths of those of its tellings that the problem does not choose from, by reference.
    """

    position: int
    station: str
    tellings: tuple[str, ...]
    besides: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True)
class Trouble:
    """What is wrong, with the whole tour or with the stop at a position, and what to do about it."""

    what: str
    remedy: str
    position: int | None = None


@dataclass(frozen=True)
class Addition:
    """What it takes to tell one more thing: the minutes, those over the tour's time, and where a new stop would stand.

    `position` is where the new stop comes to stand; None where the tour stops at the station already. `barred` says
    why it cannot be told, and then nothing else counts.
    """

    telling: str
    station: str
    minutes: float = 0.0
    over: float = 0.0
    position: int | None = None
    barred: str = ""


def troubles(problem: Problem, stops: Sequence[Standing], names: Mapping[str, str]) -> tuple[Trouble, ...]:
    """Everything that is wrong, that of the whole tour first. `names` are those of stations, by reference."""
    said = _Names(names)
    found = (
        _too_long(problem, stops),
        _wrong_ends(problem, stops, said),
        _too_loud(problem, stops),
        _missing(problem, stops, said),
        _too_seldom(problem, stops),
        _no_way(problem, stops, said),
        _out_of_order(problem, stops, said),
        _barred(problem, stops),
        _gone(problem, stops),
        _untimely(problem, stops),
    )
    return tuple(itertools.chain.from_iterable(found))


def additions(problem: Problem, stops: Sequence[Standing]) -> tuple[Addition, ...]:
    """What each telling that is not told would take, by station in the problem's order; the barred among them."""
    told = {ref for stop in stops for ref in stop.tellings}
    long = _length(problem, stops)
    open_ones = [_addition(problem, stops, one, long) for one in problem.choices if one.ref not in told]
    barred = [Addition(one.telling, one.station, barred=one.why) for one in problem.barred if one.telling not in told]
    return (*open_ones, *barred)


def _addition(problem: Problem, stops: Sequence[Standing], one: Choice, long: int) -> Addition:
    ways = list(_with(problem, stops, one))
    if not ways:
        return Addition(
            one.ref, one.station, barred="There is no way there and on that meets these needs and this order"
        )
    untimely = _count_untimely(problem, stops)
    in_time = [(way, at) for way, at in ways if _count_untimely(problem, way) <= untimely]
    lengths = [(_length(problem, way), -1 if at is None else at) for way, at in in_time]
    if not lengths:
        return Addition(one.ref, one.station, barred="The machine may not begin when the tour would be there")
    length, at = min(lengths)
    needed, over = max(0, length - long) / TENTHS, max(0, length - problem.tenths) / TENTHS
    return Addition(one.ref, one.station, needed, over, None if at < 0 else at)


def _with(problem: Problem, stops: Sequence[Standing], one: Choice) -> Iterator[tuple[list[Standing], int | None]]:
    """The tour with one thing more, and where its new stop stands, if it needs one: where it is the least walk.

    A machine is tried everywhere, since it may have to be waited for.
    """
    here = next((at for at, stop in enumerate(stops) if stop.station == one.station), None)
    if here is not None:
        more = replace(stops[here], tellings=(*stops[here].tellings, one.ref))
        yield [*stops[:here], more, *stops[here + 1 :]], None
        return
    route = [stop.station for stop in stops]
    detours = [(detour(problem, route, one.station, at), at) for at in gaps(problem, route, one.station)]
    ways = sorted((steps, at) for steps, at in detours if steps is not None)
    for _steps, at in ways if one.timed else ways[:1]:
        yield [*stops[:at], Standing(-1, one.station, (one.ref,)), *stops[at:]], at


def _count_untimely(problem: Problem, stops: Sequence[Standing]) -> int:
    return sum(timed.wait is None for timed in _timed(problem, stops))


@dataclass(frozen=True)
class _Timed:
    """A stop with the tenths walked to it (None: no way), those waited (None: no wait helps), and its clock."""

    stop: Standing
    steps: int | None
    wait: int | None
    begins: int
    leaves: int


def _timed(problem: Problem, stops: Sequence[Standing]) -> Iterator[_Timed]:
    before, clock = problem.start, 0
    for stop in stops:
        steps = walked(problem, before, stop.station)
        clock += steps or 0
        told = _told(problem, stop)
        wait = shortest_wait(told, clock)
        begins = clock + round(wait or 0)
        clock = begins + sum(tenths for tenths, _windows in told)
        yield _Timed(stop, steps, None if wait is None else round(wait), begins, clock)
        before = stop.station


def _told(problem: Problem, stop: Standing) -> list[tuple[int, Windows]]:
    """The tenths of everything told at a stop, in order, with when it may begin."""
    found = ((problem.choice.get(ref), stop.besides.get(ref, 0)) for ref in stop.tellings)
    return [(one.tenths, one.windows) if one else (besides, ()) for one, besides in found]


def _choices(problem: Problem, stop: Standing) -> list[Choice]:
    return [problem.choice[ref] for ref in stop.tellings if ref in problem.choice]


def _length(problem: Problem, stops: Sequence[Standing]) -> int:
    return max((timed.leaves for timed in _timed(problem, stops)), default=0)


def _too_long(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    over = _length(problem, stops) - problem.tenths
    if over > 0:
        minutes = "1 minute" if over == TENTHS else f"{over / TENTHS:g} minutes"
        yield Trouble(f"It runs {minutes} over", "Drop something, or let the rest be finished for you")


def _wrong_ends(problem: Problem, stops: Sequence[Standing], said: _Names) -> Iterable[Trouble]:
    if problem.start and stops and stops[0].station != problem.start:
        what = f"It does not start at {said(problem.start)}, where the group meets"
        yield Trouble(what, "Move that stop to the front, or wish for another start")
    if problem.finish and stops and stops[-1].station != problem.finish:
        what = f"It does not end at {said(problem.finish)}, where the group leaves"
        yield Trouble(what, "Move that stop to the end, or wish for another end")


def _too_loud(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    heard = sum(one.noise for stop in stops for one in _choices(problem, stop))
    if heard > problem.noise_left:
        yield Trouble("The group would take in more noise than its day allows", "Drop a machine that is run")
    if heard > problem.guide_noise_left:
        what = "With the day's other tours, the guide would take in more noise than a day allows"
        yield Trouble(what, "Drop a machine that is run, or give the tour to another guide")


def _missing(problem: Problem, stops: Sequence[Standing], said: _Names) -> Iterable[Trouble]:
    for station in sorted(problem.must_stations - {stop.station for stop in stops}):
        yield Trouble(f"{said(station)} must be visited and is not", "Add something that is told there")
    if problem.must_tellings - {ref for stop in stops for ref in stop.tellings}:
        yield Trouble("Something that must be told is not", "Add it from what was left out")


def _too_seldom(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    """Longer without a voice, or without a seat, than was wished.

    As the planner counts: a stop that has one has it from its first word to its last, and waiting is going without. So
    what the planner found is never called broken here, as a test of its tours holds.
    """
    timed = list(_timed(problem, stops))
    end = _length(problem, stops)
    silent = _longest_gap([(one.begins, one.leaves) for one in timed if _has_voice(problem, one.stop)], end)
    stood = _longest_gap([(one.begins, one.leaves) for one in timed if _has_seats(problem, one.stop)], end)
    if problem.voice_every and silent > problem.voice_every:
        yield Trouble(f"No voice is heard for {silent / TENTHS:g} minutes", "Add a voice in between")
    if problem.seats_every and stood > problem.seats_every:
        yield Trouble(f"There is no seat for {stood / TENTHS:g} minutes", "Add a stop that has seats in between")


def _longest_gap(spans: Sequence[tuple[int, int]], end: int) -> int:
    """The longest time outside the spans, from the start to the end."""
    edges = [(0, 0), *spans, (end, end)]
    return max(later[0] - earlier[1] for earlier, later in itertools.pairwise(edges))


def _has_voice(problem: Problem, stop: Standing) -> bool:
    return any(one.is_voice for one in _choices(problem, stop))


def _has_seats(problem: Problem, stop: Standing) -> bool:
    place = problem.place.get(stop.station)
    return place is not None and place.seats


def _no_way(problem: Problem, stops: Sequence[Standing], said: _Names) -> Iterable[Trouble]:
    before = problem.start
    for timed in _timed(problem, stops):
        if timed.steps is None:
            what = f"There is no way from {said(before or '')} that meets these needs"
            yield Trouble(what, "Move this stop, or drop it", timed.stop.position)
        before = timed.stop.station


def _out_of_order(problem: Problem, stops: Sequence[Standing], said: _Names) -> Iterable[Trouble]:
    first: dict[str, Standing] = {}
    for stop in stops:
        first.setdefault(stop.station, stop)  # That the group comes back to part is no visit.
    visits = list(first.values())
    for at, stop in enumerate(visits):
        later = next((one for one in visits[at + 1 :] if (one.station, stop.station) in problem.before), None)
        if later:
            what = f"The metal goes to {said(later.station)} before it comes here"
            yield Trouble(what, "Move this stop behind that one", stop.position)


def _barred(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    why = {one.telling: one.why for one in problem.barred}
    for stop in stops:
        for words in dict.fromkeys(why[ref] for ref in stop.tellings if ref in why):
            yield Trouble(words[:1].upper() + words[1:], "Drop what it holds for, or change the wishes", stop.position)


def _gone(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    """What nobody may tell any more on any tour."""
    known = set(problem.choice) | {one.telling for one in problem.barred}
    for stop in stops:
        if not known.issuperset(stop.tellings):
            yield Trouble("Something that is told here is no longer in use", "Drop it", stop.position)


def _untimely(problem: Problem, stops: Sequence[Standing]) -> Iterable[Trouble]:
    """A machine that would run outside the hours in which it may."""
    for timed in _timed(problem, stops):
        if timed.wait is None:
            yield Trouble("The machine would run outside its hours", "Move this stop", timed.stop.position)


class _Names:
    """The names of stations; the reference where one is not known."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names

    def __call__(self, ref: str) -> str:
        return self._names.get(ref, ref)
