"""Why a day does not fit: the smallest set of departures in each other's way, and the nearest mends. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from archive.tours.day.clashes import Clash, clashes, unmendable
from archive.tours.day.problem import TENTHS, DayProblem, Going
from archive.tours.day.solving import DayPlan, solve_day
from archive.values.dayclock import DAY_MINUTES

_SECONDS_EACH = 2.0
_MOST_MENDS = 3


@dataclass(frozen=True)
class Mend:
    """One departure let go at another time than it may now, after which all fit."""

    ref: str
    at: int
    minutes: int


@dataclass(frozen=True)
class NoFit:
    """Departures of which none can be left out without the others fitting, how they clash, and what would mend it.

    `times` are those at which each would leave if it were alone, and at which they clash.
    """

    refs: tuple[str, ...]
    clashes: tuple[Clash, ...]
    mends: tuple[Mend, ...]
    times: Mapping[str, int]


def why_not(problem: DayProblem) -> NoFit:
    """What stands in the way of a day for which there are no times."""
    held = unmendable(problem)
    if held:
        return NoFit(tuple(dict.fromkeys(ref for clash in held for ref in clash.refs)), held, (), {})
    refs = _smallest(problem)
    core = problem.only(refs)
    times = {one.ref: _now(one, problem.rules.step) for one in core.goings}
    order = tuple(one.ref for one in problem.goings if one.ref in refs)
    return NoFit(order, clashes(core, times), _mends(problem, refs), times)


def moves(problem: DayProblem, plan: DayPlan) -> dict[str, tuple[int, int]]:
    """The departures that had a time and got another: from, to."""
    was: Mapping[str, int | None] = {one.ref: one.leaves for one in problem.goings}
    return {ref: (before, plan.times[ref]) for ref in plan.moved if (before := was[ref]) is not None}


def _now(going: Going, step: int) -> int:
    """When it would leave if it were alone."""
    if going.leaves is not None:
        return going.leaves
    return going.times(step)[0]


def _smallest(problem: DayProblem) -> frozenset[str]:
    """Leave out one after the other, and keep out whatever is not needed for the rest not to fit."""
    refs = frozenset(problem.by_ref)
    for going in problem.goings:
        fewer = refs - {going.ref}
        if fewer and not _fits(problem.only(fewer)):
            refs = fewer
    return refs


def _fits(problem: DayProblem) -> bool:
    plan = solve_day(problem, seconds=_SECONDS_EACH)
    return plan.fits or not plan.proven


def _mends(problem: DayProblem, refs: frozenset[str]) -> tuple[Mend, ...]:
    """The nearest other time of each departure in the way, that which is moved least first."""
    found = (_mend(problem, problem.by_ref[ref]) for ref in sorted(refs))
    nearest = sorted((mend for mend in found if mend), key=lambda mend: (mend.minutes, mend.ref))
    return tuple(nearest[:_MOST_MENDS])


def _mend(problem: DayProblem, going: Going) -> Mend | None:
    """The least minutes outside its window, or away from where it is fixed, at which all others still fit."""
    found = []
    for loose in _loose(going):
        others = tuple(loose if one.ref == going.ref else one for one in problem.goings)
        plan = solve_day(replace(problem, goings=others), seconds=_SECONDS_EACH, only=going.ref)
        if plan.fits:
            at = plan.times[going.ref]
            found.append(Mend(going.ref, at, _away(going, at)))
    return min(found, key=lambda mend: (mend.minutes, mend.at), default=None)


def _loose(going: Going) -> list[Going]:
    """The departure let go: from where it is fixed; or before its window, and after it."""
    last = max(DAY_MINUTES - -(-going.tenths // TENTHS), 0)
    if going.fixed and going.leaves is not None:
        return [replace(going, earliest=0, latest=last, fixed=False)]
    before = replace(going, earliest=0, latest=going.earliest - 1, leaves=going.earliest)
    after = replace(going, earliest=going.latest + 1, latest=last, leaves=going.latest)
    return [one for one in (before, after) if one.earliest <= one.latest]


def _away(going: Going, at: int) -> int:
    if going.fixed and going.leaves is not None:
        return abs(at - going.leaves)
    return max(going.earliest - at, at - going.latest, 0)
