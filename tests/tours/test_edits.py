"""Deeds on tours: each changes the stops, works the walks out anew, writes a version, and can be undone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest
from sqlalchemy.orm import Session

from archive.errors import Conflict, NotFound, Unacceptable
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tours import edits
from archive.tours.holding import faults_of
from archive.tours.model import Tour
from archive.tours.planning.planning import plan
from archive.tours.queries import steps_of, tour, tours
from archive.tours.wishes import Wishes
from tests.conftest import TODAY

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
WISHES = Wishes(date=TODAY, minutes=20, group_size=4)


@pytest.fixture
def kept(home: Store) -> str:
    """The reference of a planned tour."""
    planned = plan(home.session, WISHES, GUIDE)
    with home.changing("guide") as session:
        row = edits.keep_tour(
            session, "guide", ref=None, name="Our tour", summary="", wishes=WISHES, solution=planned.solution
        )
        return row.ref


def stops(row: Tour) -> list[tuple[str, tuple[str, ...]]]:
    """A tour's stops by reference."""
    return [(stop.station.ref, tuple(one.telling.ref for one in stop.chosen)) for stop in row.stops]


def done(home: Store, ref: str, deed: Callable[[Session, Tour], None]) -> list[tuple[str, tuple[str, ...]]]:
    """The stops after a deed."""
    with home.changing("guide") as session:
        deed(session, tour(session, ref))
    with home.session() as session:
        return stops(tour(session, ref))


def test_a_place_that_is_not_there_is_refused(home: Store, kept: str) -> None:
    """A stop or a telling that the tour does not have cannot be changed."""
    with pytest.raises(NotFound):
        done(home, kept, lambda session, row: edits.drop_stop(session, "guide", row, stop=99))
    with pytest.raises(NotFound):
        done(home, kept, lambda session, row: edits.drop_telling(session, "guide", row, stop=0, telling="tl-none"))


def test_a_telling_of_another_station_is_refused(home: Store, kept: str) -> None:
    """At a stop only what is told at its station can be added."""
    with pytest.raises(Unacceptable):
        done(home, kept, lambda session, row: edits.add_telling(session, "guide", row, stop=0, telling="tl-none"))


def test_nothing_to_undo_is_said(home: Store, kept: str) -> None:
    """The first version cannot be undone, and what was not undone not done again."""
    with pytest.raises(Conflict):
        done(home, kept, lambda session, row: edits.undo(session, "guide", row))
    with pytest.raises(Conflict):
        done(home, kept, lambda session, row: edits.redo(session, "guide", row))


def test_a_planned_tour_is_kept_with_its_wishes(home: Store, kept: str) -> None:
    """Stops, wishes and what the planner said of it are there, and it holds."""
    with home.session() as session:
        row = tour(session, kept)
        assert row.stops
        assert row.inputs == WISHES.as_data()
        assert row.outcome["proven"]
        assert row.version == 1
        assert faults_of(session, GUIDE, row) == []


def test_every_deed_can_be_undone_and_done_again(home: Store, kept: str) -> None:
    """Drop, undo, redo: the stops go, come back and go again."""
    with home.session() as session:
        before = stops(tour(session, kept))
    dropped = done(home, kept, lambda session, row: edits.drop_stop(session, "guide", row, stop=0))
    assert dropped == before[1:]
    assert done(home, kept, lambda session, row: edits.undo(session, "guide", row)) == before
    with home.session() as session:
        assert steps_of(session, tour(session, kept)) == ("", "Dropped " + _name(session, before[0][0]))
    assert done(home, kept, lambda session, row: edits.redo(session, "guide", row)) == before[1:]


def _name(session: Session, ref: str) -> str:
    from archive.plan.queries import station

    return station(session, ref).name


def test_moving_and_pinning(home: Store, kept: str) -> None:
    """A stop moves to another place, and a pin stays with it."""
    with home.session() as session:
        before = stops(tour(session, kept))
    done(home, kept, lambda session, row: edits.pin(session, "guide", row, stop=0))
    moved = done(home, kept, lambda session, row: edits.move_stop(session, "guide", row, stop=0, to=len(before) - 1))
    assert moved == [*before[1:], before[0]]
    with home.session() as session:
        assert [stop.pinned for stop in tour(session, kept).stops] == [False] * (len(before) - 1) + [True]


def test_a_withdrawn_tour_is_not_listed(home: Store, kept: str) -> None:
    """Put away it is in no list; put back it is."""
    done(home, kept, lambda session, row: edits.withdraw(session, "guide", row))
    with home.session() as session:
        assert kept not in [row.ref for row in tours(session)]
    done(home, kept, lambda session, row: edits.restore(session, "guide", row))
    with home.session() as session:
        assert kept in [row.ref for row in tours(session)]


def test_finishing_the_rest_keeps_what_is_pinned(home: Store, kept: str) -> None:
    """Planned again around a pin, the pinned stop is there with its tellings."""
    with home.session() as session:
        pinned = stops(tour(session, kept))[-1]
    wishes = Wishes(date=TODAY, minutes=20, group_size=4, pinned=(pinned,))
    found = plan(home.session, wishes, GUIDE).solution
    assert any(stop.station == pinned[0] and set(pinned[1]) <= set(stop.tellings) for stop in found.stops)


def test_a_tour_no_longer_holds_when_papers_run_out(demo_home: Store) -> None:
    """Years on, the papers of its machines have run out, and that is said."""
    with demo_home.session() as session:
        later = Viewer(Role.GUIDE, Purpose.TOUR, dt.date(2040, 1, 1))
        faults = faults_of(session, later, tour(session, "t-families"))
        assert any("ran out on" in fault for fault in faults)
        assert faults_of(session, GUIDE, tour(session, "t-families")) == []
