"""The page of places out of use."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from archive.plan.queries import out_of_use
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in

ADDRESS = "/desk/out-of-use/"


@pytest.fixture
def at_desk(home: Store) -> SignIn:
    """A browser signed in by role on a home of the test's own."""
    app = app_of(home)
    return lambda role: sign_in(app.test_client(), role)


def token(client: FlaskClient) -> str:
    """The page's own token against forged forms."""
    found = re.search(r'name="csrf_token" value="([^"]+)"', client.get(ADDRESS).text)
    assert found
    return found[1]


def put(client: FlaskClient, **given: str) -> tuple[int, str]:
    """What comes of sending the form."""
    form = {"csrf_token": token(client), "place": "door:d-shop", "from": "2026-11-25", "until": "", "why": "Mended."}
    answer = client.post(ADDRESS, data=form | {name.rstrip("_"): value for name, value in given.items()})
    return answer.status_code, answer.text


def put_back(client: FlaskClient) -> str:
    """The page after its one entry was put back in use."""
    (key,) = re.findall(r"/desk/out-of-use/(\d+)/back", client.get(ADDRESS).text)
    assert client.post(f"{ADDRESS}{key}/back", data={"csrf_token": token(client)}).status_code == 303
    return client.get(ADDRESS).text


def test_strangers_and_readers_do_not_see_it(client: FlaskClient, signed_in: SignIn) -> None:
    """A stranger is led to the sign-in; a reader is refused, and neither can send the form."""
    assert client.get(ADDRESS).status_code in (302, 303)
    assert signed_in("reader").get(ADDRESS).status_code == 403
    assert signed_in("reader").post(ADDRESS, data={}).status_code in (400, 403)


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("place", "", "No place is chosen"),
        ("place", "door:d-attic", "The plan has no door"),
        ("from_", "tomorrow", "is no day"),
        ("until", "2026-11-01", "before it begins"),
        ("why", "", "The reason is missing"),
    ],
)
def test_a_form_with_a_fault_comes_back(at_desk: SignIn, home: Store, name: str, value: str, says: str) -> None:
    """With the fault beside its field, everything that was given, and nothing stored."""
    status, page = put(at_desk("guide"), **{name: value})
    assert status == 400
    assert says in page
    assert 'aria-invalid="true"' in page
    assert name == "why" or 'value="Mended."' in page
    with home.session() as session:
        assert out_of_use(session) == []


def test_a_guide_closes_a_door_and_opens_it_again(at_desk: SignIn) -> None:
    """It stands under today with its reason, with what is cut off by it; back in use, everything is."""
    guide = at_desk("guide")
    assert "Everything is in use today." in guide.get(ADDRESS).text
    assert put(guide, why="The lock is being mended.")[0] == 303
    page = guide.get(ADDRESS).text
    assert "The lock is being mended." in page
    assert "From 25 November 2026 until further notice" in page
    assert "No way leads today to: The press." in page
    assert "Everything is in use today." in put_back(guide)


def test_what_comes_later_is_told_apart(at_desk: SignIn) -> None:
    """It can be taken away before it begins, and cuts nothing off today."""
    keeper = at_desk("keeper")
    assert put(keeper, place="passage:lift", from_="2026-12-01", until="2026-12-03")[0] == 303
    page = keeper.get(ADDRESS).text
    assert "Everything is in use today." in page
    assert "From 1 December 2026 until 3 December 2026" in page
    assert "Take away" in page
    assert "No way" not in page.split("<h2>")[1]
    assert "1 December" not in put_back(keeper)


def test_without_the_lift_a_wheelchair_is_cut_off(at_desk: SignIn) -> None:
    """On foot there is the stair; the page tells the two apart."""
    guide = at_desk("guide")
    put(guide, place="passage:lift")
    page = guide.get(ADDRESS).text
    assert "No way leads today" not in page
    assert "No way by wheelchair leads today to: The bench." in page
    assert "No way by wheelchair" not in put_back(guide)
