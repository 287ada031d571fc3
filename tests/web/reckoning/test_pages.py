"""The pages of the sums of the trade, without script."""

from __future__ import annotations

import pytest
from flask import Flask
from flask.testing import FlaskClient

from archive.reckoners.registry import RECKONERS, reckoner_named
from archive.web.reckoning.rooms import ROOMS, room_of
from archive.web.reckoning.sum_page import FACE
from tests.web.kiosk.reading_html import ReadPage

BASE = "http://localhost/reckoners/"
ROLL = "metal/cold-reduction?before=1.43+mm&after=0.90+mm&form=strip"


@pytest.mark.parametrize("address", ["no/such", "metal", "metal/", "metal/fineness/more", "../etc/passwd", "%00"])
def test_an_unknown_sum_is_not_found(client: FlaskClient, address: str) -> None:
    """A name that no reckoner has is answered like any page that is not there."""
    assert client.get(f"/reckoners/{address}").status_code == 404


def test_each_fault_stands_on_top_and_beside_its_field(client: FlaskClient) -> None:
    """Two bad fields are both listed on top with a link, told beside the field, and marked; what was written stays."""
    answer = client.get("/reckoners/metal/cold-reduction?before=1+kg&after=20+gauge")
    body = answer.get_data(as_text=True)
    assert answer.status_code == 400
    for key in ("before", "after"):
        assert f'href="#f-{key}"' in body
        beside = body.split(f'id="f-{key}-fault"')[1].split("</p>")[0]
        assert "“" in beside
    assert body.count('aria-invalid="true"') == 2
    assert 'value="1 kg"' in body
    assert "The answer</h2>" not in body


def test_an_unknown_field_is_told(client: FlaskClient) -> None:
    """A name that is no field is told on top, as text."""
    answer = client.get("/reckoners/output/gross?pieces=5&<b>=1")
    assert answer.status_code == 400
    assert "&lt;b&gt;: There is no such field" in answer.get_data(as_text=True)


def test_beyond_the_method_there_is_no_answer(client: FlaskClient) -> None:
    """Where the method does not reach, the page says why and shows no figure."""
    answer = client.get("/reckoners/metal/mixing?mass=100+g&now=800&wanted=900&added=850")
    assert answer.status_code == 422
    assert "can never bring" in answer.get_data(as_text=True)
    assert "The answer</h2>" not in answer.get_data(as_text=True)


def test_before_anything_is_given_nothing_is_at_fault(client: FlaskClient) -> None:
    """A page that needs figures opens with empty fields, without faults, and says where the answer will stand."""
    answer = client.get("/reckoners/output/gross")
    body = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert "Give the figures, and the answer stands here." in body
    assert "aria-invalid" not in body


@pytest.mark.parametrize("face", ["", "kiosk"])
@pytest.mark.parametrize("name", RECKONERS)
def test_every_page_is_whole(client: FlaskClient, name: str, face: str) -> None:
    """Each sum's page has one heading, a way to the plan, label and help for each input, no inline code."""
    address = f"{BASE}{name}" + (f"?face={face}" if face else "")
    answer = client.get(address)
    assert answer.status_code == 200
    body = answer.get_data(as_text=True)
    page = ReadPage(address, body)
    assert page.count("h1") == 1
    assert "http://localhost/kiosk/" in page.links()
    assert not page.inline
    assert len(page.ids()) == len(set(page.ids()))
    for item in reckoner_named(name).inputs:
        assert f'for="f-{item.key}"' in body
        assert f'id="f-{item.key}-help"' in body
    assert str(reckoner_named(name).caution) in body


def test_an_answer_is_shown_whole(client: FlaskClient) -> None:
    """Figures, sum, sources with how they were seen, and cautions."""
    answer = client.get(f"/reckoners/{ROLL}")
    body = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert "37.1 %" in body
    assert "The sum</h3>" in body
    assert '<span class="mark">' in body.split("Where the figures come from")[1]
    assert "Cautions" in body


def test_a_range_given_is_a_range_told(client: FlaskClient) -> None:
    """What is only about known comes back as a range, with the note that says how it was read."""
    body = client.get("/reckoners/output/shift-output?pieces=about+28000&hours=10+h").get_data(as_text=True)
    assert " to " in body.split('class="reckon-figures"')[1].split("</dl>")[0]
    assert "“About” is read as a tenth each way" in body


def test_a_field_given_with_its_unit_in_the_name_is_filled(client: FlaskClient) -> None:
    """`before_mm=1.43` stands in its field again, so that sending the form once more gives the same answer."""
    body = client.get("/reckoners/metal/cold-reduction?before_mm=1.43&after_mm=0.9").get_data(as_text=True)
    assert 'value="1.43 mm"' in body


def test_the_kiosk_keeps_its_face(client: FlaskClient) -> None:
    """Opened from the kiosk the page is set in its type, and form and links stay there."""
    body = client.get("/reckoners/output/gross?face=kiosk&pieces=5").get_data(as_text=True)
    assert '<body class="kiosk">' in body
    assert '<input type="hidden" name="face" value="kiosk">' in body
    assert "/reckoners/?face=kiosk" in body
    assert '<body class="kiosk">' not in client.get("/reckoners/output/gross").get_data(as_text=True)


def test_the_list_leads_to_every_sum(client: FlaskClient) -> None:
    """Every reckoner stands in the list under a room with a heading in plain words."""
    page = ReadPage(BASE, client.get("/reckoners/").get_data(as_text=True))
    paths = {link.split("?")[0] for link in page.links()}
    assert {f"{BASE}{name}" for name in RECKONERS} <= paths


def test_every_room_has_words_and_no_field_takes_the_faces_name(app: Flask) -> None:
    """Each room of the reckoners is named for people, and `face` is left for the page itself."""
    with app.test_request_context():
        assert all(str(room_of(name).heading) for name in RECKONERS)
    assert len({room.key for room in ROOMS}) == len(ROOMS)
    assert all(item.key != FACE for one in RECKONERS.values() for item in one.inputs)
