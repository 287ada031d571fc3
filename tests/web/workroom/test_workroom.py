"""The Workroom: what is kept, what changes soon, and whether the files are sound; closed things by reference alone."""

from __future__ import annotations

import datetime as dt

import pytest
from flask.testing import FlaskClient
from sqlalchemy import update

from archive.rights.model import Closure, Permission
from archive.store.fixity import check_files
from archive.store.queries import days_of_events, kept_files
from archive.store.session import Store
from tests.conftest import TODAY, SignIn, app_of, sign_in
from tests.small_collection import CLOSED_WORD, UNNAMED


@pytest.fixture
def own_keeper(home: Store) -> FlaskClient:
    """A keeper's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "keeper")


def page_of(browser: FlaskClient) -> str:
    """The first page, as text."""
    answer = browser.get("/workroom/")
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


@pytest.mark.parametrize("role", ["reader", "guide"])
def test_only_keepers_come_in(client: FlaskClient, as_role: SignIn, role: str) -> None:
    """Strangers are sent to sign in, other roles are refused."""
    assert client.get("/workroom/").status_code == 303
    assert as_role(role).get("/workroom/").status_code == 403


def test_what_is_closed_is_told_by_reference_and_date_alone(home: Store, own_keeper: FlaskClient) -> None:
    """A closure to review gives recording, stretch and day: not its reason, nor any words, nor an unnamed name."""
    with home.changing("tests") as session:
        session.execute(update(Closure).values(review_on=TODAY + dt.timedelta(30)))
    page = page_of(own_keeper)
    assert "I-1-a, 0:08 to 0:11" in page
    assert "25 December 2026" in page
    for words in ("A named man", CLOSED_WORD, UNNAMED, "Zebedee", "Ada Birch"):
        assert words not in page


def test_a_closure_reviewed_in_years_is_not_told_yet(as_role: SignIn) -> None:
    """It comes up a year before its day."""
    assert "No closure comes up for review within a year." in page_of(as_role("keeper"))


def test_agreements_near_their_day_are_told_with_the_purposes(home: Store, own_keeper: FlaskClient) -> None:
    """What opens or is withdrawn within a year stands under its day; the agreement's own words do not."""
    soon = dt.date(2027, 3, 1)
    with home.changing("tests") as session:
        session.execute(update(Permission).where(Permission.purpose.in_(["web", "kiosk"])).values(from_date=soon))
        session.execute(update(Permission).where(Permission.purpose == "tour").values(withdrawn_on=dt.date(2026, 7, 1)))
    page = page_of(own_keeper)
    assert "I-1 opens for kiosk, web" in page
    assert "1 March 2027" in page
    assert "I-2 is withdrawn for tour" in page
    assert "Signed at home" not in page


def test_a_machine_that_may_not_be_run_is_told_now(shared_home: Store) -> None:
    """With which paper ran out and when."""
    app = app_of(shared_home)
    app.config["TODAY"] = lambda: dt.date(2034, 1, 10)
    page = page_of(sign_in(app.test_client(), "keeper"))
    assert "(SM.1) may not be run. The risk assessment ran out on 9 January 2034." in page
    assert "<strong>Now</strong>" in page


def test_counts_and_last_load_are_told(as_role: SignIn) -> None:
    """How many of each kind are kept, and when and from where they came."""
    page = page_of(as_role("keeper"))
    assert '<dt>interviews</dt><dd class="figure">2</dd>' in page
    assert "/small</code>" in page
    assert "lemel check" in page


def test_a_file_that_changed_is_told_aloud(home: Store, own_keeper: FlaskClient) -> None:
    """After a check that finds it, the page warns and says what to do; the day's events count it apart."""
    with home.session() as session:
        first = kept_files(session)[0].sha256
    path = home.files.path(first)
    path.chmod(0o600)
    path.write_bytes(b"something else")
    check_files(home)
    page = page_of(own_keeper)
    assert 'role="alert"' in page
    assert first[:16] in page
    assert "no longer what was taken in" in page


def test_events_are_counted_by_day_kind_and_outcome(home: Store) -> None:
    """One line for all files that met the same event on a day, the newest first."""
    check_files(home)
    with home.session() as session:
        count = len(kept_files(session))
        days = days_of_events(session, 10)
    assert [(day.kind, day.outcome) for day in days][0] == ("fixity check", "sound")
    assert days[0].files == count
    assert {day.kind for day in days[1:]} == {"ingestion", "message digest calculation", "creation"}
    assert all(days[place].at >= days[place + 1].at for place in range(len(days) - 1))
