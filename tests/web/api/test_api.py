"""The API: who may ask what, the shape of its answers, and what it never tells."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.conftest import SignIn
from tests.small_collection import CLOSED_WORD, UNNAMED

LISTS = ("interviews", "recordings/I-1-a/segments", "objects", "processes", "stations", "terms", "statements")
ITEMS = (
    "interviews/I-1",
    "objects/SM.1",
    "processes/pr-cut",
    "stations/st-press",
    "terms/t-brass",
    "statements/s-book",
)


def _get(client: FlaskClient, address: str, status: int = 200) -> Any:
    answer = client.get(f"/api/v1/{address}")
    assert answer.status_code == status, answer.get_data(as_text=True)
    assert answer.mimetype == "application/json"
    return answer.get_json()


@pytest.mark.parametrize("purpose", ["research", "tour", "web", "publication"])
@pytest.mark.parametrize("address", [*LISTS, "search?q=press"])
def test_a_visitor_asks_for_the_kiosk_alone(as_role: SignIn, client: FlaskClient, address: str, purpose: str) -> None:
    """Without signing in every other purpose is refused, with the reason in words."""
    joined = "&" if "?" in address else "?"
    told = _get(client, f"{address}{joined}purpose={purpose}", 403)
    assert "purpose" in told["words"]


@pytest.mark.parametrize(("role", "purpose"), [("reader", "tour"), ("reader", "publication"), ("guide", "research")])
def test_a_role_asks_for_its_own_purposes(as_role: SignIn, role: str, purpose: str) -> None:
    """A role is refused the purposes that are not its own."""
    _get(as_role(role), f"interviews?purpose={purpose}", 403)


@pytest.mark.parametrize(
    ("address", "where"),
    [
        ("interviews?limit=0", "limit"),
        ("interviews?limit=101", "limit"),
        ("interviews?limit=ten", "limit"),
        ("interviews?offset=-1", "offset"),
        ("interviews?offset=10001", "offset"),
        ("interviews?purpose=fun", "purpose"),
        ("interviews?limits=3", "limits"),
        ("interviews/I-1?limit=3", "limit"),
        ("search", "q"),
        ("search?q=%20", "q"),
        ("search?q=press&spekaer=P-1", "spekaer"),
    ],
)
def test_bad_parameters_are_told(as_role: SignIn, address: str, where: str) -> None:
    """Each fault says which parameter, what was found and what is allowed."""
    told = _get(as_role("reader"), address, 400)
    assert [fault["where"] for fault in told["faults"]] == [where]
    assert told["faults"][0]["allowed"]


@pytest.mark.parametrize(
    "address",
    ["interviews/I-9", "interviews/I-2", "recordings/I-2-a/segments", "objects/SM.99", "terms/t-none", "nowhere"],
)
def test_absent_and_closed_are_told_alike(client: FlaskClient, address: str) -> None:
    """What does not exist and what is closed give the same answer, word for word."""
    assert _get(client, address, 404) == _get(client, "interviews/I-none", 404)


@pytest.mark.parametrize("role", ["", "reader", "guide", "keeper"])
@pytest.mark.parametrize(
    "address", [*(f"{name}?limit=100" for name in LISTS), f"search?q={CLOSED_WORD}", "search?q=hand"]
)
def test_what_is_closed_is_told_to_nobody(as_role: SignIn, client: FlaskClient, role: str, address: str) -> None:
    """Closed words and a kept name are in no answer, whoever asks."""
    told = json.dumps(_get(as_role(role) if role else client, address), ensure_ascii=False)
    assert CLOSED_WORD not in told
    assert not any(part in told for part in UNNAMED.split())


def test_a_visitor_has_narrators_by_initials(as_role: SignIn, client: FlaskClient) -> None:
    """For the kiosk the narrator of I-1 asked for initials: title, narrators and speakers have no more than these."""
    for address in ("interviews", "interviews/I-1", "recordings/I-1-a/segments", "statements", "search?q=press"):
        told = json.dumps(_get(client, address))
        assert "Birch" not in told
        assert "Ada" not in told
    assert _get(client, "interviews/I-1")["narrators"][0]["name"] == "A.B."


def test_the_search_has_the_agreed_shape(as_role: SignIn) -> None:
    """Total, time and hits; each hit with the agreed keys, times in seconds."""
    told = _get(as_role("reader"), "search?q=%22fly%20press%22&kind=segment")
    assert told["total"] == 1
    assert told["took_ms"] >= 0
    (hit,) = told["hits"]
    assert set(hit) >= {"kind", "id", "title", "recording", "start", "end", "speaker", "snippet", "url"}
    assert (hit["kind"], hit["recording"], hit["start"], hit["end"]) == ("segment", "I-1-a", 4.0, 8.0)
    assert hit["speaker"] == "Ada Birch"
    assert "fly press & told" in hit["snippet"]
    assert hit["url"] == "/reading/interviews/I-1?recording=I-1-a&t=4#t=4,8"
    assert told["facets"]["kind"] == {"segment": 1}


def test_a_visitor_is_led_to_the_kiosk(as_role: SignIn, client: FlaskClient) -> None:
    """A visitor's hits lead where a visitor may go."""
    (hit,) = _get(client, "search?q=%22fly%20press%22&kind=segment")["hits"]
    assert hit["url"].startswith("/kiosk/interviews/I-1")
    assert client.get(hit["url"].partition("#")[0]).status_code == 200


@pytest.mark.parametrize("name", LISTS)
def test_lists_come_in_pages(as_role: SignIn, name: str) -> None:
    """Going from page to page by `next` gives every item once, and the total says how many."""
    reader = as_role("reader")
    whole = _get(reader, f"{name}?limit=100")
    assert whole["total"] == len(whole["items"]) > 1
    gathered: list[Any] = []
    address = f"/api/v1/{name}?limit=1"
    while address:
        page = reader.get(address).get_json()
        assert len(page["items"]) == 1
        gathered += page["items"]
        address = page["next"]
    assert gathered == whole["items"]


@pytest.mark.parametrize("address", ITEMS)
def test_an_item_is_as_in_its_list(as_role: SignIn, address: str) -> None:
    """One record alone is the same as in its list, and its page opens."""
    reader = as_role("reader")
    item = _get(reader, address)
    name, _, ref = address.partition("/")
    assert item["ref"] == ref
    assert item in _get(reader, f"{name}?limit=100")["items"]
    assert reader.get(item["url"]).status_code == 200


def test_a_recording_leads_to_its_words_and_sound(as_role: SignIn) -> None:
    """The addresses of an interview's recordings hold for the purpose that was asked for."""
    reader = as_role("reader")
    (recording,) = _get(reader, "interviews/I-1?purpose=kiosk")["recordings"]
    assert reader.get(recording["segments"]).get_json()["total"] == 4
    assert reader.get(recording["captions"]).status_code == 200
    assert all("for=kiosk" in sound for sound in recording["sound"])


def test_terms_know_their_neighbours(client: FlaskClient) -> None:
    """Narrower is broader read backwards, and related goes both ways."""
    assert _get(client, "terms/t-brass")["broader"] == ["t-metal"]
    assert _get(client, "terms/t-metal")["narrower"] == ["t-brass"]
    assert _get(client, "terms/t-brass")["related"] == ["t-blank"]
    assert _get(client, "terms/t-blank")["related"] == ["t-brass"]


def test_a_statement_has_only_open_evidence(client: FlaskClient, as_role: SignIn) -> None:
    """What is closed for a purpose is not in the evidence, and the standing follows from what is left."""
    inside, outside = _get(as_role("reader"), "statements/s-tools"), _get(client, "statements/s-tools")
    assert (inside["standing"], len(inside["evidence"])) == ("contested", 2)
    assert (outside["standing"], len(outside["evidence"]), outside["note"]) == ("recalled by one", 1, "")
