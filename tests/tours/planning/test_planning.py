"""Planning from records: what bars a telling, what was left out and why, and what conflicts when nothing fits."""

from __future__ import annotations

from dataclasses import replace

import pytest

from archive.errors import Unacceptable
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tours.planning.building import problem_of
from archive.tours.planning.planning import plan
from archive.tours.queries import telling_ids, tellings_to_plan
from archive.tours.wishes import Wishes, read_wishes
from tests.conftest import TODAY
from tests.tours.planning.verifying import verify

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
SHORT = Wishes(date=TODAY, minutes=15, group_size=8, start="st-gate", finish="st-cards", themes={"metal": 3})


def test_what_is_not_there_is_refused(demo_home: Store) -> None:
    """A station or telling that is not there, or is closed, is refused in the same words."""
    with demo_home.session() as session, pytest.raises(Unacceptable, match="There is no telling 'tl-none' here"):
        problem_of(session, replace(SHORT, must_tellings=("tl-none",)), GUIDE)


def test_faults_are_told_together() -> None:
    """Every wish that cannot be read is named."""
    with pytest.raises(Unacceptable) as refused:
        read_wishes({"minutes": "long", "themes": {"gossip": 1}, "colour": "red"})
    assert {fault.where for fault in refused.value.faults} == {"date", "minutes", "themes", "colour"}


def test_wishes_are_kept_and_read_again() -> None:
    """What is written down is read back the same."""
    wishes = replace(SHORT, starts_at=630, demonstration_windows=((640, 700),), pinned=(("st-gate", ("tl-a",)),))
    assert read_wishes(wishes.as_data()) == wishes


def test_left_out_with_the_reason(demo_home: Store) -> None:
    """Everything open is told or left out; a lapsed paper, a full room and the minutes over are the reasons."""
    planned = plan(demo_home.session, replace(SHORT, group_size=12), GUIDE)
    found = planned.solution
    with demo_home.session() as session:
        problem = problem_of(session, replace(SHORT, group_size=12), GUIDE)
        open_refs = {one.ref for one in tellings_to_plan(session, GUIDE)}
    assert found.proven
    assert verify(problem, found) == []
    assert {one.telling for one in found.left_out} | found.tellings == open_refs
    why = {one.telling: one.why for one in found.left_out}
    assert why["tl-clip-demo"] == "the risk assessment ran out on 31 March 2026"
    assert why["tl-dust-metal"] == "its room holds 10, and the group has 12"
    assert any(one.minutes_over for one in found.left_out)


def test_nothing_closed_is_planned_or_told_of(demo_home: Store) -> None:
    """Whatever the day that is wished, only what is open today is in the problem, barred or not."""
    with demo_home.session() as session:
        open_ids = telling_ids(session, GUIDE)
        known = {one.ref for one in tellings_to_plan(session, GUIDE) if one.id in open_ids}
        later = problem_of(session, replace(SHORT, date=TODAY.replace(year=2045)), GUIDE)
    assert {one.ref for one in later.choices} | {one.telling for one in later.barred} == known


def test_the_smallest_conflict_is_named(demo_home: Store) -> None:
    """The cellar, no steps, and an end upstairs cannot be had together; each change that helps does help."""
    wishes = replace(SHORT, must_stations=("st-dust-box",), step_free=True, minutes=60)
    planned = plan(demo_home.session, wishes, GUIDE)
    assert planned.conflict is not None
    assert {field for field, _ in planned.conflict.wishes} == {"must_stations", "step_free", "finish"}
    assert planned.conflict.minimum
    assert all(plan(demo_home.session, one.wishes, GUIDE, seconds=2).solution.fits for one in planned.conflict.helps)
    assert len(planned.conflict.helps) == 2
