"""What breaks on a day whose departures leave at given times, in words. Pure."""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from archive.reckoners.hazard.noise_law import daily_exposure_db
from archive.tours.day.problem import TENTHS, DayProblem, Going, InRoom, Meeting, Span, meetings


@dataclass(frozen=True)
class Clash:
    """One thing that breaks: which departures are in it, what it is, and from when (tenths from midnight).

    `thing` is the room, machine, demonstration or guide that it is about. A clash without a time holds all day.
    """

    kind: str
    refs: tuple[str, ...]
    thing: str
    begins: int | None = None
    ends: int | None = None
    amount: float = 0.0


def clashes(problem: DayProblem, times: Mapping[str, int]) -> tuple[Clash, ...]:
    """Everything that breaks at these times, the all-day things first; departures without a time are left out."""
    going = [one for one in problem.goings if one.ref in times]
    found = [
        *unmendable(problem),
        *_outside(going, times),
        *_pairs(problem, going, times),
        *_crowds(problem, going, times),
    ]
    return tuple(sorted(found, key=lambda clash: (clash.begins or 0, clash.kind, clash.refs)))


def unmendable(problem: DayProblem) -> tuple[Clash, ...]:
    """What no other time would mend: a group larger than a room, a guide's day that is too loud."""
    return (*_too_large(problem), *_too_loud_days(problem))


def exposures(problem: DayProblem) -> dict[str, float]:
    """Each guide's day as a day of eight hours in dB(A), for those who stand in noise at all."""
    spells: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for going in problem.goings:
        if going.guide and going.noise:
            spells[going.guide].extend(going.noise)
    return {guide: daily_exposure_db(heard) for guide, heard in sorted(spells.items())}


def _too_large(problem: DayProblem) -> Iterator[Clash]:
    for going in problem.goings:
        told = {stay.room for stay in going.rooms if problem.fills(going, stay) > problem.capacities[stay.room]}
        for room in sorted(told):
            yield Clash("large", (going.ref,), room, amount=problem.capacities[room])


def _too_loud_days(problem: DayProblem) -> Iterator[Clash]:
    for guide, level in exposures(problem).items():
        if level > problem.rules.value_db:
            refs = tuple(one.ref for one in problem.goings if one.guide == guide and one.noise)
            yield Clash("day", refs, guide, amount=level)


def _outside(going: list[Going], times: Mapping[str, int]) -> Iterator[Clash]:
    for one in going:
        at = times[one.ref]
        if not one.earliest <= at <= one.latest:
            yield Clash("window", (one.ref,), one.ref, at * TENTHS, at * TENTHS)


def _pairs(problem: DayProblem, going: list[Going], times: Mapping[str, int]) -> Iterator[Clash]:
    """Where two departures meet; each thing is told once for a pair, at its first moment."""
    for one, other in itertools.combinations(going, 2):
        told: dict[tuple[str, str], Clash] = {}
        for meeting in meetings(problem, one, other):
            shared = _shared(meeting, times[one.ref] * TENTHS, times[other.ref] * TENTHS)
            if shared is None:
                continue
            refs = (other.ref, one.ref) if meeting.kind == "noise back" else (one.ref, other.ref)
            kind = meeting.kind.removesuffix(" back")
            key = kind, meeting.thing
            if key not in told or shared.begins < (told[key].begins or 0):
                told[key] = Clash(kind, refs, meeting.thing, shared.begins, shared.ends)
        yield from told.values()


def _shared(meeting: Meeting, one_at: int, other_at: int) -> Span | None:
    begins = max(one_at + meeting.one.begins, other_at + meeting.other.begins)
    ends = min(one_at + meeting.one.ends, other_at + meeting.other.ends)
    return Span(begins, ends) if begins < ends else None


def _crowds(problem: DayProblem, going: list[Going], times: Mapping[str, int]) -> Iterator[Clash]:
    """Three groups or more that overfill a room although no two of them do."""
    stays: dict[str, list[tuple[Going, InRoom]]] = defaultdict(list)
    for one in going:
        for stay in one.rooms:
            stays[stay.room].append((one, stay))
    told: set[tuple[str, tuple[str, ...]]] = set()
    for room, held in sorted(stays.items()):
        for one, stay in held:
            moment = times[one.ref] * TENTHS + stay.begins
            here = [(who, what) for who, what in held if _holds(what, moment - times[who.ref] * TENTHS)]
            filled = [problem.fills(who, what) for who, what in here]
            largest = sum(sorted(filled)[-2:])
            refs = tuple(sorted({who.ref for who, _ in here}))
            crowd = len(refs) > 2 and sum(filled) > problem.capacities[room] >= largest
            if crowd and (room, refs) not in told:
                told.add((room, refs))
                ends = min(times[who.ref] * TENTHS + what.ends for who, what in here)
                yield Clash("room", refs, room, moment, ends)


def _holds(stay: InRoom, moment: int) -> bool:
    return stay.begins <= moment < stay.ends
