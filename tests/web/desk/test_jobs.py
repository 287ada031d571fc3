"""The page of work in the background."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient

from archive.jobs import edits, queries
from archive.store.session import Store
from archive.tasks.kinds import KINDS
from tests.conftest import app_of, sign_in


@pytest.fixture
def guide(home: Store) -> Iterator[FlaskClient]:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


def asked(store: Store, who: str = "guide", kind: str = "plan a tour") -> str:
    """The key of a job that somebody asked for."""
    with store.changing(who) as session:
        return edits.ask(session, kind, {}, who).key


def done(store: Store, key: str, outcome: object) -> None:
    """End a job well."""
    with store.changing("background") as session:
        edits.end(queries.job(session, key), "done", "", outcome)


def test_strangers_are_sent_to_sign_in(home: Store) -> None:
    """The page is for guides and keepers."""
    answer = app_of(home).test_client().get(f"/desk/jobs/{asked(home)}")
    assert (answer.status_code, answer.headers["Location"].split("?")[0]) == (303, "/sign-in")


def test_anothers_job_is_not_there(home: Store, guide: FlaskClient) -> None:
    """Neither as a page nor as data, nor can it be stopped."""
    key = asked(home, "keeper")
    assert [guide.get(f"/desk/jobs/{key}{end}").status_code for end in ("", ".json")] == [404, 404]


def test_it_leads_on_only_within_this_home(home: Store, guide: FlaskClient) -> None:
    """An outcome that names another place is not followed."""
    for address in ("https://elsewhere.example/", "//elsewhere.example/"):
        key = asked(home)
        done(home, key, {"address": address})
        assert guide.get(f"/desk/jobs/{key}").status_code == 200


def test_how_far_it_is_is_told(home: Store, guide: FlaskClient) -> None:
    """As a page with a bar, and as data."""
    key = asked(home)
    assert "Waiting for its turn." in guide.get(f"/desk/jobs/{key}").get_data(as_text=True)
    told = guide.get(f"/desk/jobs/{key}.json").get_json()
    assert told == {"state": "waiting", "share": 0.0, "says": "Waiting for its turn.", "ended": False, "address": ""}


def test_it_can_be_stopped(home: Store, guide: FlaskClient) -> None:
    """The button asks, and the page says that it is so."""
    key = asked(home)
    page = guide.get(f"/desk/jobs/{key}").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    assert guide.post(f"/desk/jobs/{key}/stop", data={"csrf_token": token}).status_code == 303
    assert "Stopped before it began." in guide.get(f"/desk/jobs/{key}").get_data(as_text=True)


def test_once_done_it_leads_on(home: Store, guide: FlaskClient) -> None:
    """To the page that its outcome names."""
    key = asked(home)
    done(home, key, {"address": "/desk/tours/t-short"})
    answer = guide.get(f"/desk/jobs/{key}")
    assert (answer.status_code, answer.headers["Location"]) == (303, "/desk/tours/t-short")


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("plan a tour", "plan a day")])
def test_work_of_the_workroom_stands_in_the_workroom(home: Store, kind: str) -> None:
    """A keeper who takes in a recording is not led to the Desk."""
    keeper = sign_in(app_of(home).test_client(), "keeper")
    page = keeper.get(f"/desk/jobs/{asked(home, 'keeper', kind)}").text
    assert 'href="/workroom/" aria-current="true"' in page
    assert "desk-nav" not in page
    assert "desk-nav" in keeper.get(f"/desk/jobs/{asked(home, 'keeper')}").text
