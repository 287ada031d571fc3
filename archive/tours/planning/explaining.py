"""Why each telling that could have been told was left out of a tour, worked out from the tour as it is. Pure.

What is barred keeps its own reason. For the rest the cheapest place in the tour is looked for: where the time is not
enough, the minutes over are told; where it would be, what else stands against it.
"""

from __future__ import annotations

from archive.tours.planning.detours import detour, gaps
from archive.tours.planning.problem import TENTHS, Choice, Problem
from archive.tours.planning.solution import LeftOut, Solution
from archive.values.counting import counted

BETTER = "what stands in its place counts for more"
NO_WAY = "no way leads there and on within these wishes"
ORDER = "it would break the order of the work"
NOT_WORTH = "it adds less than {} of walking to it would take off"
NOTHING = "it adds nothing to what you wish for"
UNTIMELY = "the machine may not begin at the time at which the tour would be there"
GROUP_NOISE = "the group would take in more noise than a day allows"
GUIDE_NOISE = "with the day's other tours, the guide would take in more noise than a day allows"
# Under a proof that is not there yet, it is not said that anything counts for more.
NOT_PROVEN = "no better tour with it was found in time"


def explained(problem: Problem, solution: Solution) -> Solution:
    """The solution with everything that was left out, by station."""
    barred = [LeftOut(one.telling, one.station, one.why, None, one.wish) for one in problem.barred]
    told = solution.tellings
    left = [_left_out(problem, solution, one) for one in problem.choices if one.ref not in told]
    place = {ref.ref: number for number, ref in enumerate(problem.places)}
    every = sorted([*left, *barred], key=lambda one: (place.get(one.station, len(place)), one.station, one.telling))
    return solution.explained(tuple(every))


def _left_out(problem: Problem, solution: Solution, one: Choice) -> LeftOut:
    """The reason of one telling that could be chosen."""
    heard = sum(problem.choice[ref].noise for ref in solution.tellings) + one.noise
    if one.noise and heard > problem.noise_left:
        return LeftOut(one.ref, one.station, GROUP_NOISE)
    if one.noise and heard > problem.guide_noise_left:
        return LeftOut(one.ref, one.station, GUIDE_NOISE, None, "guide")
    more = _cheapest(problem, solution, one.station)
    if more is None:
        ordered = problem.before and _cheapest(problem, solution, one.station, ordered=False) is not None
        return LeftOut(one.ref, one.station, ORDER if ordered else NO_WAY, None, "follow_the_metal" if ordered else "")
    over = one.tenths + more - (problem.tenths - round(solution.minutes * TENTHS))
    if over > 0:
        minutes = over / TENTHS
        rest = BETTER if solution.proven else NOT_PROVEN
        return LeftOut(one.ref, one.station, f"{counted(minutes, 'minute')} over: {rest}", minutes, "minutes")
    if one.timed:
        return LeftOut(one.ref, one.station, UNTIMELY, None, "demonstration_windows")
    worth = NOT_WORTH.format(counted(more / TENTHS, "minute")) if more else NOTHING
    return LeftOut(one.ref, one.station, worth if solution.proven else NOT_PROVEN)


def _cheapest(problem: Problem, solution: Solution, station: str, *, ordered: bool = True) -> int | None:
    """The fewest tenths of walking more to stop at a station as well; None where it fits nowhere."""
    route = [stop.station for stop in solution.stops]
    if station in route:
        return 0
    costs = (detour(problem, route, station, at) for at in gaps(problem, route, station, ordered=ordered))
    return min((cost for cost in costs if cost is not None), default=None)
