"""Days at the Desk: departures by hand and by plan, what breaks, and the sheets."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from archive.accounts.edits import add_account
from archive.exchange.loading import load
from archive.rights.decisions import Role
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.tours.day.queries import departures
from archive.tours.model import Departure
from archive.tours.queries import tours
from tests.conftest import PASSWORD, TODAY, app_of, sign_in, with_accounts
from tests.house.planted import forbidden_words, write_planted_collection
from tests.small_collection import write_small_collection

# The machine's papers that the small collection does without.
PAPERS = "".join(
    f"""
[[clearances]]
object = "SM.1"
kind = "{kind}"
who = ""
dated = 2024-01-10
runs_out = 2034-01-09
"""
    for kind in ("condition survey", "operating instructions")
)
ROOMS = ("hall", "shop", "loft")
RULES = {"pause": "10", "level": "80", "value": "lower", "step": "5"}
SCHOOL = {"tour": "t-short", "guide": "Ada", "group_size": "8", "earliest": "10:00", "latest": "12:00"}


class Desk:
    """A guide at the day's page of a home."""

    def __init__(self, store: Store, client: FlaskClient, day: dt.date) -> None:
        self.store, self.client, self.date = store, client, day
        self.day = f"/desk/days/{day.isoformat()}/"
        page = client.get(self.day).get_data(as_text=True)
        self.token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]

    def post(self, address: str, **form: str) -> TestResponse:
        """A form sent to an address under the day."""
        return self.client.post(self.day + address, data={"csrf_token": self.token, **form})

    def page(self, address: str = "") -> str:
        """The words of a page under the day."""
        return self.client.get(self.day + address).get_data(as_text=True)

    def add(self, **other: str) -> str:
        """One departure more; gives its reference."""
        before = {row.ref for row in self.rows()}
        answer = self.post("departures", **{**SCHOOL, **other})
        assert answer.status_code == 303, answer.get_data(as_text=True)
        return next(row.ref for row in self.rows() if row.ref not in before)

    def rows(self) -> list[Departure]:
        """The day's departures as they are kept."""
        with self.store.session() as session:
            return list(departures(session, self.date))

    def plan(self, **rules: str) -> str:
        """Plan the day; gives the page that it leads to."""
        job = self.post("plan", **{**RULES, **rules}).headers["Location"]
        answer = self.client.get(job)
        assert answer.status_code == 303, answer.get_data(as_text=True)
        return self.client.get(answer.headers["Location"]).get_data(as_text=True)


@pytest.fixture(scope="module")
def planned_home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The small collection, its machine with all its papers; each test has a day of its own in it."""
    folder = tmp_path_factory.mktemp("days")
    store = make_home(Settings(folder / "home", testing=True))
    collection = write_small_collection(folder / "small", **{"demonstrations.toml": lambda text: text + PAPERS})
    load(store, collection)
    yield with_accounts(store)
    store.close()


@pytest.fixture(scope="module")
def guide(planned_home: Store) -> FlaskClient:
    """A guide's browser."""
    return sign_in(app_of(planned_home).test_client(), "guide")


_DAYS = itertools.count()


@pytest.fixture
def desk(planned_home: Store, guide: FlaskClient) -> Desk:
    """The guide at a day that nobody has touched."""
    return Desk(planned_home, guide, TODAY + dt.timedelta(next(_DAYS)))


def test_strangers_are_sent_to_sign_in(planned_home: Store) -> None:
    """Days are for guides and keepers."""
    client = app_of(planned_home).test_client()
    assert [client.get(address).status_code for address in ("/desk/days/", "/desk/days/2026-12-01/")] == [303, 303]


def test_what_is_no_day_is_refused(desk: Desk) -> None:
    """Neither as an address nor as a day to open."""
    assert desk.client.get("/desk/days/yesterday/").status_code == 400
    assert desk.client.get("/desk/days/open?day=2026-02-30").status_code == 400


def test_all_faults_of_a_departure_are_told_and_nothing_is_kept(desk: Desk) -> None:
    """The form comes again as it was filled in."""
    answer = desk.post("departures", tour="t-none", guide="Ada", group_size="0", earliest="25:00", latest="9:00")
    words = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert all(field in words for field in ("tour-fault", "group_size-fault", "earliest-fault"))
    assert 'value="25:00"' in words
    assert desk.rows() == []


@pytest.mark.parametrize("rules", ["pause=-1", "level=200", "value=none", "step=7"])
def test_rules_beyond_what_is_allowed_are_refused(desk: Desk, rules: str) -> None:
    """The page says what is allowed."""
    assert desk.client.get(f"{desk.day}?{rules}").status_code == 400


def test_a_departure_of_another_day_is_not_here(desk: Desk) -> None:
    """Its address is under its own day alone."""
    ref = desk.add()
    assert desk.client.get(f"/desk/days/2025-12-01/departures/{ref}").status_code == 404


def test_an_empty_day_says_what_will_stand_here(desk: Desk) -> None:
    """Until something does; then it stands in the list of days."""
    assert "Nothing leaves on this day yet." in desk.page()
    assert desk.day not in desk.client.get("/desk/days/").get_data(as_text=True)
    desk.add()
    assert desk.day in desk.client.get("/desk/days/").get_data(as_text=True)


def test_a_day_is_planned_fixed_and_planned_again(desk: Desk) -> None:
    """The fixed one keeps its time, and the new one gives way to it."""
    first = desk.add()
    assert "The day is planned." in desk.plan()
    assert [row.leaves for row in desk.rows()] == [600]
    desk.post(f"departures/{first}/fix", fixed="yes")
    desk.add()
    assert "Nothing that had a time was moved." in desk.plan()
    assert [(row.leaves, row.fixed) for row in desk.rows()] == [(600, True), (620, False)]


def test_what_a_plan_moved_is_told(desk: Desk) -> None:
    """A departure that stood in the way of a fixed one."""
    fixed, loose = desk.add(), desk.add()
    desk.post(f"departures/{fixed}/leave", leaves="10:00")
    desk.post(f"departures/{fixed}/fix", fixed="yes")
    desk.post(f"departures/{loose}/leave", leaves="10:05")
    assert "“A short walk” leaves at 10:20 and no longer at 10:05." in desk.plan()


def test_what_a_hand_breaks_is_told_at_once(desk: Desk) -> None:
    """Two tours of one guide at the same time, with the room that they would share and the machine both ask for."""
    for _ in range(2):
        desk.post(f"departures/{desk.add()}/leave", leaves="10:00")
    words = desk.page()
    assert "with less than 10 minutes of pause between them." in words
    assert "are both in the press shop" in words
    assert "16 people where 12 may be." in words
    assert "both ask for the" in words


def test_when_nothing_fits_it_is_said_why_and_what_would_help(desk: Desk) -> None:
    """Nothing is changed, and the nearest mend is told."""
    desk.add(latest="10:00")
    desk.add(latest="10:05")
    words = desk.plan()
    assert "There are no times that suit all." in words
    assert "Let “A short walk” leave at 10:20, 15 minutes after 10:05." in words
    assert [row.leaves for row in desk.rows()] == [None, None]


def test_what_is_dropped_comes_back(desk: Desk) -> None:
    """As it was, once."""
    ref = desk.add(note="Ask for Bea")
    desk.post(f"departures/{ref}/leave", leaves="10:10")
    answer = desk.post(f"departures/{ref}/drop")
    assert desk.rows() == []
    assert "Undo" in desk.client.get(answer.headers["Location"]).get_data(as_text=True)
    assert desk.post(f"departures/{ref}/bring-back").status_code == 303
    assert [(row.ref, row.leaves, row.note) for row in desk.rows()] == [(ref, 610, "Ask for Bea")]
    assert desk.post(f"departures/{ref}/bring-back").status_code == 404


def test_a_departure_is_changed(desk: Desk) -> None:
    """Without a time it is no longer fixed; faults leave it as it was."""
    ref = desk.add()
    desk.post(f"departures/{ref}", **{**SCHOOL, "leaves": "11:00", "fixed": "yes", "group_size": "5"})
    assert [(row.leaves, row.fixed, row.group_size) for row in desk.rows()] == [(660, True, 5)]
    assert desk.post(f"departures/{ref}", **{**SCHOOL, "latest": "9:00"}).status_code == 422
    desk.post(f"departures/{ref}/leave", leaves="")
    assert [(row.leaves, row.fixed) for row in desk.rows()] == [(None, False)]


def test_sheets_say_who_comes_when(desk: Desk) -> None:
    """A guide's with the stops and the machine; a room's with the group and how many."""
    desk.post(f"departures/{desk.add(note='From the town')}/leave", leaves="10:00")
    guide, room = desk.page("guides/Ada"), desk.page("rooms/shop")
    assert all(words in guide for words in ("From the town", "The press", "A blank is cut", "warming up from"))
    assert all(words in room for words in ("A short walk", "Ada", "Holds 12.", "A blank is cut"))
    assert all("local law and codes" in sheet for sheet in (guide, room))
    assert "No group comes here" in desk.client.get("/desk/days/2025-12-01/rooms/shop").get_data(as_text=True)
    assert desk.client.get(desk.day + "guides/Nobody").status_code == 404
    assert desk.client.get(desk.day + "rooms/none").status_code == 404


def test_another_persons_plan_is_not_told(desk: Desk) -> None:
    """What came of it is for whoever asked, and for keepers."""
    desk.add()
    location = desk.client.get(desk.post("plan", **RULES).headers["Location"]).headers["Location"]
    with desk.store.changing("tests") as session:
        add_account(session, name="other", role="guide", password=PASSWORD)
    other = app_of(desk.store).test_client()
    page = other.get("/sign-in").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    other.post("/sign-in", data={"csrf_token": token, "name": "other", "password": PASSWORD})
    assert "The day is planned." not in other.get(location).get_data(as_text=True)


def test_what_is_closed_to_guides_leaves_no_trace(tmp_path: Path) -> None:
    """Neither on the day, today or in years, nor on any sheet, nor in what a plan says."""
    store = make_home(Settings(tmp_path / "home", testing=True))
    load(store, write_planted_collection(tmp_path / "planted"))
    client = sign_in(app_of(with_accounts(store)).test_client(), "guide")
    words = [word.lower() for word in forbidden_words(Role.GUIDE)]
    for day in (TODAY, dt.date(2060, 1, 5)):
        desk = Desk(store, client, day)
        with store.session() as session:
            refs = [tour.ref for tour in tours(session)]
        for ref in refs:
            desk.add(tour=ref)
        told = [desk.plan(), desk.page(), desk.page("guides/Ada"), *(desk.page(f"rooms/{room}") for room in ROOMS)]
        assert "A short walk" in told[0]
        assert [word for word in words if any(word in page.lower() for page in told)] == []
    store.close()
