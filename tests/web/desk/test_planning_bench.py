"""Changing a tour by hand: every deed, what it is refused for, and that the tour is told anew each time."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update
from werkzeug.test import TestResponse

from archive.rights.model import Permission
from archive.store.session import Store
from archive.tours.model import StopTelling, Tour
from archive.tours.queries import tour
from tests.conftest import app_of, sign_in
from tests.web.desk.desk_forms import fields_of, send

EDIT, DEEDS = "/desk/tours/t-short/edit", "/desk/tours/t-short/deeds"


@pytest.fixture
def home(home: Store) -> Store:
    """The small collection in a home of this test's own; its tour need not be quiet, so that all may be told."""
    with home.changing("tests") as session:
        session.execute(update(Tour).values(needs=[]))
    return home


@pytest.fixture
def guide(home: Store) -> Iterator[FlaskClient]:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


def did(browser: FlaskClient, deed: str, **fields: str) -> TestResponse:
    """A deed, as its button sends it."""
    return send(browser, EDIT, DEEDS, deed=deed, **fields)


def stands(store: Store) -> list[tuple[str, list[str]]]:
    """The stops with their tellings, in order."""
    with store.session() as session:
        return [
            (stop.station.ref, [chosen.telling.ref for chosen in stop.chosen])
            for stop in tour(session, "t-short").stops
        ]


BEFORE = [("st-door", ["tl-welcome"]), ("st-press", ["tl-voice", "tl-run"]), ("st-bench", ["tl-badge"])]


@pytest.mark.parametrize("deed", ["", "burn 1", "move 1", "move 1 x", "move -1 0", "drop", "drop 1 2", "add"])
def test_what_no_button_asks_is_refused(home: Store, guide: FlaskClient, deed: str) -> None:
    """And nothing is changed."""
    assert did(guide, deed).status_code == 400
    assert stands(home) == BEFORE


@pytest.mark.parametrize("deed", ["drop 9", "move 9 0", "pin 9", "drop-telling 1 tl-nowhere", "add tl-nowhere"])
def test_what_is_not_there_cannot_be_changed(home: Store, guide: FlaskClient, deed: str) -> None:
    """A place or a telling that the tour does not have."""
    assert did(guide, deed).status_code in (400, 404, 409)
    assert stands(home) == BEFORE


def test_a_deed_on_a_page_that_is_out_of_date_is_refused(home: Store, guide: FlaskClient) -> None:
    """Somebody else changed the tour meanwhile."""
    old = fields_of(guide, EDIT).hidden
    did(guide, "drop 2")
    assert guide.post(DEEDS, data={**old, "deed": "drop 1"}).status_code == 409
    assert len(stands(home)) == 2


def test_a_closed_telling_cannot_be_added_and_is_not_told(home: Store, guide: FlaskClient) -> None:
    """It is refused in the very words that one which is not there gets."""
    did(guide, "drop-telling 1 tl-voice")
    with home.changing("keeper") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    refused, absent = did(guide, "add tl-voice"), did(guide, "add tl-nowhere")
    assert (refused.status_code, refused.data) == (absent.status_code, absent.data)
    text = guide.get(EDIT).get_data(as_text=True)
    assert "tl-voice" not in text
    assert "Her first morning" not in text


@pytest.mark.parametrize("deed", ["pin-telling 1 {}", "move-telling 1 {} 0", "drop-telling 1 {}"])
def test_a_closed_telling_cannot_be_touched_or_found_by_its_name(home: Store, guide: FlaskClient, deed: str) -> None:
    """A guide who guesses the name of one that is on the tour is answered as for one that is nowhere."""
    with home.changing("tests") as session:
        session.execute(update(Permission).values(allowed=False))
    assert did(guide, deed.format("tl-voice")).status_code == 404
    assert did(guide, deed.format("tl-nowhere")).status_code == 404
    assert stands(home) == BEFORE


def test_without_a_token_nothing_is_done(home: Store, guide: FlaskClient) -> None:
    """A form from elsewhere is refused."""
    assert guide.post(DEEDS, data={"deed": "drop 0", "version": "0"}).status_code == 400
    assert stands(home) == BEFORE


def test_a_name_must_be_given(guide: FlaskClient) -> None:
    """Neither none nor one without end."""
    for name in ("", "   ", "x" * 201):
        assert send(guide, EDIT, "/desk/tours/t-short/name", name=name, summary="").status_code == 400


def test_every_button_of_the_page_works(home: Store, guide: FlaskClient) -> None:
    """Each is sent on the page as it stands, and undone again."""
    offered = [deed for deed in fields_of(guide, EDIT).deeds if deed.split()[0] not in ("undo", "redo", "withdraw")]
    assert {deed.split()[0] for deed in offered} >= {"move", "pin", "drop", "pin-telling", "drop-telling"}
    for deed in offered:
        assert did(guide, deed).status_code == 303, deed
        assert did(guide, "undo").status_code == 303, deed
        assert stands(home) == BEFORE, deed


def test_stops_and_tellings_are_moved_and_dropped(home: Store, guide: FlaskClient) -> None:
    """In the order in which the page shows them."""
    did(guide, "move 2 0")
    assert [station for station, _told in stands(home)] == ["st-bench", "st-door", "st-press"]
    did(guide, "move-telling 2 tl-run 0")
    assert stands(home)[2] == ("st-press", ["tl-run", "tl-voice"])
    did(guide, "drop-telling 2 tl-run")
    did(guide, "drop 0")
    assert stands(home) == [("st-door", ["tl-welcome"]), ("st-press", ["tl-voice"])]


def test_what_was_dropped_can_be_added_with_its_cost(home: Store, guide: FlaskClient) -> None:
    """As a stop again, where it costs least."""
    did(guide, "drop 2")
    assert "add tl-badge" in fields_of(guide, EDIT).deeds
    assert "with the way." in guide.get(EDIT).get_data(as_text=True)
    did(guide, "add tl-badge")
    assert ("st-bench", ["tl-badge"]) in stands(home)


def test_the_last_deed_is_said_and_can_be_undone_and_done_again(home: Store, guide: FlaskClient) -> None:
    """In words, as a step back and a step on."""
    after = guide.get(did(guide, "drop 1").location).get_data(as_text=True)
    said = after.split("data-said>")[1].split("<")[0]
    assert said
    assert f"Undone: {said}" in guide.get(did(guide, "undo").location).get_data(as_text=True)
    assert stands(home) == BEFORE
    assert f"Done again: {said}" in guide.get(did(guide, "redo").location).get_data(as_text=True)
    assert len(stands(home)) == 2
    did(guide, "undo")
    assert did(guide, "undo").status_code == 409


def test_what_is_wrong_is_told_with_what_to_do(home: Store, guide: FlaskClient) -> None:
    """Too long, and out of its place."""
    with home.changing("tests") as session:
        session.execute(update(Tour).values(minutes=6))
    did(guide, "move 2 0")
    text = guide.get(EDIT).get_data(as_text=True)
    assert "minutes over.</strong> Drop something" in text
    assert "It does not start at The door, where the group meets.</strong> Move that stop to the front" in text


def test_finishing_the_rest_keeps_what_is_pinned(home: Store, guide: FlaskClient) -> None:
    """A pinned stop stays with all that is told there."""
    did(guide, "drop 0")
    did(guide, "pin 1")
    on_its_way = send(guide, EDIT, "/desk/tours/t-short/finish")
    assert guide.get(on_its_way.location).location == EDIT
    assert ("st-bench", ["tl-badge"]) in stands(home)
    assert "unpin" in {deed.split()[0] for deed in fields_of(guide, EDIT).deeds}
    did(guide, "undo")
    assert [station for station, _told in stands(home)] == ["st-press", "st-bench"]


def test_name_and_summary_are_kept(guide: FlaskClient) -> None:
    """As they were written, in one line."""
    send(guide, EDIT, "/desk/tours/t-short/name", name=" A longer\nwalk ", summary="And why.")
    text = guide.get("/desk/").get_data(as_text=True)
    assert "A longer walk" in text
    assert "And why." in text


def test_a_tour_is_taken_out_of_the_list_and_put_back(guide: FlaskClient) -> None:
    """It stays to be found among those taken out."""
    away = "/desk/tours/t-short/away"
    send(guide, EDIT, away, deed="withdraw")
    assert "Taken out of the list" in guide.get("/desk/").get_data(as_text=True)
    assert 'id="tour-t-short"' not in guide.get("/desk/").get_data(as_text=True)
    send(guide, EDIT, away, deed="restore")
    assert 'id="tour-t-short"' in guide.get("/desk/").get_data(as_text=True)


def test_the_desk_tells_which_tours_no_longer_hold(home: Store, guide: FlaskClient) -> None:
    """With the reason, and nothing of what is closed."""
    before = guide.get("/desk/").get_data(as_text=True)
    assert "Fly press: There is no condition survey in force." in before
    assert "may no longer be told" not in before
    with home.changing("keeper") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
        assert session.scalar(select(StopTelling.id).limit(1))
    text = guide.get("/desk/").get_data(as_text=True)
    assert "These no longer hold" in text
    assert "Something on this tour may no longer be told." in text
    assert "Her first morning" not in text


def test_what_a_little_more_time_would_let_in_is_told(home: Store, guide: FlaskClient) -> None:
    """Of all that is left out, that which needs the fewest minutes more; nothing while all of it fits."""
    assert "more would let in" not in guide.get(EDIT).text
    with home.changing("tests") as session:
        session.execute(update(Tour).values(minutes=5))
    for place in (2, 0):
        did(guide, f"drop {place}")
    assert re.search(r"[0-9½¼¾]+ min more would let in “(Welcome|A badge in the hand)”", guide.get(EDIT).text)


@pytest.mark.parametrize(("gap", "says"), [(0.0421, "Within 5% of the best"), (0.0001, "Within 1% of the best")])
def test_how_near_to_the_best_it_is_is_told_as_people_write_it(
    home: Store, guide: FlaskClient, gap: float, says: str
) -> None:
    """The figure and its sign stand together."""
    with home.changing("tests") as session:
        session.execute(update(Tour).values(outcome={"proven": False, "gap": gap}))
    assert says in guide.get(EDIT).text
