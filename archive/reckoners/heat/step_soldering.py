"""A whole piece with several joints: each later solder should flow before the earlier joints begin to melt."""

from __future__ import annotations

import itertools
import re

from archive.reckoners.heat.solder_margin import LEAST_MARGIN_K, margin_k, margin_told, parent_solidus_c
from archive.reckoners.heat.solders import Solder, solder_names, solders
from archive.reckoners.metal.alloys import alloys, alloys_with
from archive.reckoners.shape import Given, Output, Reckoner, Worked, refuse, text, words

_MOST_JOINTS = 12


def step_k(earlier: Solder, later: Solder) -> float:
    """Degrees between where the earlier joint begins to melt and where the later solder flows."""
    return earlier.begins_c - later.liquidus_c


def better_order(order: list[Solder]) -> list[Solder]:
    """Highest flow first, so that each joint holds while the next is made."""
    return sorted(order, key=lambda solder: solder.liquidus_c, reverse=True)


def _listed(given: Given, key: str, known: dict[str, str]) -> list[str]:
    """The keys in a list written with commas or semicolons; every unknown one is refused."""
    words_given = [word.strip().lower() for word in re.split(r"[,;>]|\bthen\b", given.word(key)) if word.strip()]
    by_word = {word.lower(): one for one, name in known.items() for word in (one, name)}
    unknown = [word for word in words_given if word not in by_word]
    if unknown or not words_given or len(words_given) > _MOST_JOINTS:
        found = f"“{unknown[0][:40]}” is not in the table" if unknown else f"{len(words_given)} are given"
        raise refuse(key, found, f"Give 1 to {_MOST_JOINTS}, with commas between, from: {', '.join(known)}")
    return [by_word[word] for word in words_given]


def _work(given: Given) -> Worked:
    order = [solders()[key] for key in _listed(given, "joints", solder_names())]
    parents = _listed(given, "parents", alloys_with("solidus"))
    lowest, weakest = min((parent_solidus_c(key)[0], key) for key in parents)
    margins = [margin_k(lowest, solder.liquidus_c) for solder in order]
    steps = [f"Joint {place}, {solder.name}: flows at {solder.liquidus_c:g} °C, {margin:g} degrees below "
             f"{alloys()[weakest].name}."
             for place, (solder, margin) in enumerate(zip(order, margins, strict=True), 1)]  # fmt: skip
    values: dict[str, float | str] = {"margin": min(margins), "verdict": margin_told(min(margins))}
    gaps = [step_k(earlier, later) for earlier, later in itertools.pairwise(order)]
    flows = [earlier.liquidus_c - later.liquidus_c for earlier, later in itertools.pairwise(order)]
    if gaps:
        values |= {"step": min(gaps), "flow_step": min(flows)}
        steps += [_gap_told(pair, gap) for pair, gap in zip(itertools.pairwise(order), gaps, strict=True)]
    values["order"] = ", ".join(solder.key for solder in better_order(order))
    sources = (*(solder.source for solder in order), *(one for key in parents for one in parent_solidus_c(key)[2]))
    return Worked(values, tuple(steps), _warnings(min(margins), gaps, flows), sources=sources)


def _gap_told(pair: tuple[Solder, Solder], gap: float) -> str:
    earlier, later = pair
    begins = "begins to melt" if earlier.solidus_c is not None else "flows (where it begins is not known)"
    first = f"{earlier.key} {begins} at {earlier.begins_c:g} °C"
    return f"{first}, {later.key} flows at {later.liquidus_c:g} °C: {gap:g} degrees."


def _warnings(margin: float, gaps: list[float], flows: list[float]) -> tuple[str, ...]:
    told = []
    if margin < LEAST_MARGIN_K:
        told.append(f"The closest joint is {margin:g} degrees from the metal itself, under {LEAST_MARGIN_K:g}.")
    if any(flow < 0 for flow in flows):
        told.append("A later solder flows hotter than an earlier joint: that joint will open. Change the order.")
    elif any(gap < 0 for gap in gaps):
        told.append(
            "An earlier joint begins to soften before the next solder flows. It is done, with the work held or bound; "
            "a joint once made also melts a little higher, as it takes up some of the metal."
        )
    return tuple(told)


STEP_SOLDERING = Reckoner(
    name="heat/step-soldering",
    title="Soldering a piece in steps",
    about="Whether the joints of a piece can be made one after another, and in which order.",
    inputs=(
        text("joints", "Solders, first joint first", f"With commas between, from: {', '.join(solder_names())}.",
             default="hard, medium, easy"),
        text("parents", "Metals of the piece", "With commas between, as named in the alloy table.", default="sterling"),
    ),
    outputs=(
        Output("margin", "Closest to the metal itself", "K", 0),
        words("verdict", "That margin is"),
        Output("step", "Closest step, earlier joint beginning to melt", "K", 0),
        Output("flow_step", "Closest step, flow to flow", "K", 0),
        words("order", "Safest order"),
    ),
    formula="margin = lowest solidus of the metals − flow of the solder; step = start of melting of the earlier joint "
    "− flow of the next solder",
    work=_work,
    sources=("solder-margin", "trade"),
    good_for=("Joints made one after another over the whole piece. Heat sinks and wet rag change it.",),
)  # fmt: skip
