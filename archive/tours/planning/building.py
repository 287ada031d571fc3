"""The planner's problem out of the records: what is open for tours, allowed and reachable on the day that is wished."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.plan.model import Station
from archive.plan.queries import out_of_use_on, rooms, stations
from archive.plan.ways import Needs, Party, Ways
from archive.processes.model import Process
from archive.processes.queries import processes
from archive.rights.decisions import Viewer
from archive.tours.heard import MILLION, Heard, heard_levels, noise_of
from archive.tours.model import DEPTHS, Telling
from archive.tours.planning.bars import Bar, Facts, station_bar, telling_bar
from archive.tours.planning.problem import TENTHS, Barred, Choice, Clash, Place, Problem
from archive.tours.planning.strands import Pairs, closure
from archive.tours.queries import captioned_clips, departures_of, telling_ids, tellings_to_plan
from archive.tours.waiting import Hours, tenths_up
from archive.tours.walking import walking_party, ways_on
from archive.tours.wishes import Wishes

# The order of the tellings at one stop: see it explained, see it run, hear it, hold it, talk about it; each first at a
# glance, then closer.
KIND_ORDER = ("talk", "demonstration", "clip", "object", "question")


def needs_of(wishes: Wishes) -> Needs:
    """What the group needs of the ways."""
    return Needs(wishes.step_free, wishes.narrow, wishes.no_lift, wishes.quiet)


def ways_for(session: Session, wishes: Wishes) -> tuple[Ways, Needs, Party]:
    """The ways of the day that is wished, and who walks them."""
    needs, party = needs_of(wishes), walking_party(session, wishes.group_size)
    return ways_on(session, wishes.date, needs), needs, party


def problem_of(session: Session, wishes: Wishes, viewer: Viewer) -> Problem:
    """Everything that may be chosen for these wishes, and why the rest may not.

    What is closed to the viewer today is not known of, whatever the day that is wished.
    """
    by_ref = {station.ref: station for station in stations(session)}
    told = tellings_to_plan(session, viewer)
    _check_names(session, wishes, by_ref, told)
    facts = Facts(
        open_then=telling_ids(session, replace(viewer, on=wishes.date)),
        out_of_use={(row.kind, row.place): row.why for row in out_of_use_on(session, wishes.date)},
        captioned=captioned_clips(session, viewer),
    )
    heard = heard_levels(session, wishes.date)
    ways, needs, party = ways_for(session, wishes)
    minutes = ways.minutes(by_ref, needs, party)
    bars = {ref: station_bar(station, wishes, facts) for ref, station in by_ref.items()}
    bars |= _unreachable(wishes, bars, minutes, lambda one, other: ways.why_not(one, other, needs, party))
    choices, barred = _choices(told, wishes, facts, bars, heard)
    visited = {one.station for one in choices} | {ref for ref in (wishes.start, wishes.finish) if ref}
    visited = {ref for ref in visited if bars[ref] is None}
    pairs = {pair: tenths_up(time) for pair, time in minutes.items() if set(pair) <= visited}
    return Problem(
        tenths=round(wishes.minutes * TENTHS),
        places=tuple(_place(by_ref[ref]) for ref in by_ref if ref in visited),
        choices=choices,
        walks=pairs,
        start=wishes.start,
        finish=wishes.finish,
        audience=wishes.audience,
        depth=wishes.depth,
        weights=wishes.themes,
        before=metal_order(processes(session), visited) if wishes.follow_the_metal else frozenset(),
        must_stations=frozenset(wishes.must_stations),
        must_tellings=frozenset(wishes.must_tellings) | {ref for _, refs in wishes.pinned for ref in refs},
        pinned=tuple(station for station, _ in wishes.pinned),
        voice_every=_tenths(wishes.voice_every),
        seats_every=_tenths(wishes.seats_every),
        noise_left=MILLION,
        guide_noise_left=_guide_left(session, wishes, heard),
        barred=barred,
        clashes=tuple(_clashes(wishes, bars, choices, barred, {ref: one.name for ref, one in by_ref.items()})),
    )


def metal_order(chain_of: Sequence[Process], visited: Iterable[str]) -> Pairs:
    """Pairs of stations in the order of the work: a station stands where the metal first comes to it."""
    after = closure((link.after.ref, process.ref) for process in chain_of for link in process.comes_after)
    depth = {process.ref: sum(later == process.ref for _, later in after) for process in chain_of}
    first: dict[str, str] = {}
    for process in sorted(chain_of, key=lambda one: (depth[one.ref], one.ref)):
        for station in process.stations:
            first.setdefault(station.ref, process.ref)
    kept = [ref for ref in visited if ref in first]
    return frozenset((one, other) for one in kept for other in kept if (first[one], first[other]) in after)


def _check_names(session: Session, wishes: Wishes, by_ref: Mapping[str, Station], told: Sequence[Telling]) -> None:
    """Unacceptable where a wish names what is not there, or what is closed: the two are told alike."""
    known = {one.ref: one.station.ref for one in told}
    named = {
        "start": [wishes.start or ""],
        "finish": [wishes.finish or ""],
        "must_stations": wishes.must_stations,
        "not_stations": wishes.not_stations,
        "pinned": [station for station, _ in wishes.pinned],
    }
    faults = [
        Fault(field, 0, f"There is no station '{ref}' here", "Choose one of the plan")
        for field, refs in named.items()
        for ref in refs
        if ref and ref not in by_ref
    ]
    pins = [(station, ref) for station, refs in wishes.pinned for ref in refs]
    wanted = [*(("must_tellings", ref) for ref in wishes.must_tellings), *(("pinned", ref) for _, ref in pins)]
    faults += [
        Fault(field, 0, f"There is no telling '{ref}' here", "Choose one of the list")
        for field, ref in wanted
        if ref not in known
    ]
    faults += [
        Fault("pinned", 0, f"'{ref}' is not told at '{station}'", "Pin it where it is told")
        for station, ref in pins
        if known.get(ref, station) != station
    ]
    rooms_known = {room.ref for room in rooms(session)}
    faults += [
        Fault("closed_rooms", 0, f"There is no room '{ref}' here", "Choose one of the plan")
        for ref in wishes.closed_rooms
        if ref not in rooms_known
    ]
    if faults:
        raise Unacceptable(faults, "The wish list", left="nothing was planned")


def _unreachable(
    wishes: Wishes,
    bars: Mapping[str, Bar | None],
    minutes: Mapping[tuple[str, str], float],
    why_not: Callable[[str, str], str],
) -> dict[str, Bar | None]:
    """The stations that could be visited, but to which or from which no way leads."""
    found: dict[str, Bar | None] = {}
    for ref, bar in bars.items():
        legs = [(wishes.start, ref)] if wishes.start else []
        legs += [(ref, wishes.finish)] if wishes.finish else []
        for one, other in legs:
            if bar is None and one != other and (one, other) not in minutes and ref not in found:
                found[ref] = why_not(one, other), _wish_for_ways(wishes)
    return found


def _wish_for_ways(wishes: Wishes) -> str:
    return next((need for need in ("step_free", "narrow", "no_lift", "quiet") if getattr(wishes, need)), "")


def _choices(
    told: Sequence[Telling],
    wishes: Wishes,
    facts: Facts,
    bars: Mapping[str, Bar | None],
    heard: Heard,
) -> tuple[tuple[Choice, ...], tuple[Barred, ...]]:
    hours = Hours(wishes.minutes, wishes.starts_at, wishes.demonstration_windows)
    choices, barred = [], []
    for telling in told:
        bar = bars[telling.station.ref] or telling_bar(telling, wishes, facts)
        choice = _choice(telling, hours, heard) if bar is None else None
        if choice is not None and telling.demonstration_id and not choice.windows:
            bar = ("its hours do not fall within the tour", "demonstration_windows")
        if bar is None and choice is not None:
            choices.append(choice)
        elif bar is not None:
            barred.append(Barred(telling.ref, telling.station.ref, *bar))
    return tuple(choices), tuple(barred)


def _choice(telling: Telling, hours: Hours, heard: Heard) -> Choice:
    demonstration = telling.demonstration
    return Choice(
        ref=telling.ref,
        station=telling.station.ref,
        kind=telling.kind,
        tenths=tenths_up(telling.minutes),
        themes=tuple(dict.fromkeys(telling.themes)),
        depth=telling.depth,
        audiences=tuple(telling.audiences),
        is_voice=telling.kind == "clip",
        noise=noise_of(heard, demonstration, demonstration.minutes) if demonstration else 0,
        windows=hours.windows(demonstration.warm_up_minutes, telling.minutes) if demonstration else (),
        order=KIND_ORDER.index(telling.kind) * len(DEPTHS) + DEPTHS.index(telling.depth),
    )


def _place(station: Station) -> Place:
    return Place(station.ref, station.seats, station.quiet, station.room.ref)


def _tenths(minutes: float | None) -> int | None:
    return None if minutes is None else round(minutes * TENTHS)


def _guide_left(session: Session, wishes: Wishes, heard: Heard) -> int:
    """What the guide may still take in after the departures of that day."""
    if not wishes.guide:
        return MILLION
    taken = 0
    for departure in departures_of(session, wishes.date, wishes.guide):
        stops = departure.tour.stops if departure.tour else []
        shown = chain.from_iterable(stop.chosen for stop in stops)
        taken += sum(
            noise_of(heard, one.telling.demonstration, one.telling.demonstration.minutes)
            for one in shown
            if one.telling.demonstration
        )
    return max(0, MILLION - taken)


def _clashes(
    wishes: Wishes,
    bars: Mapping[str, Bar | None],
    choices: Sequence[Choice],
    barred: Sequence[Barred],
    names: Mapping[str, str],
) -> Iterable[Clash]:
    """Wishes that no tour can meet."""
    placed = {
        "start": [wishes.start] if wishes.start else [],
        "finish": [wishes.finish] if wishes.finish else [],
        "must_stations": wishes.must_stations,
        "pinned": [station for station, _ in wishes.pinned],
    }
    for wish, refs in placed.items():
        for ref in refs:
            bar = bars[str(ref)]
            if bar is not None:
                yield Clash(wish, f"{names[str(ref)]}: {bar[0]}", bar[1])
    open_refs = {one.ref for one in choices}
    why = {one.telling: one for one in barred}
    wanted = [*(("must_tellings", ref) for ref in wishes.must_tellings)]
    wanted += [("pinned", ref) for _, refs in wishes.pinned for ref in refs]
    for wish, ref in wanted:
        if ref not in open_refs:
            yield Clash(wish, f"What must be told at {names[why[ref].station]}: {why[ref].why}", why[ref].wish)
    told_at = {one.station for one in choices}
    for ref in wishes.must_stations:
        if bars[ref] is None and ref not in told_at:
            yield Clash("must_stations", f"{names[ref]}: nothing there can be told on this tour")
