"""Outings at the Desk: handed in once, by whom, read back planned against real, and what several tell together."""

from __future__ import annotations

import io
import json
import re
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import func, select

from archive.objects.model import MachineRun
from archive.store.model import Change
from archive.store.session import Store
from archive.tours.model import Outing, OutingEntry, Telling
from archive.web.desk.giving.words import giving_words
from tests.conftest import SignIn, app_of, sign_in
from tests.tours.given.logs import entry, log, whole_walk

OTHER = "fedcba9876543210fedcba98"


@pytest.fixture
def guide(home: Store) -> FlaskClient:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser on the same home."""
    return sign_in(app_of(home).test_client(), "keeper")


def hand_in(browser: FlaskClient, data: Any) -> Any:
    """Hand a log in as the page's script does: with a token asked for just before."""
    token = browser.get("/desk/outings/token").get_json()["token"]
    return browser.post("/desk/outings/", json=data, headers={"X-CSRFToken": token})


def upload(browser: FlaskClient, content: bytes) -> Any:
    """Hand in a file through the form."""
    token = browser.get("/desk/outings/token").get_json()["token"]
    form = {"csrf_token": token, "log": (io.BytesIO(content), "t-short-log.json")}
    return browser.post("/desk/outings/", data=form, content_type="multipart/form-data")


def count(store: Store, kind: type[Any]) -> int:
    """How many there are."""
    with store.session() as session:
        return session.scalar(select(func.count()).select_from(kind)) or 0


def test_strangers_and_readers_are_kept_out(client: FlaskClient, as_role: SignIn) -> None:
    """Neither list nor token nor what tours tell afterwards."""
    for address in ("/desk/outings/", "/desk/outings/token", "/desk/outings/1", "/desk/tours/t-short/afterwards"):
        assert client.get(address).status_code == 303
        assert as_role("reader").get(address).status_code == 403


def test_a_hand_in_without_a_token_is_refused(home: Store, guide: FlaskClient) -> None:
    """Another site cannot hand in with a guide's cookie."""
    assert guide.post("/desk/outings/", json=whole_walk()).status_code == 400
    assert count(home, Outing) == 0


def test_a_hand_in_after_the_sign_in_ran_out_is_sent_to_sign_in(home: Store) -> None:
    """Token and log alike: the device keeps the log and says so."""
    stranger = app_of(home).test_client()
    assert stranger.get("/desk/outings/token").status_code == 303
    assert count(home, Outing) == 0


def test_a_log_with_faults_changes_nothing(home: Store, guide: FlaskClient) -> None:
    """All or nothing, told as a fault."""
    for data in (None, [], {"outing": {}}, log(group_size=-1), log(entry("s", 0, "danced"))):
        assert hand_in(guide, data).status_code == 400
    assert count(home, Outing) == count(home, OutingEntry) == 0


def test_handed_in_twice_it_is_there_once(home: Store, guide: FlaskClient) -> None:
    """The answer names every line that is safe now, each time."""
    answers = [hand_in(guide, whole_walk()).get_json() for _ in range(3)]
    assert answers[0] == answers[1] == answers[2]
    assert answers[0]["taken"] == [line["key"] for line in whole_walk()["entries"]]
    assert (count(home, Outing), count(home, OutingEntry)) == (1, 8)


def test_an_outing_is_its_guides_and_the_keepers(home: Store, guide: FlaskClient, keeper: FlaskClient) -> None:
    """Handed in by the keeper on a shared device, it is the guide's that the log names; a keeper sees all."""
    address = hand_in(keeper, whole_walk()).get_json()["address"]
    mine = hand_in(keeper, whole_walk(OTHER, guide="keeper")).get_json()["address"]
    assert guide.get(address).status_code == 200
    assert guide.get(mine).status_code == 404
    assert keeper.get(mine).status_code == keeper.get(address).status_code == 200
    assert guide.get("/desk/outings/").get_data(as_text=True).count("A short walk") == 1
    assert keeper.get("/desk/outings/").get_data(as_text=True).count("A short walk") == 2


def test_the_outing_tells_planned_against_real(guide: FlaskClient) -> None:
    """Due and reached, planned and taken, skipped tellings by title, and what was written down."""
    data = whole_walk(longer=3.0)
    data["entries"] += [
        entry("q", 1, "question", station="st-door", text="Was it <cold> here?"),
        entry("d", 2, "dropped", station="st-press", telling="tl-voice"),
    ]
    page = guide.get(hand_in(guide, data).get_json()["address"]).get_data(as_text=True)
    assert "Was it &lt;cold&gt; here?" in page
    assert "Her first morning" in page
    rows = [re.sub(r"<[^>]+>|\s+", " ", row) for row in re.findall(r"<tr>.*?</tr>", page, re.DOTALL)]
    assert re.search(r"The door +0:00 +0:00 +0 min +2 min +5 min", rows[1])
    assert re.search(r"2:30 +5:36 ", rows[2])


def test_incidents_can_be_listed_alone(guide: FlaskClient) -> None:
    """So that a keeper need not look for them."""
    hand_in(guide, whole_walk())
    assert "Only those with an incident" not in guide.get("/desk/outings/").get_data(as_text=True)
    data = whole_walk(OTHER)
    data["entries"].append(entry("i", 1, "incident", outing=OTHER, text="A finger was pinched"))
    hand_in(guide, data)
    assert "Only those with an incident: 1" in guide.get("/desk/outings/").get_data(as_text=True)
    page = guide.get("/desk/outings/?show=incidents").get_data(as_text=True)
    assert page.count("A short walk") == 1
    assert "1 incident" in page


def test_a_file_from_a_pack_is_taken_once(home: Store, guide: FlaskClient) -> None:
    """It may hold several outings, some of them here already."""
    hand_in(guide, whole_walk())
    content = json.dumps({"outings": [whole_walk(), whole_walk(OTHER)]}).encode()
    for _ in range(2):
        assert upload(guide, content).headers["Location"].endswith("/desk/outings/")
    assert (count(home, Outing), count(home, OutingEntry)) == (2, 16)


def test_a_file_that_is_no_log_is_refused(home: Store, guide: FlaskClient) -> None:
    """In words, with nothing kept."""
    for content in (b"", b"\xff\xfe", b"[]", b'{"outings": []}', b'{"outings": [1]}', b"[" * 100_000):
        assert upload(guide, content).status_code == 400
    assert count(home, Outing) == 0


def three_long_outings(browser: FlaskClient) -> None:
    """Three outings on which the welcome took three and a half minutes, or so."""
    for number, longer in enumerate((1.4, 1.5, 1.9)):
        data = whole_walk(f"{number}" * 24, longer=longer)
        text = ("How loud was the press?", "Was the press loud?", "Who was the forewoman?")[number]
        data["entries"].append(entry("q", 1, "question", outing=f"{number}" * 24, station="st-press", text=text))
        assert hand_in(browser, data).status_code == 200


def minutes_of(store: Store, ref: str) -> float:
    """A telling's minutes now."""
    with store.session() as session:
        return session.scalars(select(Telling.minutes).where(Telling.ref == ref)).one()


def press(browser: FlaskClient, deed: str) -> int:
    """Press a button on what the tour's outings tell."""
    token = browser.get("/desk/outings/token").get_json()["token"]
    address = f"/desk/tours/t-short/afterwards/st-door/{deed}"
    return browser.post(address, data={"csrf_token": token}).status_code


def test_better_minutes_are_offered_taken_over_and_put_back(home: Store, guide: FlaskClient) -> None:
    """Each change is in the history with who made it; a second press changes nothing more."""
    assert "has not been given yet" in guide.get("/desk/tours/t-short/afterwards").get_data(as_text=True)
    three_long_outings(guide)
    page = guide.get("/desk/tours/t-short/afterwards").get_data(as_text=True)
    assert page.count("Take these over") == 1
    assert re.search(r"Welcome: .*3\.5.* instead of .*2\.0", page)
    for _ in range(2):
        assert press(guide, "take-over") == 303
        assert minutes_of(home, "tl-welcome") == 3.5
    page = guide.get("/desk/tours/t-short/afterwards").get_data(as_text=True)
    assert "Changed from 2.0 to 3.5 min by guide" in page
    assert press(guide, "put-back") == 303
    assert minutes_of(home, "tl-welcome") == 2.0
    with home.session() as session:
        rows = session.scalars(select(Change).where(Change.record == "telling:tl-welcome")).all()
        assert [(row.who, row.after) for row in rows] == [("guide", {"minutes": 3.5}), ("guide", {"minutes": 2.0})]


def test_questions_that_recur_come_with_what_answers_them(guide: FlaskClient) -> None:
    """Two wordings are one question; beneath it stands what the search finds, and a way to search on."""
    three_long_outings(guide)
    page = guide.get("/desk/tours/t-short/afterwards").get_data(as_text=True)
    assert "asked 2 times" in page
    asked = page.rpartition("asked 2 times")[2]
    assert "/reading/?q=press+loud" in asked
    assert "<a href=" in asked.split("Search for it")[0].split("asked-answers")[1]


def test_every_place_in_the_words_is_one_that_is_filled(as_role: SignIn) -> None:
    """No sentence of the scripts has a place that the scripts do not know."""
    with as_role("guide").application.test_request_context():
        places = {place for words in giving_words().values() for place in re.findall(r"\{(\w+)\}", words)}
    assert places <= {"name", "minutes", "clock", "number", "count", "problem", "sounds", "since", "until", "kept"}


def test_half_a_sign_does_not_keep_a_log_out(home: Store, guide: FlaskClient) -> None:
    """A device that cuts a text in the middle of a sign is still rid of its log, with the rest of the words."""
    for number, send in enumerate(
        (hand_in, lambda browser, data: upload(browser, json.dumps({"outings": [data]}).encode()))
    ):
        key = f"{number}" * 20
        data = log(entry("n", 0, "note", outing=key, text="Cut off \ud83d"), key=key, note="so \udfff")
        assert send(guide, data).status_code in {200, 303}
    with home.session() as session:
        assert set(session.scalars(select(OutingEntry.text))) == {"Cut off ?"}


def test_a_run_in_a_file_is_marked_as_one_from_the_page(home: Store, guide: FlaskClient) -> None:
    """Checks that nobody confirmed are told in the running log, whichever way the run came."""
    run = {
        "key": "run-in-a-file",
        "machine": "SM.1",
        "demonstration": "dm-press",
        "operator": "P-5",
        "started_at": "2026-11-20T10:00:00+00:00",
        "minutes": 3,
        "confirmed": [],
    }
    assert upload(guide, json.dumps({"outings": [whole_walk()], "runs": [run]}).encode()).status_code == 303
    with home.session() as session:
        lapsed = session.scalars(select(MachineRun)).one().lapsed
    assert any(words.startswith("Not confirmed: ") for words in lapsed)
