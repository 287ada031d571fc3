"""The search of the Reading room: quoted by interview, narrowed by what is open, silent on what is closed."""

from __future__ import annotations

import html
import re

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from archive.web.reading.search_page import parts_of
from tests.conftest import SignIn
from tests.small_collection import CLOSED_WORD, UNNAMED


def _found(client: FlaskClient, **asked: str) -> str:
    answer = client.get("/reading/", query_string=asked)
    assert answer.status_code == 200
    return re.sub(r"\s+", " ", html.unescape(answer.get_data(as_text=True)))


def _asked_again(page: str) -> str:
    """The page without the question, which a reader may see again, also as part of a better one."""
    return re.sub(r'<input id="q"[^>]*>|<title>.*?</title>|<p class="meant">.*?</p>', "", page)


@pytest.mark.parametrize("words", [CLOSED_WORD, "quatrefoil cough", "quatref*", "poor man", *UNNAMED.split()])
@pytest.mark.parametrize("role", ["reader", "guide", "keeper"])
def test_closed_words_find_nothing(as_role: SignIn, role: str, words: str) -> None:
    """What is closed is neither found nor counted nor suggested, by whatever words."""
    page = _asked_again(_found(as_role(role), q=words))
    assert "Nothing found" in page
    assert CLOSED_WORD not in page
    assert not any(part in page for part in UNNAMED.split())
    assert "data-count>Nothing found" in page


def test_a_misspelt_closed_word_suggests_nothing(as_role: SignIn) -> None:
    """Did-you-mean never offers a word that stands only in what is closed."""
    assert CLOSED_WORD not in _found(as_role("reader"), q="quatrefoyl")


def test_an_empty_search_invites_to_read(as_role: SignIn) -> None:
    """Before anything is asked there are the open interviews, and two sentences of help."""
    page = _found(as_role("reader"))
    assert "Or read one from the start" in page
    assert "/reading/interviews/I-1" in page
    assert "in quotes" in page


def test_passages_are_quoted_by_interview(as_role: SignIn) -> None:
    """A passage stands under its interview with speaker, time, the found word marked, and links to hear and read it."""
    page = _found(as_role("reader"), q="fly press")
    assert "<title>fly press · Reading room</title>" in page
    assert re.search(r'<h3 class="group-title"><a href="/reading/interviews/I-1">Ada Birch, press hand</a>', page)
    assert "I was put on a <mark>fly</mark> <mark>press</mark> & told" in page
    assert '<span class="hit-who">Ada Birch</span>' in page
    assert 'href="/reading/interviews/I-1?recording=I-1-a&t=4#t=4,8"' in page
    assert "/media/recordings/I-1-a.webm" in page


def test_a_clip_plays_its_own_sound(as_role: SignIn) -> None:
    """A clip that is found is heard from its own sound, which begins with it; the recording is not needed."""
    page = _found(as_role("reader"), q="yella", kind="clip")
    assert 'data-sounds="/media/clips/C-2.webm /media/clips/C-2.mp3" data-start="0" data-end="11.5"' in page


def test_other_records_stand_apart(as_role: SignIn) -> None:
    """Objects and terms are in a group of their own, and lead to their pages."""
    page = _found(as_role("reader"), q="press")
    others = page.split("Besides the voices")[1]
    assert 'href="/kiosk/objects/SM.1"' in others
    assert "passage" in page.split("Besides the voices")[0]


def test_choices_narrow_what_is_found(as_role: SignIn) -> None:
    """Each choice leads to as many hits as its count says, and can be taken away again."""
    reader = as_role("reader")
    page = _found(reader, q="press OR packed OR tool*")
    choices = re.findall(r'<li><a href="(/reading/\?[^"]+)">([^<]+)</a> <span class="figure">(\d+)</span>', page)
    assert choices
    for address, _words, count in choices:
        narrowed = re.sub(r"\s+", " ", html.unescape(reader.get(address).get_data(as_text=True)))
        told = re.search(r"data-count>\s*(.*?)\s*</h2>", narrowed)
        assert told
        assert sum(int(n) for n in re.findall(r"(\d+) (?:passages?|(?:other )?records?)", told[1])) == int(count)
        assert "take away" in narrowed


def test_a_misspelt_word_is_asked_back(as_role: SignIn) -> None:
    """A word that finds nothing leads to one that does."""
    page = _found(as_role("reader"), q="fingerz")
    assert re.search(r'Did you mean <a href="/reading/\?q=fingers?">', page)


@pytest.mark.parametrize("words", ["<script>alert(1)</script>", '" OR', "((((", "speaker:", "*", "'", "%00", "x" * 400])
def test_no_words_break_the_page(as_role: SignIn, words: str) -> None:
    """Whatever is written is taken as words, and shown again as text."""
    answer = as_role("reader").get("/reading/", query_string={"q": words})
    assert answer.status_code == 200
    assert b"<script>alert" not in answer.data


@pytest.mark.parametrize("page", ["x", "-1", "1.5"])
def test_a_page_that_is_no_number_is_refused(as_role: SignIn, page: str) -> None:
    """The address says what a page number is."""
    assert as_role("reader").get("/reading/", query_string={"q": "press", "page": page}).status_code == 400


@given(st.text(), st.lists(st.tuples(st.integers(0, 50), st.integers(0, 50)), max_size=5))
def test_a_marked_text_stays_the_same_text(text: str, pairs: list[tuple[int, int]]) -> None:
    """Cutting a text at its marks loses and adds nothing."""
    edges = sorted({min(edge, len(text)) for pair in pairs for edge in pair})
    marks = list(zip(edges[::2], edges[1::2], strict=False))
    parts = parts_of(text, marks)
    assert "".join(part.text for part in parts) == text
    assert [part.text for part in parts if part.marked] == [text[start:end] for start, end in marks if end > start]
