"""The sheets: stations, processes, hazards, objects, words and people."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from tests.conftest import SignIn
from tests.web.kiosk.test_crawl import KINDS
from tests.web.kiosk.test_plan import text_of


@pytest.mark.parametrize("kind", KINDS[1:])
def test_what_is_not_there_is_not_found(client: FlaskClient, kind: str) -> None:
    """A reference that nothing bears is not found, whatever is asked for."""
    assert client.get(f"/kiosk/{kind}/nothing-here").status_code == 404


@pytest.mark.parametrize("address", ["/kiosk/voices/C-3", "/kiosk/interviews/I-2", "/kiosk/people/P-2"])
def test_what_is_closed_to_the_kiosk_is_not_found(client: FlaskClient, signed_in: SignIn, address: str) -> None:
    """What a narrator did not open to the kiosk is not there, not even for a keeper who stands at it."""
    assert client.get(address).status_code == 404
    assert signed_in("keeper").get(address).status_code == 404


def test_a_station_shows_what_is_told_there(client: FlaskClient) -> None:
    """A station has its check lit, its objects, processes, voices, hazards and the caution that goes with them."""
    page = text_of(client, "/kiosk/stations/st-press")
    assert 'class="spot check--chosen" href="/kiosk/stations/st-press"' in page
    for link in ("objects/SM.1", "processes/pr-cut", "voices/C-1", "hazards/hz-noise"):
        assert f'href="/kiosk/{link}"' in page
    assert "They are not for design or for setting up work." in page


def test_a_station_says_how_surely_a_thing_can_be_said(client: FlaskClient) -> None:
    """Statements carry their standing, from the evidence open to the kiosk alone."""
    page = text_of(client, "/kiosk/stations/st-press")
    assert "A press hand was paid by the gross in 1951." in page
    assert "Documented" in page
    # The one voice against it is closed to the kiosk, so that it must not be told as contested here.
    assert "Recalled by one" in page
    assert "Contested" not in page


def test_a_process_has_its_steps_depths_and_place(client: FlaskClient) -> None:
    """A process shows its numbered steps, the three depths, its cautions and what comes after it."""
    page = text_of(client, "/kiosk/processes/pr-cut")
    assert "<li>" in page
    assert "Set the strip against the stop." in page
    assert page.count('<details name="depth"') == 3
    assert "For people who know metal" in page
    assert 'href="/kiosk/processes/pr-pack"' in page
    assert "A competent person decides." in page


def test_the_chain_is_drawn_and_listed(client: FlaskClient) -> None:
    """Every process stands in the drawing and in the list."""
    page = text_of(client, "/kiosk/processes/")
    assert page.count('href="/kiosk/processes/pr-cut"') == 2
    assert page.count('href="/kiosk/processes/pr-pack"') == 2


def test_a_hazard_is_borne_witness_to_only_by_what_is_open(client: FlaskClient) -> None:
    """The clips that speak of a hazard stand on its page, and no other clip does."""
    assert 'href="/kiosk/voices/C-1"' in text_of(client, "/kiosk/hazards/hz-fingers")
    assert "/kiosk/voices/C-" not in text_of(client, "/kiosk/hazards/hz-noise")


def test_a_hazard_says_what_keeps_it_from_hurting(client: FlaskClient) -> None:
    """A hazard shows then, now, its controls as a list, cautions and the work that has it."""
    page = text_of(client, "/kiosk/hazards/hz-fingers")
    for words in ("There was no guard.", "The press is run by one trained person.", "Nobody else within reach."):
        assert words in page
    assert 'href="/kiosk/processes/pr-cut"' in page


def test_an_object_is_shown_with_its_particulars(client: FlaskClient) -> None:
    """An object has its picture with words for those who cannot see it, its date in words, maker and station."""
    page = text_of(client, "/kiosk/objects/SM.1")
    assert 'alt="Line drawing of a press."' in page
    assert "about 1911" in page
    assert 'href="/kiosk/people/P-4">Marl &amp; Fenn' in page
    assert 'href="/kiosk/stations/st-press"' in page


def test_an_object_used_in_dangerous_work_carries_its_cautions(client: FlaskClient) -> None:
    """A machine's page names the hazards of its work and carries the usual cautions; a harmless object's does not."""
    page = text_of(client, "/kiosk/objects/SM.1")
    assert 'href="/kiosk/hazards/hz-fingers"' in page
    assert "Only a trained demonstrator runs this machine" in page
    assert "They are not for design or for setting up work." in page
    assert "They are not for design" not in text_of(client, "/kiosk/objects/SM.3")


def test_an_object_in_store_says_so(client: FlaskClient) -> None:
    """An object without a station is said to be in store; a worker closed to the kiosk is not named."""
    page = text_of(client, "/kiosk/objects/SM.3")
    assert "It is in store and not on the floor." in page
    assert 'href="/kiosk/people/P-1"' in page
    assert 'href="/kiosk/people/P-2"' not in page


def test_a_person_is_shown_under_the_name_allowed(client: FlaskClient) -> None:
    """Where only initials are allowed, neither the name nor what the file says of the person is shown."""
    page = text_of(client, "/kiosk/people/P-1")
    assert "A.B." in page
    assert "Ada" not in page
    assert "1934" not in page


def test_a_word_has_its_neighbours(client: FlaskClient) -> None:
    """A term shows its meaning, its other words, how it is said, and what it is a kind of."""
    page = text_of(client, "/kiosk/terms/t-blank")
    for words in ("A disc cut from strip.", "dap, slug", "Said: blangk"):
        assert words in page
    assert 'href="/kiosk/terms/t-brass"' in page


def test_a_word_is_explained_where_it_stands(client: FlaskClient) -> None:
    """A term named by the process is marked once in its prose, with its meaning on the same page."""
    page = text_of(client, "/kiosk/processes/pr-cut")
    assert page.count('popovertarget="word-t-blank">Blanks</button>') == 1
    assert '<div class="explanation" id="word-t-blank" popover>' in page
    assert "A disc cut from strip." in page
