"""The interview reader: who may read, what is shown, what stays closed."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from archive.interviews.model import Interview
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in
from tests.small_collection import CLOSED_WORD, UNNAMED


def _page(client: FlaskClient, address: str, status: int = 200) -> str:
    answer = client.get(address)
    assert answer.status_code == status, answer.get_data(as_text=True)
    return answer.get_data(as_text=True)


@pytest.mark.parametrize(
    "address", ["/reading/", "/reading/interviews/", "/reading/interviews/I-1", "/reading/recordings/I-1-a.txt"]
)
def test_strangers_are_sent_to_sign_in(client: FlaskClient, address: str) -> None:
    """Nobody reads without signing in, and comes back to the page that was wanted."""
    answer = client.get(address)
    assert answer.status_code == 303
    assert answer.location.startswith("/sign-in?next=/reading/")


@pytest.mark.parametrize(
    "address", ["/reading/interviews/I-9", "/reading/interviews/I-1?recording=I-2-a", "/reading/recordings/I-9-a.vtt"]
)
def test_what_is_not_there_is_not_found(as_role: SignIn, address: str) -> None:
    """A wrong reference, also of another interview's recording, gives the one page that says nothing."""
    assert "There is nothing here" in _page(as_role("reader"), address, 404)


@pytest.mark.parametrize("text", ["abc", "-1", "5,2", "1e9"])
def test_a_time_that_is_none_is_refused(as_role: SignIn, text: str) -> None:
    """The address says what a time looks like."""
    assert "such as t=12.5" in _page(as_role("reader"), f"/reading/interviews/I-1?t={text}", 400)


@pytest.mark.parametrize("role", ["reader", "guide", "keeper"])
def test_a_closed_passage_is_marked_and_not_read(as_role: SignIn, role: str) -> None:
    """Nobody reads the closed words; the place where they would stand is marked once, and no more is said."""
    page = _page(as_role(role), "/reading/interviews/I-1")
    assert CLOSED_WORD not in page
    assert "illness" not in page
    assert page.count("A passage is closed here.") == 1
    assert (
        page.index("fly press &amp; told") < page.index("A passage is closed here.") < page.index("We called the brass")
    )


@pytest.mark.parametrize("role", ["reader", "guide", "keeper"])
def test_an_unnamed_narrator_has_the_other_name(as_role: SignIn, role: str) -> None:
    """The kept name stands nowhere on the page, not even in part."""
    page = _page(as_role(role), "/reading/interviews/I-2")
    assert not any(part in page for part in UNNAMED.split())
    assert "A hand in the loft" in page


def test_what_is_embargoed_later_is_gone_at_once(home: Store) -> None:
    """An interview whose permission starts later is in no list and on no page from the next request on."""
    client = sign_in(app_of(home).test_client(), "reader")
    assert "I-1" in _page(client, "/reading/interviews/")
    with home.changing("tests") as session:
        interview = session.scalars(select(Interview).where(Interview.ref == "I-1")).one()
        assert interview.agreement is not None
        for permission in interview.agreement.permissions:
            permission.from_date = dt.date(2040, 1, 1)
    assert "Ada Birch" not in _page(client, "/reading/interviews/")
    assert "Ada Birch" not in _page(client, "/reading/interviews/I-1", 404)
    assert "Ada Birch" not in _page(client, "/reading/recordings/I-1-a.txt", 404)


def test_each_line_is_at_its_time(as_role: SignIn) -> None:
    """A line's id is its media fragment, so that a lasting link lands on it even without script."""
    page = _page(as_role("reader"), "/reading/interviews/I-1")
    assert re.findall(r'<li class="line" id="([^"]+)"', page) == ["t=0,4", "t=4,8", "t=12,18.5", "t=18.5,23.5"]
    assert "/reading/interviews/I-1?recording=I-1-a&amp;t=12#t=12,18.5" in page


def test_the_line_at_a_time_is_chosen(as_role: SignIn) -> None:
    """`?t=` marks the last line that has begun and starts the sound there."""
    page = _page(as_role("reader"), "/reading/interviews/I-1?t=13.2,15")
    chosen = re.findall(r'id="([^"]+)"[^>]* aria-current="true"', page)
    assert chosen == ["t=12,18.5"]
    assert "/media/recordings/I-1-a.webm#t=13.2" in page


def test_ties_lead_to_their_records(as_role: SignIn) -> None:
    """Accepted ties are links beside the line; proposed ones are not shown; each link opens."""
    reader = as_role("reader")
    page = _page(reader, "/reading/interviews/I-1")
    links = set(re.findall(r'<span class="kind">\w+</span> <a href="([^"]+)"', page))
    assert links == {"/kiosk/objects/SM.1", "/kiosk/processes/pr-cut"}
    for link in links:
        assert reader.get(link).status_code == 200
    assert "the 1950s" in page


def test_speakers_stand_at_their_turns(as_role: SignIn) -> None:
    """A name stands once at each turn; a closed passage parts two turns of one speaker."""
    page = _page(as_role("reader"), "/reading/interviews/I-1")
    speakers = re.findall(r'<p class="turn-speaker">([^<]*)</p>', page)
    assert speakers == ["Ned Sallow", "Ada Birch", "Ada Birch", "Someone at the door"]


def test_each_line_carries_its_citation(as_role: SignIn) -> None:
    """A reader quotes a line with the name, the interview, the recording and the times."""
    page = _page(as_role("reader"), "/reading/interviews/I-1")
    assert (
        "Ada Birch, “Ada Birch, press hand”, interview I-1, held May 2009. Recording I-1-a, from 0:04 to 0:08." in page
    )
    assert "The Small Works, Nether Sandle. Read 25 November 2026." in page


def test_the_list_tells_who_when_and_how_long(as_role: SignIn) -> None:
    """Each open interview stands with narrator, the years it speaks of, and its minutes."""
    page = _page(as_role("reader"), "/reading/interviews/")
    assert "2 interviews are open to you" in page
    assert "speaks of 1949 to 1971" in page
    assert "½ min" in page
