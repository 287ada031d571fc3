"""The map of noise, for guides."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from tests.conftest import SignIn

PART = "/desk/noise/part?asked=1&floor=ground"


def text_of(client: FlaskClient, address: str) -> str:
    """The page's text."""
    answer = client.get(address)
    assert answer.status_code == 200, answer.get_data(as_text=True)[:500]
    return answer.get_data(as_text=True)


def said(page: str) -> str:
    """The sentence that is read out."""
    return " ".join(re.sub("<[^>]+>", " ", page.split("data-said>")[1].split("</p>")[0]).split())


def test_only_guides_and_keepers_see_it(client: FlaskClient, signed_in: SignIn) -> None:
    """A visitor is sent to sign in, a reader is refused."""
    assert client.get("/desk/noise/").status_code in (302, 303, 401)
    assert signed_in("reader").get("/desk/noise/").status_code == 403
    assert signed_in("keeper").get("/desk/noise/").status_code == 200


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ("floor=attic", 404),
        ("stand_back=40", 400),
        ("stand_back=loud", 400),
        ("shut=-3", 400),
        ("other=nowhere", 400),
        ("other=st-press&other_db=999", 400),
        ("x=1e9&y=4", 400),
    ],
)
def test_what_cannot_be_is_refused(signed_in: SignIn, asked: str, status: int) -> None:
    """A floor or station that is not there, and figures that are none or beyond what is worked out."""
    guide = signed_in("guide")
    assert guide.get(f"/desk/noise/?{asked}").status_code == status
    assert guide.get(f"/desk/noise/part?{asked}").status_code == status


def test_a_machine_that_runs_is_heard_and_one_that_does_not_is_not(signed_in: SignIn) -> None:
    """78 dB at 2 m is the press; with no machine running no station has a level."""
    guide = signed_in("guide")
    assert "dB(A)</td>" in text_of(guide, f"{PART}&run=SM.1&open=d-shop").replace(" ", "").replace("\n", "")
    still = text_of(guide, PART)
    assert "noise-band" not in still
    assert still.count("nothing of the machines") == 2


def test_a_shut_door_makes_the_next_room_quieter(signed_in: SignIn) -> None:
    """The level at the front door of the hall falls when the shop's door is shut."""
    guide = signed_in("guide")
    levels = []
    for doors in ("&open=d-shop", ""):
        found = re.search(r"(\d+) dB", said(text_of(guide, f"{PART}&run=SM.1&at=st-door{doors}")))
        assert found
        levels.append(int(found[1]))
    assert levels[0] - levels[1] > 10


def test_the_page_works_without_script(signed_in: SignIn) -> None:
    """Machines are boxes in a form, stations are links that ask the same again and read the level there."""
    page = text_of(signed_in("guide"), "/desk/noise/?asked=1&floor=ground&run=SM.1&open=d-shop&at=st-press")
    assert 'name="run" value="SM.1" checked' in page
    assert said(page).startswith("Station 2, The press:")
    link = re.search(r'href="([^"]*at=st-door[^"]*)"', page)
    assert link
    again = text_of(signed_in("guide"), link[1].replace("&amp;", "&"))
    assert said(again).startswith("Station 1, The door:")
    assert 'name="run" value="SM.1" checked' in again


def test_any_spot_can_be_read(signed_in: SignIn) -> None:
    """A spot in a room is told by its room, one in no room is told as such."""
    guide = signed_in("guide")
    assert said(text_of(guide, f"{PART}&run=SM.1&x=700&y=300")).startswith("In the press shop:")
    assert said(text_of(guide, f"{PART}&run=SM.1&x=99999&y=300")) == "That spot is in no room."


def test_another_noise_may_be_put_at_any_station(signed_in: SignIn) -> None:
    """A level as somebody recalls it, one metre from a station without a demonstration."""
    page = text_of(signed_in("guide"), "/desk/noise/part?asked=1&floor=upper&other=st-bench&other_db=95&at=st-bench")
    level = re.search(r"(\d+) dB", said(page))
    assert level
    assert int(level[1]) >= 95


def test_the_model_its_limits_and_the_caution_are_told(signed_in: SignIn) -> None:
    """How it is worked out, what is left out, where it holds, what is assumed, the sources, the caution."""
    page = text_of(signed_in("guide"), "/desk/noise/")
    for words in (
        "How it is worked out", "What it leaves out", "Where it holds", "are assumed", "Bies", "for explanation",
        "noise assessment",
    ):  # fmt: skip
        assert words in page


def test_bands_differ_by_more_than_colour(demo_signed_in: SignIn) -> None:
    """From 85 dB up bands are hatched, lines carry their figures, and each room its level in words."""
    part = text_of(demo_signed_in("guide"), "/desk/noise/part?floor=ground")
    tree = ElementTree.fromstring(part[part.index("<svg>") : part.index("</svg>") + 6])
    hatched = [path.get("fill") for path in tree.iter("path") if (path.get("fill") or "").startswith("url(#hatch")]
    assert hatched
    figures = {text.text for text in tree.iter("text")}
    assert "85" in figures
    assert any((text or "").endswith("dB(A)") for text in figures)
    assert "style=" not in part


def test_a_machine_that_is_not_cleared_is_off_and_says_so(demo_signed_in: SignIn) -> None:
    """The clipping press, whose risk assessment ran out, does not run as the page opens."""
    page = text_of(demo_signed_in("guide"), "/desk/noise/")
    assert 'value="TY.1984.14">' in page
    assert 'value="TY.1984.12" checked>' in page
    assert "Not cleared to run today." in page
