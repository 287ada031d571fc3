"""Whether a machine may be run for visitors on a day, from the papers it has. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from archive.objects.model import CLEARANCE_KINDS


class Paper(Protocol):
    """What the rule needs to know of one paper."""

    @property
    def kind(self) -> str: ...
    @property
    def dated(self) -> dt.date: ...
    @property
    def runs_out(self) -> dt.date: ...


@dataclass(frozen=True)
class ClearanceState:
    """Whether every paper holds, what is lacking in words, and the first day on which it no longer holds."""

    valid: bool
    lacking: tuple[str, ...]
    until: dt.date | None


def clearance_on(papers: Iterable[Paper], day: dt.date) -> ClearanceState:
    """The state on a day: one valid paper of every kind is needed; a paper holds through its last day."""
    kept = list(papers)
    lacking, last_days = [], []
    for kind in CLEARANCE_KINDS:
        mine = [paper for paper in kept if paper.kind == kind]
        valid = [paper.runs_out for paper in mine if paper.dated <= day <= paper.runs_out]
        if valid:
            last_days.append(max(valid))
        else:
            lacking.append(_words(kind, [paper.runs_out for paper in mine if paper.runs_out < day]))
    return ClearanceState(not lacking, tuple(lacking), None if lacking else min(last_days))


def _words(kind: str, ran_out: list[dt.date]) -> str:
    if not ran_out:
        return f"There is no {kind} in force."
    last = max(ran_out)
    return f"The {kind} ran out on {last.day} {last:%B %Y}."
