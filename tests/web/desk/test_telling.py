"""Tellings at the Desk: who may open them, the list, the form without script, two at once, withdrawing and undoing."""

from __future__ import annotations

import html
import re

import pytest
from flask.testing import FlaskClient
from sqlalchemy import update

from archive.rights.model import Permission
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in

LIST, WELCOME = "/desk/tellings/", "/desk/tellings/tl-welcome"
PAGES = (LIST, "/desk/tellings/new", "/desk/tellings/look", WELCOME, f"{WELCOME}/edit")
TALK = {
    "station": "st-door",
    "kind": "talk",
    "title": "The <brass> check",
    "script": "Some said that it was theirs.",
    "depth": "glance",
    "language": "en-GB",
    "themes": ["town"],
    "audiences": ["adults"],
    "statements": ["s-book"],
}


@pytest.fixture
def guide(home: Store) -> FlaskClient:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


def page_of(browser: FlaskClient, address: str) -> str:
    """The page as text."""
    answer = browser.get(address)
    assert answer.status_code == 200, address
    return answer.get_data(as_text=True)


def hidden(page: str, name: str) -> str:
    """The value of a hidden field."""
    return re.findall(rf'name="{name}" value="([^"]*)"', page)[-1]


def send(browser: FlaskClient, address: str, deed: str = "keep", **fields: object) -> tuple[int, str, str]:
    """Send the form as its page has it, with some fields otherwise; gives status, page and where it leads."""
    form = page_of(browser, address)
    stamp = fields.pop("stamp", hidden(form, "stamp"))
    data = {**TALK, **fields, "deed": deed, "stamp": stamp, "csrf_token": hidden(form, "csrf_token")}
    answer = browser.post(address, data=data)
    return answer.status_code, answer.get_data(as_text=True), answer.headers.get("Location", "")


def press(browser: FlaskClient, address: str, deed: str) -> str:
    """Press a button of a page's form; gives where it leads."""
    token = hidden(page_of(browser, address.split("?")[0]), "csrf_token")
    answer = browser.post(f"{address.split('?')[0]}/{deed}", data={"csrf_token": token})
    assert answer.status_code == 303
    return str(answer.headers["Location"])


@pytest.mark.parametrize("address", PAGES)
def test_strangers_and_readers_are_kept_out(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers are sent to sign in, readers are refused."""
    assert client.get(address).status_code == 303
    assert as_role("reader").get(address).status_code == 403


@pytest.mark.parametrize("address", ["/desk/tellings/tl-none", "/desk/tellings/tl-none/edit"])
def test_an_unknown_telling_is_not_here(as_role: SignIn, address: str) -> None:
    """To look at or to change."""
    assert as_role("guide").get(address).status_code == 404


def test_what_rests_on_closed_things_is_on_no_page(home: Store, guide: FlaskClient) -> None:
    """Not in the list, not by its address, not among the clips and statements to choose from."""
    with home.changing("tests") as session:
        session.execute(update(Permission).where(Permission.purpose == "tour").values(allowed=False))
    assert guide.get("/desk/tellings/tl-voice").status_code == 404
    assert guide.get("/desk/tellings/tl-voice/edit").status_code == 404
    looked = guide.get("/desk/tellings/look", query_string={**TALK, "statements": ["s-tools"]}).get_data(as_text=True)
    told = page_of(guide, LIST) + page_of(guide, "/desk/tellings/new?station=st-press") + looked
    for words in ("Her first morning", "s-tools", "Press hands set their own tools", "C-1"):
        assert words not in told


def test_faults_stand_beside_their_fields_and_nothing_typed_is_lost(as_role: SignIn) -> None:
    """A list on top leads to each, and every field is as it was typed."""
    status, page, _ = send(as_role("guide"), "/desk/tellings/new", title="", script="My <own> words.", themes=[])
    assert status == 400
    assert 'href="#t-title"' in page
    assert 'id="t-title-fault"' in page
    assert 'id="t-themes-fault"' in page
    assert "My &lt;own&gt; words." in page
    assert re.search(r'value="s-book" checked', page)
    assert 'value="st-door" selected' in page


def test_without_script_the_words_are_looked_over_and_statements_found(as_role: SignIn) -> None:
    """Two buttons of the form do it; nothing is kept, and what is ticked stays among what is found."""
    guide = as_role("guide")
    words = "The press came by barge in 1912."
    status, page, _ = send(guide, "/desk/tellings/new", "look", script=words, statements=["s-rumour"])
    assert status == 200
    assert "bears out “1912”" in page
    assert "7 words, 0.1 min" in page
    status, page, _ = send(guide, "/desk/tellings/new", "find", find="barge")
    assert "The press came by barge." in page
    assert re.search(r'value="s-book" checked', page)
    assert "Press hands set their own tools." not in page
    assert "brass&gt; check" not in page_of(guide, LIST)


def test_a_new_telling_is_kept_listed_and_told(guide: FlaskClient) -> None:
    """The way leads to its page; the list has it under its station."""
    status, _, where = send(guide, "/desk/tellings/new")
    assert (status, where) == (303, "/desk/tellings/tl-door-brass-check?did=kept")
    page = page_of(guide, where)
    assert "Kept." in page
    assert "The &lt;brass&gt; check" in page_of(guide, f"{LIST}?station=st-door&kind=talk&theme=town&words=brass")
    assert "tl-door-brass-check" not in page_of(guide, f"{LIST}?kind=clip")
    assert "The &lt;brass&gt; check" in page_of(guide, "/desk/stations/st-door")


def test_the_list_says_what_needs_a_look(guide: FlaskClient) -> None:
    """A figure that nothing bears out counts."""
    send(guide, "/desk/tellings/new", script="It came in 1912.")
    page = page_of(guide, f"{LIST}?show=look")
    assert "tl-door-brass-check" in page
    assert "1 thing said" in page


def test_of_two_at_once_the_second_is_told_and_loses_nothing(guide: FlaskClient) -> None:
    """Both are shown, the second's words are still in the form, and sent again they are kept."""
    edit = f"{WELCOME}/edit"
    stamp = hidden(page_of(guide, edit), "stamp")
    assert send(guide, edit, script="Theirs, kept first.")[0] == 303
    status, page, _ = send(guide, edit, script="Mine, typed meanwhile.", stamp=stamp)
    assert status == 409
    assert "Theirs, kept first." in page
    assert page.count("Mine, typed meanwhile.") >= 2
    assert "guide changed this telling" in html.unescape(page)
    assert "Theirs, kept first." in page_of(guide, WELCOME)
    assert send(guide, edit, script="Mine, typed meanwhile.", stamp=hidden(page, "stamp"))[0] == 303
    assert "Mine, typed meanwhile." in page_of(guide, WELCOME)


def test_withdrawing_is_undone_at_hand(guide: FlaskClient) -> None:
    """Its page offers to put it back; meanwhile it stands in the list of the withdrawn alone."""
    where = press(guide, WELCOME, "withdraw")
    assert "Undo: put it back" in page_of(guide, where)
    assert "tl-welcome" not in page_of(guide, LIST)
    assert "tl-welcome" in page_of(guide, f"{LIST}?show=withdrawn")
    assert "You are standing where" not in page_of(guide, "/desk/stations/st-door")
    assert "Back in use." in page_of(guide, press(guide, where, "restore"))
    assert "tl-welcome" in page_of(guide, LIST)


def test_a_demonstration_tells_its_minutes_noise_and_papers(as_role: SignIn) -> None:
    """On the form, for the machines of the station's room."""
    page = page_of(as_role("guide"), "/desk/tellings/tl-run/edit")
    assert "4 min, and 2 min to warm up before. 78 dB at 2 m." in page
    assert "Not today" in page
