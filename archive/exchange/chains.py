"""Loops in what must not loop: a chain of processes, words that are broader than words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import networkx


def find_loop(arrows: Mapping[str, Sequence[str]]) -> list[str]:
    """The references of one loop in order, its first repeated at the end; empty if there is none."""
    graph = networkx.DiGraph([(start, end) for start, ends in arrows.items() for end in ends])
    try:
        edges = networkx.find_cycle(graph)
    except networkx.NetworkXNoCycle:
        return []
    return [edges[0][0], *(end for _, end in edges)]
