"""A machine that is not warm yet is waited for: on the sheet, the strip, the bench, the day, and in what is carried."""

from __future__ import annotations

import datetime as dt
import json
import re
from dataclasses import replace
from html import unescape
from io import BytesIO
from zipfile import ZipFile

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from archive.objects.model import Clearance, Demonstration
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.tours.day.itinerary import Itinerary, itinerary_of
from archive.tours.edits import keep_tour
from archive.tours.holding import faults_of
from archive.tours.model import Departure, Tour
from archive.tours.planning.building import problem_of
from archive.tours.planning.solving import solve
from archive.tours.queries import tour
from archive.tours.sheet import TourSheet
from archive.tours.wishes import Wishes
from archive.web.desk.pages import tour_page, tour_sheet_of
from archive.web.desk.strip import strip_of
from tests.conftest import TODAY, app_of, sign_in
from tests.tours.given.logs import log, whole_walk
from tests.web.desk.desk_forms import send
from tests.web.desk.test_outings import hand_in

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
WAITS = "Wait 3 min here, until the machine is warm: Fly press."


@pytest.fixture
def home(home: Store) -> Store:
    """The press is reached after 2.5 minutes and run half a minute later, and warm after six: three are waited."""
    with home.changing("tests") as session:
        session.execute(update(Demonstration).values(warm_up_minutes=6.0))
        machine = session.scalars(select(Demonstration)).one().machine
        for place, kind in enumerate(("condition survey", "operating instructions"), 8):
            dates = {"dated": dt.date(2024, 1, 10), "runs_out": dt.date(2034, 1, 9)}
            machine.clearances.append(Clearance(kind=kind, position=place, note="", **dates))
        session.execute(update(Tour).values(needs=[]))
    return home


@pytest.fixture
def guide(home: Store) -> FlaskClient:
    """A guide's browser."""
    return sign_in(app_of(home).test_client(), "guide")


def sheet_of(home: Store, ref: str = "t-short") -> TourSheet:
    """The sheet as it is now."""
    with home.session() as session:
        return tour_sheet_of(session, GUIDE, tour(session, ref))


def hours(home: Store, **inputs: object) -> None:
    """Give the tour wishes for its hours."""
    with home.changing("tests") as session:
        row = tour(session, "t-short")
        row.inputs = {**row.inputs, **inputs}


def page(browser: FlaskClient, address: str) -> str:
    """The words of a page, with single spaces."""
    answer = browser.get(address)
    assert answer.status_code == 200, address
    return " ".join(unescape(answer.get_data(as_text=True)).split())


def test_the_clock_of_the_sheet_waits(home: Store) -> None:
    """Everything after the wait is later by it, and the minutes told are what they were."""
    sheet = sheet_of(home)
    assert [(timed.arrive, timed.wait, timed.leave) for timed in sheet.stops] == [
        (0.0, 0.0, 2.0),
        (2.5, 3.0, 10.0),
        (11.5, 0.0, 13.0),
    ]
    assert (sheet.waiting, sheet.minutes, sheet.stops[1].telling_minutes) == (3.0, 13.0, 4.5)


def test_hours_count_from_the_wished_start_and_from_another_that_is_given(home: Store) -> None:
    """From half past on, six minutes of warming up: at 10:36 for who left at 10:25, sooner for who left later."""
    hours(home, starts_at="10:25", demonstration_windows=[["10:30", "10:50"]])
    assert [timed.wait for timed in sheet_of(home).stops] == [0.0, 8.0, 0.0]
    with home.session() as session:
        waits = [timed.wait for timed in tour_page(session, GUIDE, "t-short", starts_at=10 * 60 + 31).sheet.stops]
    assert waits == [0.0, 2.0, 0.0]


def test_hours_that_cannot_be_met_are_not_waited_for(home: Store) -> None:
    """They are over before the group is there, or cannot be read."""
    hours(home, starts_at="10:25", demonstration_windows=[["9:30", "9:50"]])
    assert sheet_of(home).waiting == 0.0
    hours(home, starts_at="10:25", demonstration_windows=[["never", "9:50"]])
    assert sheet_of(home).waiting == 3.0


def test_a_machine_that_may_not_run_is_not_waited_for(home: Store) -> None:
    """Its papers have run out: it is told standing still."""
    with home.session() as session:
        sheet = tour_sheet_of(session, replace(GUIDE, on=dt.date(2034, 1, 10)), tour(session, "t-short"))
    assert (len(sheet.refusals), sheet.waiting) == (1, 0.0)


def test_a_planned_tour_waits_on_its_sheet_as_it_was_planned(home: Store) -> None:
    """Stop by stop, the planner's clock is that of the sheet."""
    wishes = Wishes(TODAY, 20, 8, 600, "st-door", must_tellings=("tl-run",), demonstration_windows=((608, 620),))
    with home.changing("tests") as session:
        solution = solve(problem_of(session, wishes, GUIDE))
        ref = keep_tour(session, "tests", ref=None, name="Hours", summary="", wishes=wishes, solution=solution).ref
    assert any(stop.wait for stop in solution.stops)
    clock = [(timed.arrive, timed.wait, timed.leave) for timed in sheet_of(home, ref).stops]
    assert clock == [(stop.arrive, stop.wait, stop.leave) for stop in solution.stops]


def test_a_tour_changed_by_hand_waits_anew(home: Store, guide: FlaskClient) -> None:
    """With the press first it is waited for longer."""
    answer = send(guide, "/desk/tours/t-short/edit", "/desk/tours/t-short/deeds", deed="drop 0")
    assert answer.status_code == 303
    first = sheet_of(home).stops[0]
    assert first.stop.station.ref == "st-press"
    assert first.arrive + first.wait + 0.5 == pytest.approx(6.0)


def test_the_wait_makes_a_tour_too_long(home: Store) -> None:
    """Ten minutes are told and walked; with the wait it does not fit into twelve."""
    with home.changing("tests") as session:
        row = tour(session, "t-short")
        row.minutes = 12
        assert "It takes 13.0 minutes, and it has 12." in faults_of(session, GUIDE, row)


def test_the_strip_leaves_room_for_the_wait(home: Store) -> None:
    """The piece begins where something is told."""
    sheet = sheet_of(home)
    piece = strip_of(sheet).pieces[1]
    assert (piece.x, piece.width, piece.wait) == pytest.approx((5500 / 15, 4500 / 15, 3000 / 15))


@pytest.mark.parametrize("address", ["", "/sheet", "/give", "/edit"])
def test_every_page_of_the_tour_says_so(guide: FlaskClient, address: str) -> None:
    """With the minutes and the machine."""
    assert WAITS in page(guide, f"/desk/tours/t-short{address}")


def test_hours_are_told_with_their_clock(home: Store, guide: FlaskClient) -> None:
    """The sheet is set to another start than was wished."""
    hours(home, starts_at="10:25", demonstration_windows=[["10:30", "10:50"]])
    assert "Wait 8 min here: Fly press runs from 10:36." in page(guide, "/desk/tours/t-short/sheet")
    assert "Wait 2 min here: Fly press runs from 10:36." in page(guide, "/desk/tours/t-short/sheet?starts=10:31")


def test_what_is_carried_holds_the_wait(guide: FlaskClient) -> None:
    """Sheet and giving page in the pack; and the device is told from when on the machine may run."""
    with ZipFile(BytesIO(guide.get("/desk/tours/t-short/pack.zip").data)) as pack:
        files = {name: " ".join(unescape(pack.read(name).decode()).split()) for name in ("index.html", "sheet.html")}
    assert all(WAITS in text for text in files.values())
    found = re.search(r'data-plan="(.*?)" data-words', files["index.html"])
    assert found
    plan = json.loads(found[1])
    assert [told.get("not_before") for stop in plan["planned"] for told in stop["tellings"]] == [None, None, 6.0, None]
    assert [told["not_before"] for stop in plan["stops"] for told in stop["tellings"]] == [None, None, 6.0, None]


def test_the_day_has_the_group_there_and_the_machine_run_at_the_true_times(home: Store, guide: FlaskClient) -> None:
    """The room is taken from the coming to the going, the machine from its warm-up to its end."""
    with home.session() as session:
        day = itinerary_of(tour_sheet_of(session, GUIDE, tour(session, "t-short")), lambda _one, _other: [])
    assert isinstance(day, Itinerary)
    assert day.tenths == 130
    assert [(stay.begins, stay.ends) for stay in day.rooms if not stay.walking] == [(0, 20), (25, 100), (115, 130)]
    assert [(run.begins, run.told_from, run.ends) for run in day.runs] == [(0, 60, 100)]
    with home.changing("tests") as session:
        row = Departure(ref="d-1", day=TODAY, guide="Ada", group_size=8, earliest=600, latest=660, leaves=600)
        row.tour = session.scalars(select(Tour)).one()
        session.add(row)
    sheet = page(guide, f"/desk/days/{TODAY.isoformat()}/guides/Ada")
    assert "Wait 3 min first." in sheet
    assert "10:02–10:10" in sheet


def test_afterwards_what_was_waited_is_not_told_minutes(home: Store, guide: FlaskClient) -> None:
    """Planned and real: the group came as planned, waited, and took its minutes; no other minutes are offered."""
    planned = json.loads(json.dumps(log()["outing"]["planned"]))
    planned[1]["tellings"][1]["not_before"] = 6.0
    for number in range(4):
        key = f"{number:024d}"
        told = whole_walk(key, planned=planned)
        for entry in told["entries"]:
            if entry["key"].split(".")[1] in ("l1", "a2", "l2", "f"):
                entry["at"] = (dt.datetime.fromisoformat(entry["at"]) + dt.timedelta(minutes=2.9)).isoformat()
        assert hand_in(guide, told).status_code in (200, 201)
    outing = page(guide, "/desk/outings/1")
    assert "with 3 min of waiting" in outing
    assert '<dd class="figure">13 min</dd>' in outing
    afterwards = page(guide, "/desk/tours/t-short/afterwards")
    press = afterwards.split('id="stop-st-press"')[1].split("</li>")[0]
    assert '<dd class="figure">4.5 min</dd>' in press
    assert "Better minutes" not in press
