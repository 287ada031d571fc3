"""Wishing for a tour at the Desk, having it planned, and the page that says why nothing fits."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from archive.jobs import edits
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in
from tests.web.desk.desk_forms import send

NEW = "/desk/tours/new"
WISHES = {"date": "2026-11-25", "minutes": "15", "group_size": "8", "audience": "families", "demonstrations": "yes"}
TOO_MUCH = {"quiet": "yes", "station-st-press": "must"}


@pytest.fixture
def guide(home: Store) -> Iterator[FlaskClient]:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


def asked(browser: FlaskClient, **changed: str) -> TestResponse:
    """The form sent, with some of it changed."""
    return send(browser, NEW, NEW, **{**WISHES, **changed})


def planned(browser: FlaskClient, **changed: str) -> str:
    """The address that a planning leads to; in tests the work is done at once."""
    on_its_way = asked(browser, **changed)
    assert on_its_way.status_code == 303, on_its_way.get_data(as_text=True)
    return str(browser.get(on_its_way.location).location)


@pytest.mark.parametrize("address", [NEW, "/desk/tours/t-short/edit", "/desk/planning/nowhere"])
def test_strangers_and_readers_are_kept_out(client: FlaskClient, signed_in: SignIn, address: str) -> None:
    """Strangers are sent to sign in, readers are refused."""
    assert client.get(address).status_code in (302, 303)
    assert signed_in("reader").get(address).status_code == 403


def test_a_reader_cannot_plan(signed_in: SignIn) -> None:
    """Even with a form of their own."""
    reader = signed_in("reader")
    token = reader.get("/reading/").get_data(as_text=True).split('name="csrf_token" value="')[1].split('"')[0]
    assert reader.post(NEW, data={**WISHES, "csrf_token": token}).status_code == 403


def test_faults_are_told_beside_the_field_and_on_top_and_nothing_typed_is_lost(guide: FlaskClient) -> None:
    """The form comes back as it was typed."""
    answer = asked(guide, minutes="three", group_size="<b>", **{"theme-metal": "3", "station-st-press": "must"})
    text = answer.get_data(as_text=True)
    assert answer.status_code == 400
    assert 'value="three"' in text
    assert 'value="&lt;b&gt;"' in text
    assert '<a href="#w-minutes">How long it may take</a>' in text
    assert 'id="w-minutes-fault"' in text
    assert '<option value="3" selected>Above all</option>' in text
    assert '<option value="must" selected>Must be in it</option>' in text


def test_a_choice_that_is_none_stays_in_its_field(guide: FlaskClient) -> None:
    """What was sent is shown, refused."""
    answer = asked(guide, audience="dogs")
    assert answer.status_code == 400
    assert '<option value="dogs" selected>dogs</option>' in answer.get_data(as_text=True)


def test_a_station_that_is_not_there_is_refused(guide: FlaskClient) -> None:
    """With the reference that was given."""
    answer = asked(guide, start="st-nowhere")
    assert answer.status_code == 400
    assert "st-nowhere" in answer.get_data(as_text=True)


def test_anothers_planning_is_not_there(home: Store, guide: FlaskClient) -> None:
    """Nor a job of another kind, nor one that found a tour."""
    with home.changing("keeper") as session:
        keys = [
            edits.ask(session, kind, {"wishes": {}}, who).key
            for kind, who in (("plan a tour", "keeper"), ("x", "guide"))
        ]
    assert [guide.get(f"/desk/planning/{key}").status_code for key in keys] == [404, 404]
    assert [guide.get(f"{NEW}?wishes={key}").status_code for key in keys] == [404, 404]


def test_the_form_opens_as_it_is_usual(guide: FlaskClient) -> None:
    """Today, 45 minutes, for adults, by whoever asks."""
    text = guide.get(NEW).get_data(as_text=True)
    assert 'name="date" type="date" value="2026-11-25"' in text
    assert 'name="minutes" type="text" value="45"' in text
    assert '<option value="adults" selected>' in text
    assert '<option value="guide" selected>' in text
    assert '<details class="wishes-more">' in text
    assert '<details class="wishes-more" open>' not in text


def test_it_starts_from_another_tour(guide: FlaskClient) -> None:
    """Its minutes, its group, its needs, for today."""
    text = guide.get(f"{NEW}?like=t-short").get_data(as_text=True)
    assert "As “A short walk”" in text
    assert 'name="minutes" type="text" value="15"' in text
    assert '<option value="st-bench" selected>' in text
    assert 'id="w-quiet" name="quiet" value="yes" checked' in text
    assert guide.get(f"{NEW}?like=nowhere").status_code == 404


def test_a_tour_is_planned_and_leads_to_its_page(guide: FlaskClient) -> None:
    """And says how sure it is that there is no better."""
    address = planned(guide)
    text = guide.get(address).get_data(as_text=True)
    assert address.endswith("/edit")
    assert "This is the best there is (proven)." in text


def test_a_tour_keeps_its_wishes(guide: FlaskClient) -> None:
    """Another like it starts from them."""
    ref = planned(guide, minutes="14.5").split("/")[-2]
    assert 'name="minutes" type="text" value="14.5"' in guide.get(f"{NEW}?like={ref}").get_data(as_text=True)


def test_when_nothing_fits_the_page_says_why_and_what_would_help(guide: FlaskClient) -> None:
    """The press is no quiet place; each help is a button that works."""
    address = planned(guide, **TOO_MUCH)
    text = guide.get(address).get_data(as_text=True)
    assert address.startswith("/desk/planning/")
    assert "Must be visited" in text.split("What would help")[0]
    assert "Plan again with that" in text
    again = send(guide, address, f"{address}/again", change="0")
    assert guide.get(again.location).location.endswith("/edit")


def test_a_change_that_was_not_offered_is_refused(guide: FlaskClient) -> None:
    """By its number."""
    address = planned(guide, **TOO_MUCH)
    assert [send(guide, address, f"{address}/again", change=one).status_code for one in ("99", "x", "")] == [404] * 3


def test_the_wishes_can_be_changed_by_hand_when_nothing_fits(guide: FlaskClient) -> None:
    """The form is filled as it was asked."""
    address = planned(guide, **TOO_MUCH)
    text = guide.get(f"{NEW}?wishes={address.split('/')[-1]}").get_data(as_text=True)
    assert 'name="quiet" value="yes" checked' in text
    assert '<option value="must" selected>' in text
