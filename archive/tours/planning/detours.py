"""What it takes to stop at one more station of a tour: where the stop may come to stand, and the walking more. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from archive.tours.planning.problem import Problem


def gaps(problem: Problem, route: Sequence[str], station: str, *, ordered: bool = True) -> Iterator[int]:
    """The places in a route at which a station may come to stand, from 0.

    The start stays first and the finish last; ordered, the order of the work is kept as well.
    """
    first = 1 if route and route[0] == problem.start else 0
    last = len(route) - (1 if len(route) > first and route[-1] == problem.finish else 0)
    for at in range(first, last + 1):
        too_late = any((station, one) in problem.before for one in route[:at])
        too_early = any((one, station) in problem.before for one in route[at:])
        if not ordered or (not too_late and not too_early):
            yield at


def detour(problem: Problem, route: Sequence[str], station: str, at: int) -> int | None:
    """The tenths that are walked more when a station comes to stand at a place; None where there is no way."""
    before = route[at - 1] if at else problem.start
    after = route[at] if at < len(route) else problem.finish
    there, on = walked(problem, before, station), walked(problem, station, after)
    straight = walked(problem, before, after)
    return None if there is None or on is None else there + on - (straight or 0)


def walked(problem: Problem, one: str | None, other: str | None) -> int | None:
    """The tenths from one station to another; nothing where either is not fixed, None where there is no way."""
    return 0 if one is None or other is None or one == other else problem.walks.get((one, other))
