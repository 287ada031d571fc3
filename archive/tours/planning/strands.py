"""An order of stations taken apart into strands, to tell what may follow from how far a tour has come. Pure.

A strand is a run of stations each of which comes before the next. A tour keeps the order if, on arriving at a station,
it has gone along no strand so far that a station there had to come later.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

Pairs = frozenset[tuple[str, str]]


@dataclass(frozen=True)
class Strand:
    """A run of stations, and for each station of the plan the least and most that may have been gone along it."""

    run: tuple[str, ...]
    least: Mapping[str, int]
    most: Mapping[str, int]


def closure(pairs: Iterable[tuple[str, str]]) -> Pairs:
    """All pairs that follow from some pairs."""
    after: dict[str, set[str]] = {}
    for one, other in pairs:
        after.setdefault(one, set()).add(other)
    for middle in list(after):
        for one in after:
            if middle in after[one]:
                after[one] |= after[middle]
    return frozenset((one, other) for one, mine in after.items() for other in mine)


def contradicts(order: Pairs) -> bool:
    """Whether an order that is closed puts something before itself."""
    return any(one == other for one, other in order)


def strands_of(nodes: Iterable[str], order: Pairs) -> tuple[Strand, ...]:
    """The strands of an order that is closed and does not contradict itself."""
    every = list(nodes)
    ordered = {node for pair in order for node in pair} & set(every)
    earlier = {node: sum((other, node) in order for other in ordered) for node in ordered}
    runs: list[list[str]] = []
    for node in sorted(ordered, key=lambda one: (earlier[one], one)):
        fitting = [run for run in runs if (run[-1], node) in order]
        if fitting:
            max(fitting, key=lambda run: earlier[run[-1]]).append(node)
        else:
            runs.append([node])
    return tuple(_strand(tuple(run), every, order) for run in runs)


def _strand(run: tuple[str, ...], nodes: list[str], order: Pairs) -> Strand:
    """On leaving a node: at least its own place, or that of the last that must be before it if that was visited."""
    least = {node: run.index(node) + 1 if node in run else 0 for node in nodes}
    most = {}
    for node in nodes:
        later = [place for place, other in enumerate(run) if (node, other) in order]
        most[node] = min(later) if later else len(run)
    return Strand(run, least, {node: max(least[node], most[node]) for node in nodes})
