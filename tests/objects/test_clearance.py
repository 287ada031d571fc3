"""Whether a machine may be run on a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import pytest

from archive.objects.clearance import clearance_on
from archive.objects.model import CLEARANCE_KINDS

DAY = dt.date(2026, 11, 25)


@dataclass(frozen=True)
class Paper:
    """One paper of a machine."""

    kind: str
    dated: dt.date
    runs_out: dt.date


def papers(**ends: dt.date) -> list[Paper]:
    """A paper of every kind, good for a year from the day unless told otherwise."""
    later = DAY + dt.timedelta(365)
    return [Paper(kind, DAY, ends.get(kind.replace(" ", "_"), later)) for kind in CLEARANCE_KINDS]


@pytest.mark.parametrize("kind", CLEARANCE_KINDS)
def test_without_any_one_kind_it_may_not_be_run(kind: str) -> None:
    """Each paper is needed, and the reason names the one that lacks."""
    state = clearance_on([paper for paper in papers() if paper.kind != kind], DAY)
    assert not state.valid
    assert state.lacking == (f"There is no {kind} in force.",)


def test_a_paper_that_ran_out_is_told_with_its_day() -> None:
    """Yesterday's last day is too late today."""
    state = clearance_on(papers(risk_assessment=DAY - dt.timedelta(1), operator=DAY), DAY)
    assert state.lacking == ("The risk assessment ran out on 24 November 2026.",)


def test_a_paper_dated_tomorrow_is_not_yet_in_force() -> None:
    """A paper counts from its date."""
    early = [Paper(kind, DAY + dt.timedelta(1), DAY + dt.timedelta(9)) for kind in CLEARANCE_KINDS]
    assert not clearance_on(early, DAY).valid


def test_it_holds_through_the_last_day_of_the_first_to_run_out() -> None:
    """The machine's clearance ends with its shortest paper."""
    state = clearance_on(papers(operator=DAY), DAY)
    assert state.valid
    assert state.until == DAY
