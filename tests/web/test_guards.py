"""What protects every answer."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.store.session import Store
from archive.web.guards import HEADERS
from tests.conftest import SignIn, app_of


@pytest.fixture
def browser(empty_home: Store) -> FlaskClient:
    """A visitor's browser on an empty home."""
    return app_of(empty_home).test_client()


@pytest.mark.parametrize("address", ["/", "/healthz", "/sign-in", "/nowhere", "/api/v1/nowhere", "/static/check.svg"])
def test_every_answer_carries_the_headers(browser: FlaskClient, address: str) -> None:
    """Pages, faults, data and files alike."""
    answer = browser.get(address)
    answer.close()
    assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS


def test_the_content_policy_allows_nothing_inline_or_from_elsewhere(browser: FlaskClient) -> None:
    """No inline script or style, no other site, no framing."""
    policy = browser.get("/sign-in").headers["Content-Security-Policy"]
    assert "unsafe" not in policy
    assert "http" not in policy
    assert "frame-ancestors 'none'" in policy


def test_an_empty_home_says_how_to_fill_it(browser: FlaskClient) -> None:
    """The first page of a new home is help, not a fault in the program."""
    answer = browser.get("/")
    assert answer.status_code == 409
    assert "lemel load FOLDER" in answer.get_data(as_text=True)


@pytest.mark.parametrize("address", ["/nowhere", "/kiosk/stations/nowhere"])
def test_what_is_not_here_is_told_without_repeating_the_address(browser: FlaskClient, address: str) -> None:
    """The page of a missing record says nothing of what was asked for."""
    answer = browser.get(address)
    assert answer.status_code == 404
    assert "nowhere" not in answer.get_data(as_text=True)


def test_a_fault_in_the_api_is_data(browser: FlaskClient) -> None:
    """Machines get JSON, with the same words."""
    answer = browser.get("/api/v1/nowhere")
    assert answer.is_json
    assert set(answer.json) == {"error", "words", "faults"}


@pytest.mark.parametrize("address", ["/kiosk/", "/api/v1/search", "/reckoners/", "/sign-in", "/static/check.svg"])
def test_a_very_long_address_is_refused(browser: FlaskClient, address: str) -> None:
    """It is told back nowhere, so it cannot be made to fill memory or time."""
    answer = browser.get(f"{address}?{'&'.join(f'x{number}=1' for number in range(3000))}")
    assert answer.status_code == 414
    assert len(answer.data) < 5000


def test_more_filters_than_anyone_chooses_are_refused(as_role: SignIn) -> None:
    """Twenty values of one kind are searched; a twenty-first is told as a fault. The same value counts once."""
    reader = as_role("reader")
    for page in ("/reading/?q=press", "/api/v1/search?q=press"):
        for number, status in ((20, 200), (21, 400)):
            asked = "".join(f"&speaker=P-{each}" for each in range(number))
            assert reader.get(f"{page}{asked}{asked}").status_code == status


@pytest.mark.parametrize("time", ["9" * 400, "1." + "1" * 5000, "9" * 300 + ":00:00", "npt:" + "1" * 12, "-1", "1e5"])
def test_a_time_that_is_no_time_is_told(as_role: SignIn, time: str) -> None:
    """However long the row of figures is, it is read or refused, and nothing breaks."""
    reader = as_role("reader")
    for page in ("/kiosk/interviews/I-1", "/kiosk/voices/C-1", "/reading/interviews/I-1"):
        assert reader.get(f"{page}?t={time}").status_code in {200, 400}


@pytest.mark.parametrize("deep", [b"[" * 100_000, b'{"a":' * 100_000, b"\xff\xfe", b'"\xed\xa0\x80"', b"9" * 5000])
def test_data_that_cannot_be_read_is_refused(as_role: SignIn, deep: bytes) -> None:
    """Nested beyond measure, in no letters, or longer than any number: it is told, and nothing breaks."""
    guide = as_role("guide")
    token = guide.get("/desk/outings/token").get_json()["token"]
    for address in ("/desk/outings/", "/desk/runs/"):
        answer = guide.post(address, data=deep, headers={"X-CSRFToken": token}, content_type="application/json")
        assert answer.status_code == 400


def test_a_number_larger_than_any_key_is_not_found(as_role: SignIn) -> None:
    """No such record can be in the database, so it is not asked."""
    keeper = as_role("keeper")
    for address in ("/desk/outings/{}", "/workroom/recordings/I-1-a/words/files/{}"):
        assert keeper.get(address.format("9" * 25)).status_code == 404
        assert keeper.get(address.format(2**63)).status_code == 404
