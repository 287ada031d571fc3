"""The first page: the plan and its board."""

from __future__ import annotations

import pytest
from flask import Flask
from flask.testing import FlaskClient


def text_of(client: FlaskClient, address: str) -> str:
    """The page's text."""
    answer = client.get(address)
    assert answer.status_code == 200, address
    return answer.get_data(as_text=True)


@pytest.mark.parametrize("address", ["/kiosk/?floor=attic", "/kiosk/floors/attic", "/kiosk/?floor=upper&room=shop"])
def test_a_floor_or_room_that_is_not_there_is_not_found(client: FlaskClient, address: str) -> None:
    """An unknown floor, or a room of another floor, is told as not found."""
    assert client.get(address).status_code == 404


def test_the_plan_opens_at_street_level(client: FlaskClient) -> None:
    """Without a floor asked for, the ground floor is drawn with its stations, and the others are links."""
    page = text_of(client, "/kiosk/")
    assert 'aria-label="1, The door, Hall"' in page
    assert 'aria-label="2, The press, Press shop"' in page
    assert 'aria-label="3, The bench, Loft"' not in page
    assert 'href="/kiosk/floors/upper">Upper floor' in page


@pytest.mark.parametrize("address", ["/kiosk/?floor=upper", "/kiosk/floors/upper"])
def test_another_floor_has_its_own_checks(client: FlaskClient, address: str) -> None:
    """Both addresses of a floor show its stations."""
    assert 'aria-label="3, The bench, Loft"' in text_of(client, address)


def test_the_board_lists_the_same_stations(client: FlaskClient) -> None:
    """Each station of the floor is on the plan and on the board, by the same address."""
    page = text_of(client, "/kiosk/")
    assert page.count('href="/kiosk/stations/st-door"') == 2
    assert page.count('href="/kiosk/stations/st-press"') == 2


def test_a_room_comes_closer_without_script(client: FlaskClient) -> None:
    """Looking at a room shows the stretch of the drawing around it, and a way back to the whole floor."""
    page = text_of(client, "/kiosk/?floor=ground&room=shop")
    assert 'viewBox="340 -60 720 720"' in page
    assert 'data-whole="0 0 1000 600"' in page
    assert "See the whole floor" in page


def test_stairs_lead_to_the_other_floor(client: FlaskClient) -> None:
    """The foot of the stair is a link to where it goes."""
    assert 'aria-label="The stair, to the upper floor"' in text_of(client, "/kiosk/")


def test_the_way_back_waits_as_long_as_the_museum_says(app: Flask, client: FlaskClient) -> None:
    """Ninety seconds without a touch lead back to the plan, unless the home is set otherwise."""
    assert 'data-to="/kiosk/" data-after="90" data-warn="20"' in text_of(client, "/kiosk/terms/")
    app.config["KIOSK_IDLE_SECONDS"] = 240
    assert 'data-after="240"' in text_of(client, "/kiosk/terms/")


def test_the_museums_drawing_lies_in_the_page(client: FlaskClient) -> None:
    """The drawing's own lines are there, in the colour of the page, hidden from those who hear it."""
    page = text_of(client, "/kiosk/")
    assert '<g class="plan__lines" aria-hidden="true" fill="none" stroke="currentColor">' in page
    assert 'id="door-shop"' in page
