"""The page of the figures told, and the outline beside a transcript."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient

from archive.rights.decisions import Role
from archive.settings import Settings
from archive.store.homes import make_home
from tests.conftest import app_of, fill, sign_in, with_accounts
from tests.house.planted import forbidden_words, write_planted_collection


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """An app on a home with closed things in it, whose lines hold figures."""
    folder = tmp_path_factory.mktemp("planted")
    store = make_home(Settings(folder / "home", testing=True))
    yield app_of(with_accounts(fill(store, write_planted_collection(folder / "planted"))))
    store.close()


@pytest.fixture(scope="module")
def reader(demo_app: Flask) -> FlaskClient:
    """A reader of the demo collection."""
    return sign_in(demo_app.test_client(), "reader")


def _page(client: FlaskClient, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def _figures(page: str) -> list[str]:
    return re.findall(r'<p class="told-figure"><strong>(.*?)</strong>', page)


def test_strangers_may_not_read_the_figures(demo_app: Flask) -> None:
    """The Reading room is for those who have signed in."""
    assert demo_app.test_client().get("/reading/figures/").status_code in {302, 303, 403}


@pytest.mark.parametrize("role", [Role.READER, Role.GUIDE, Role.KEEPER])
@pytest.mark.parametrize(
    "address",
    ["/reading/figures/", "/reading/figures/?q=1883", "/reading/figures/?kind=date", "/reading/figures/?q=eighteen",
     "/reading/figures/?speaker=P-hollyhock", "/reading/interviews/I-1", "/reading/interviews/I-2"],
)  # fmt: skip
def test_what_is_closed_leaves_no_trace(planted: Flask, role: Role, address: str) -> None:
    """No figure, chapter, name or choice of what is embargoed, withdrawn or closed."""
    client = sign_in(planted.test_client(), role.value)
    page = _page(client, address).replace(address, "").replace('value="eighteen"', "").lower()
    assert [word for word in forbidden_words(role) if word.lower() in page] == []
    assert "1883" not in page.replace('value="1883"', "")


def test_what_was_closed_is_found_when_it_opens(planted: Flask) -> None:
    """The same page on the day the embargo ends: so that the test above looks for what could be there."""
    client = sign_in(planted.test_client(), "reader")
    today = planted.config["TODAY"]
    planted.config["TODAY"] = lambda: dt.date(2031, 5, 3)
    try:
        assert _figures(_page(client, "/reading/figures/?q=1883")) == ["1883"]
    finally:
        planted.config["TODAY"] = today


@pytest.mark.parametrize("asked", ["kind=nothing", "unit=parsec", "speaker=P-99", "about=term", "about=a:b", "q=zzzz"])
def test_what_nobody_told_finds_nothing(reader: FlaskClient, asked: str) -> None:
    """An empty answer says what to do."""
    assert "Choose less, or fewer words." in _page(reader, f"/reading/figures/?{asked}")


def test_the_list_shows_each_figure_with_its_line_and_a_way_to_hear_it(reader: FlaskClient) -> None:
    """The figure in digits, its words marked in the line, who told it, and from when to when it sounds."""
    page = _page(reader, "/reading/figures/?q=eight+to+twelve")
    assert _figures(page) == ["8 to 12 a minute", "40 lb"]
    assert "<mark>Eight to twelve a minute</mark>" in page
    assert 'data-who="Osric Pell"' in page
    assert 'href="/reading/interviews/I-02?recording=I-02-a' in page


def test_narrators_who_differ_are_told_in_plain_words(reader: FlaskClient) -> None:
    """The year of the power lifter."""
    page = _page(reader, "/reading/figures/")
    assert "Osric Pell says 1952, Harbin Locke 1956." in page
    assert re.search(r'<span class="kind">power lifter</span> Osric Pell says', page)


def test_figures_are_chosen_by_kind_narrator_and_matter(reader: FlaskClient) -> None:
    """Each choice narrows, and together they narrow more."""
    assert set(_figures(_page(reader, "/reading/figures/?kind=date&speaker=P-02"))) >= {"1944", "1952", "1974"}
    tied = _figures(_page(reader, "/reading/figures/?kind=date&speaker=P-02&about=term:t-power-lifter"))
    assert tied == ["1952"]


def test_figures_are_sorted_by_value(reader: FlaskClient) -> None:
    """Smallest first and largest first, in base units."""
    up = _figures(_page(reader, "/reading/figures/?kind=date&sort=value"))
    down = _figures(_page(reader, "/reading/figures/?kind=date&sort=-value"))
    firsts = [re.findall(r"\d{4}", year)[0] for year in up]
    assert len(set(firsts)) > 5
    assert firsts == sorted(firsts)
    assert [re.findall(r"\d{4}", year)[0] for year in down] == firsts[::-1]


def test_later_figures_stand_on_later_pages(reader: FlaskClient) -> None:
    """Fifty at once, and a page too far is the last one."""
    assert len(_figures(_page(reader, "/reading/figures/"))) == 50
    assert _figures(_page(reader, "/reading/figures/?page=99"))


def test_chapters_stand_beside_a_transcript_as_proposals(reader: FlaskClient) -> None:
    """Each with the way to it, words of the trade linked, and said to be proposed."""
    page = _page(reader, "/reading/interviews/I-02")
    assert "Chapters proposed" in page
    assert "checked by nobody" in page
    assert re.search(r'class="chapter-time" href="/reading/interviews/I-02\?recording=I-02-a', page)
    assert re.search(r'class="chapter-words">.*?href="/kiosk/terms/t-tup"', page, re.DOTALL)


def test_talk_time_is_shown_by_voice(reader: FlaskClient) -> None:
    """Minutes and share, in words beside the bar."""
    page = _page(reader, "/reading/interviews/I-07")
    assert re.search(r"A worker in the dipping yard <span class=\"figure\">[\d½¼¾]+ min, \d\d %", page)
