"""The walked line of a tour and what is said on it."""

from __future__ import annotations

import datetime as dt

import pytest
from shapely.geometry import LineString, Polygon
from sqlalchemy.orm import Session

from archive.objects.running import edits, queries
from archive.objects.running.papers import Paper
from archive.plan.edits import back_in_use, put_out_of_use
from archive.plan.queries import floors, obstacles
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tours.holding import faults_of
from archive.tours.queries import tour
from archive.tours.sheet import TourSheet
from archive.tours.walking import tour_legs
from archive.web.desk.giving.floor import floor_stops
from archive.web.desk.pages import tour_sheet_of
from archive.web.desk.walk import walked_floors
from tests.conftest import TODAY

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
TOURS = ["t-families", "t-school", "t-metal", "t-quiet"]


def tour_directions(session: Session, sheet: TourSheet) -> list[tuple[str, ...]]:
    """What the sheet and the giving page say on the way to each stop."""
    return [stop.directions for stop in floor_stops(session, GUIDE, sheet)]


@pytest.mark.parametrize("ref", TOURS)
def test_the_line_goes_round_everything_that_stands_on_the_floor(demo_home: Store, ref: str) -> None:
    """From each stop to the next there is a way, and no stretch of it crosses a machine, bench or barrier."""
    with demo_home.session() as session:
        sheet = tour_sheet_of(session, GUIDE, tour(session, ref))
        legs = tour_legs(session, sheet, TODAY)
        walked = walked_floors(session, sheet, TODAY)
        standing = {
            floor.ref: [Polygon(thing.outline) for thing in obstacles(session) if thing.room.floor_id == floor.id]
            for floor in floors(session)
        }
    assert len(legs) == len(sheet.stops) - 1
    assert None not in legs
    lines = [(floor.floor.ref, line) for floor in walked for line in floor.lines]
    assert lines
    for floor, line in lines:
        points = [tuple(map(float, point.split(","))) for point in line.split()]
        assert min(LineString(points).distance(thing) for thing in standing[floor]) > 20


@pytest.mark.parametrize("ref", TOURS)
def test_each_stop_has_what_is_said_on_the_way_to_it(demo_home: Store, ref: str) -> None:
    """Nothing for the first, sentences for each other one, the last of them naming where one comes to."""
    with demo_home.session() as session:
        sheet = tour_sheet_of(session, GUIDE, tour(session, ref))
        told = tour_directions(session, sheet)
        names = [timed.stop.station.name for timed in sheet.stops]
    assert told[0] == ()
    assert len(told) == len(names)
    for name, sentences in zip(names[1:], told[1:], strict=True):
        assert name.lower() in sentences[-1].lower()
        assert all(sentence[0].isupper() and sentence.endswith(".") for sentence in sentences)


def test_a_step_free_tour_is_led_by_the_lift(demo_home: Store) -> None:
    """The quiet and step-free tour never takes a stair, and what it is told has no step in it."""
    with demo_home.session() as session:
        sheet = tour_sheet_of(session, GUIDE, tour(session, "t-quiet"))
        words = " ".join(sentence for told in tour_directions(session, sheet) for sentence in told)
    assert "step" not in words
    assert "stair" not in words


def test_where_no_way_is_left_no_line_is_drawn(home: Store) -> None:
    """The one door out of use, the leg through it is missing, and nothing is said for it."""
    with home.changing("tests") as session:
        closed = put_out_of_use(session, "door", "d-shop", TODAY, TODAY, "The lock is being mended.")
        sheet = tour_sheet_of(session, GUIDE, tour(session, "t-short"))
        legs, told = tour_legs(session, sheet, TODAY), tour_directions(session, sheet)
        rooms = [timed.stop.station.room.ref for timed in sheet.stops]
        back_in_use(session, closed.id, TODAY)
    barred = ["shop" in pair and pair != ("shop", "shop") for pair in zip(rooms, rooms[1:], strict=False)]
    assert [leg is None for leg in legs] == barred
    assert any(barred)
    assert [not sentences for sentences in told[1:]] == barred


def test_no_line_leads_a_quiet_tour_into_the_room_of_a_machine_that_runs(home: Store) -> None:
    """While the press has no papers it stands still, and the way is there. Who bears noise keeps it."""
    with home.changing("tests") as session:
        press = queries.machine(session, "SM.1")
        press.demonstrations[0].noise_db = 95.0
        sheet = tour_sheet_of(session, GUIDE, tour(session, "t-short"))
        assert None not in tour_legs(session, sheet, TODAY)
        for kind in ("condition survey", "operating instructions"):
            edits.add_paper(session, press, Paper(kind, "", dt.date(2024, 1, 10), dt.date(2034, 1, 9), ""))
    with home.changing("tests") as session:
        sheet = tour_sheet_of(session, GUIDE, tour(session, "t-short"))
        assert tour_legs(session, sheet, TODAY)[0] is None
        assert any("it leads into a noisy room" in said for said in faults_of(session, GUIDE, sheet.tour))
        sheet.tour.needs = []
        assert None not in tour_legs(session, sheet, TODAY)
