"""The Desk's pages: who may open them, what they tell of a tour, and the drawing of walk and strip."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select, update

from archive.plan.model import Door
from archive.rights.model import Permission
from archive.store.session import Store
from archive.tours.model import Tour
from archive.web.desk.strip import NUMBER_WIDTH, number_rows
from tests.conftest import SignIn, app_of, sign_in

PAGES = ("/desk/", "/desk/tours/t-short", "/desk/tours/t-short/sheet", "/desk/stations/st-press")


def text_of(browser: FlaskClient, address: str) -> str:
    """The page as text."""
    answer = browser.get(address)
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


@pytest.fixture
def own_guide(home: Store) -> FlaskClient:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


@pytest.mark.parametrize("address", PAGES)
def test_strangers_and_readers_are_kept_out(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers are sent to sign in, readers are refused."""
    assert client.get(address).status_code == 303
    assert as_role("reader").get(address).status_code == 403


@pytest.mark.parametrize("address", ["/desk/tours/t-none", "/desk/tours/t-none/sheet", "/desk/stations/st-none"])
def test_what_is_not_there_is_told_so(as_role: SignIn, address: str) -> None:
    """An unknown reference is a page of its own, not a fault."""
    assert as_role("guide").get(address).status_code == 404


@pytest.mark.parametrize("address", PAGES)
@pytest.mark.parametrize("role", ["guide", "keeper"])
def test_guides_and_keepers_open_every_page(as_role: SignIn, role: str, address: str) -> None:
    """Every page has one heading of the first rank."""
    assert text_of(as_role(role), address).count("<h1") == 1


def test_the_sheet_tells_times_kinds_and_standing(as_role: SignIn) -> None:
    """Times as they were worked out, kinds in words, and how well each statement is borne out."""
    page = text_of(as_role("guide"), "/desk/tours/t-short/sheet")
    assert re.search(r"2:30<.*?>–</span>7:00", page)
    for words in ("Welcome", "object in hand", "documented:", "A press hand was paid by the gross in 1951.", "1.5 m"):
        assert words in page
    assert "competent people decide" in page


def test_the_sheet_says_where_a_voice_is(as_role: SignIn) -> None:
    """Narrator, recording and stretch, since paper cannot be played."""
    assert re.search(r"Ada Birch,\s+I-1-a, \d:\d\d to \d:\d\d", text_of(as_role("guide"), "/desk/tours/t-short/sheet"))


def test_a_tour_that_runs_over_says_by_how_much(home: Store, own_guide: FlaskClient) -> None:
    """On the list, on the tour and on its sheet."""
    with home.changing("tests") as session:
        session.execute(update(Tour).values(minutes=8))
    for address in PAGES[:3]:
        page = text_of(own_guide, address)
        assert "Too long." in page
        assert "It runs 2 min over." in page


def test_a_machine_whose_paper_ran_out_is_not_to_be_run(shared_home: Store) -> None:
    """On the day after, every page says what ran out."""
    app = app_of(shared_home)
    app.config["TODAY"] = lambda: dt.date(2034, 1, 10)
    guide = sign_in(app.test_client(), "guide")
    for address in PAGES:
        page = text_of(guide, address)
        assert "ran out on 9 January 2034" in page
        assert ("Not today:" in page) or ("Do not run it." in page)


def test_a_voice_closed_for_tours_is_nowhere(home: Store, own_guide: FlaskClient) -> None:
    """Neither its title, nor its narrator, nor the statement that it alone bears out."""
    with home.changing("tests") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    page = "".join(text_of(own_guide, address) for address in PAGES)
    for words in ("Her first morning", "Ada Birch", "I-1-a", "Press hands set their own tools."):
        assert words not in page


def test_a_note_is_shown_only_when_all_it_may_speak_of_is_open(home: Store, own_guide: FlaskClient) -> None:
    """Closing one of two accounts takes the note away with it."""
    assert "They do not agree." in text_of(own_guide, "/desk/stations/st-press")
    with home.changing("tests") as session:
        for_tours = select(Permission).where(Permission.purpose == "tour").order_by(Permission.id.desc())
        session.scalars(for_tours).first().allowed = False
    page = text_of(own_guide, "/desk/stations/st-press")
    assert "Press hands set their own tools." in page
    assert "They do not agree." not in page


def test_the_walk_starts_at_the_first_stop_and_ends_at_the_last(as_role: SignIn) -> None:
    """Both are marked by a word; between them a line is drawn, with the stops' numbers on it."""
    page = text_of(as_role("guide"), "/desk/tours/t-short")
    assert page.count(">Start<") == page.count(">Finish<") == 1
    assert page.count("<polyline") >= 2


def test_a_step_free_tour_is_not_led_over_a_step(home: Store, own_guide: FlaskClient) -> None:
    """When every doorway has a step there is no line for it, though there is one for other groups."""
    with home.changing("tests") as session:
        session.execute(update(Door).values(step_mm=100))
    assert "<polyline" in text_of(own_guide, "/desk/tours/t-short")
    with home.changing("tests") as session:
        session.execute(update(Tour).values(needs=["step-free"]))
    assert "<polyline" not in text_of(own_guide, "/desk/tours/t-short")


@given(st.lists(st.integers(1, 60), max_size=40))
def test_numbers_on_the_strip_never_lie_on_each_other(widths: list[int]) -> None:
    """Numbers of one row stand at least a number's width apart; those inside have room."""
    starts = [float(sum(widths[:place])) for place in range(len(widths))]
    rows = number_rows(zip(starts, map(float, widths), strict=True))
    for row in set(rows):
        middles = [start + width / 2 for start, width, mine in zip(starts, widths, rows, strict=True) if mine == row]
        assert all(b - a >= NUMBER_WIDTH for a, b in zip(middles, middles[1:], strict=False))
