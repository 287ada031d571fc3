"""The chain of processes as a graph: its stages in order, and any cycle in it. Pure."""

from __future__ import annotations

from collections.abc import Iterable

import networkx as nx


def stages(names: Iterable[str], arrows: Iterable[tuple[str, str]]) -> list[list[str]]:
    """The processes in stages: each stands one stage after the latest that it comes after.

    `arrows` are (before, after). Raises ValueError when they run in a circle.
    """
    chain = _graph(names, arrows)
    circle = circle_in(names, arrows)
    if circle:
        raise ValueError("The chain runs in a circle: " + " → ".join(circle))
    return [sorted(stage) for stage in nx.topological_generations(chain)]


def circle_in(names: Iterable[str], arrows: Iterable[tuple[str, str]]) -> list[str]:
    """The names along one circle, first repeated at the end; empty when there is none."""
    try:
        edges = nx.find_cycle(_graph(names, arrows))
    except nx.NetworkXNoCycle:
        return []
    return [edge[0] for edge in edges] + [edges[0][0]]


def _graph(names: Iterable[str], arrows: Iterable[tuple[str, str]]) -> nx.DiGraph[str]:
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(names)
    graph.add_edges_from(arrows)
    return graph
