"""The tour sheet: times add up, what is closed leaves no trace, and a machine without clearance is refused in words."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from archive.evidence.queries import statements_by_id
from archive.interviews.names import shown_names
from archive.objects.model import Clearance, Demonstration
from archive.rights.decisions import Purpose, Role, Viewer
from archive.rights.model import Permission
from archive.store.session import Store
from archive.tours.model import Stop, StopTelling, Telling, Tour
from archive.tours.queries import telling_ids, tour
from archive.tours.sheet import TourSheet, statement_keys, tour_sheet
from tests.conftest import TODAY

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)


def sheet_of(store: Store, viewer: Viewer = GUIDE) -> TourSheet:
    """The short tour of the small collection, as a viewer gets it."""
    with store.session() as session:
        row = tour(session, "t-short")
        return tour_sheet(
            row,
            open_tellings=telling_ids(session, viewer),
            statements=statements_by_id(session, viewer, statement_keys([row])),
            names=shown_names(session, viewer),
            on=viewer.on,
        )


def kept_telling(session: Session, ref: str) -> Telling:
    """A telling as it is kept, whoever may hear it."""
    return session.scalars(select(Telling).where(Telling.ref == ref)).one()


def made_up(minutes: float, stops: list[tuple[float, list[float]]]) -> TourSheet:
    """A sheet of talks alone, from minutes of walking and telling."""
    kept, keys = [], iter(range(1, 10_000))
    for walk, told in stops:
        talks = [Telling(id=next(keys), kind="talk", title="A talk", minutes=each, script="") for each in told]
        chosen = [StopTelling(telling=talk, telling_id=talk.id) for talk in talks]
        kept.append(Stop(walk_minutes=walk, chosen=chosen))
    row = Tour(minutes=minutes, needs=[], stops=kept)
    every = frozenset(chosen.telling_id for stop in kept for chosen in stop.chosen)
    return tour_sheet(row, open_tellings=every, statements={}, names={}, on=TODAY)


TENTHS = st.integers(1, 90).map(lambda tenths: tenths / 10)
STOPS = st.lists(
    st.tuples(st.integers(0, 30).map(lambda tenths: tenths / 10), st.lists(TENTHS, max_size=5)), max_size=9
)


@given(st.integers(1, 120), STOPS)
def test_times_add_up(minutes: int, stops: list[tuple[float, list[float]]]) -> None:
    """The whole is what is walked and told; stops follow each other, and what is left is the rest."""
    sheet = made_up(minutes, stops)
    told = sum(sum(each) for _, each in stops)
    assert sheet.minutes == pytest.approx(sheet.walking + told, abs=0.02)
    assert sheet.minutes + sheet.spare == pytest.approx(minutes)
    clock = 0.0
    for timed in sheet.stops:
        assert timed.arrive == pytest.approx(clock + timed.stop.walk_minutes, abs=0.02)
        assert timed.leave >= timed.arrive
        clock = timed.leave


def test_a_tour_that_is_too_long_has_less_than_nothing_to_spare() -> None:
    """Ten minutes of talk in an eight-minute tour run two over."""
    assert made_up(8, [(0, [6.0]), (1, [3.0])]).spare == pytest.approx(-2)


def test_a_tour_without_stops_takes_no_time() -> None:
    """And all of its minutes are left."""
    assert made_up(20, []).spare == 20


def test_the_short_tour_by_hand(shared_home: Store) -> None:
    """2 min, then ½ min of walking and 4½ min, then 1½ min of walking and 1½ min: ten in all."""
    sheet = sheet_of(shared_home)
    assert [(timed.number, timed.arrive, timed.leave) for timed in sheet.stops] == [
        (1, 0.0, 2.0),
        (2, 2.5, 7.0),
        (3, 8.5, 10.0),
    ]
    assert (sheet.minutes, sheet.walking, sheet.spare) == (10.0, 2.0, 5.0)


def test_a_lapsed_clearance_is_refused_in_words(shared_home: Store) -> None:
    """Once any paper has run out, the demonstration is refused, and the words say which and since when."""
    refused = sheet_of(shared_home, Viewer(Role.GUIDE, Purpose.TOUR, dt.date(2034, 1, 10))).refusals
    assert [item.telling.ref for item in refused] == ["tl-run"]
    assert refused[0].clearance
    assert "The risk assessment ran out on 9 January 2034." in refused[0].clearance.lacking


def test_a_machine_without_any_paper_is_refused(home: Store) -> None:
    """Nothing kept is not the same as nothing needed."""
    with home.changing("tests") as session:
        session.execute(delete(Clearance))
    (item,) = sheet_of(home).refusals
    assert isinstance(item.telling.demonstration, Demonstration)
    assert item.clearance
    assert item.clearance.until is None


def test_a_closed_clip_leaves_no_trace(home: Store) -> None:
    """A voice that is not open for tours is not on the sheet; its minutes are not counted, nor what it bears out."""
    with home.changing("tests") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    sheet = sheet_of(home)
    told = [item.telling.ref for timed in sheet.stops for item in timed.told]
    assert told == ["tl-welcome", "tl-run", "tl-badge"]
    assert sheet.minutes == 9.5
    assert [shown.statement.ref for timed in sheet.stops for shown in timed.statements] == ["s-book"]


def test_a_statement_told_twice_at_a_stop_is_listed_once(home: Store) -> None:
    """The stop's list has each statement once, in the order of telling."""
    with home.changing("tests") as session:
        kept_telling(session, "tl-run").statements = list(kept_telling(session, "tl-voice").statements)
    assert [shown.statement.ref for shown in sheet_of(home).stops[1].statements] == ["s-tools"]


def test_people_in_titles_stand_under_their_shown_names(home: Store) -> None:
    """A voice's title and advice name its narrator as the agreement has it."""
    with home.changing("tests") as session:
        voice = kept_telling(session, "tl-voice")
        voice.title = "Ada Birch on her first morning"
        assert voice.clip
        voice.clip.content_advice = "Ada Birch speaks of an injury."
        session.execute(update(Permission).where(Permission.purpose == "tour").values(name_form="initials"))
    voice_item = sheet_of(home).stops[1].told[0]
    assert "Ada Birch" not in voice_item.title + voice_item.advice
    assert voice_item.title.endswith("on her first morning")


def test_what_rests_on_a_closed_statement_is_not_told(home: Store) -> None:
    """A script is written from its statements: once all support of one is closed, the script is left out too."""
    with home.changing("tests") as session:
        welcome = kept_telling(session, "tl-welcome")
        welcome.statements = [*welcome.statements, *kept_telling(session, "tl-voice").statements]
    assert {item.telling.ref for item in sheet_of(home).stops[0].told} == {"tl-welcome"}
    with home.changing("tests") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    told = {item.telling.ref for timed in sheet_of(home).stops for item in timed.told}
    assert told == {"tl-run", "tl-badge"}


def test_a_stop_with_nothing_left_to_tell_is_walked_past(home: Store) -> None:
    """Numbers follow each other, the walk to the next stop is longer, and no empty stop stands between."""
    with home.changing("tests") as session:
        press = session.scalars(select(Stop).where(Stop.walk_minutes == 0.5)).one()
        session.execute(
            delete(StopTelling).where(
                StopTelling.stop_id == press.id, StopTelling.telling_id == kept_telling(session, "tl-run").id
            )
        )
        session.execute(update(Permission).values(withdrawn_on=dt.date(2026, 1, 1)))
    sheet = sheet_of(home)
    told = [(timed.number, timed.stop.station.ref, timed.walk, timed.arrive) for timed in sheet.stops]
    assert told == [(1, "st-door", 0.0, 0.0), (2, "st-bench", 2.0, 4.0)]
    assert sheet.walking == 2.0
