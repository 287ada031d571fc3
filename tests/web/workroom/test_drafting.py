"""The page on which a draft is asked for, and the word that a person has checked it."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.audio.drafting import speech_model
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import keep_lines
from archive.store.session import Store
from archive.tasks import drafting
from tests.audio.drafting.test_drafting import a_model
from tests.conftest import SignIn, app_of, sign_in
from tests.tasks.test_drafting import an_ear

PLACE = "/workroom/recordings/I-1-a"


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser."""
    return sign_in(app_of(home).test_client(), "keeper")


def text(keeper: FlaskClient, address: str) -> str:
    """A page in one line."""
    answer = keeper.get(address)
    assert answer.status_code == 200
    return " ".join(answer.get_data(as_text=True).split())


def send(keeper: FlaskClient, place: str, **form: str) -> tuple[int, str]:
    """Send a form with the page's token; gives the status and where it leads."""
    token = text(keeper, "/workroom/").rsplit('name="csrf_token" value="', 1)[1].split('"')[0]
    answer = keeper.post(f"{PLACE}/{place}", data={"csrf_token": token, **form})
    return answer.status_code, answer.headers.get("Location", "")


def test_only_keepers_come_in(client: FlaskClient, signed_in: SignIn) -> None:
    """Strangers sign in first, guides and readers are refused."""
    assert client.get(f"{PLACE}/draft").status_code in (302, 303)
    for who in ("guide", "reader"):
        assert signed_in(who).get(f"{PLACE}/draft").status_code == 403


def test_without_a_model_the_page_says_what_is_missing(
    home: Store, keeper: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """How to add it, and no button for what cannot be done; asked all the same, it is refused."""
    page = text(keeper, f"{PLACE}/draft")
    assert str(home.settings.speech_model) in page
    assert "LEMEL_SPEECH_MODEL" in page
    assert "Make a draft" not in page
    (a_model(home.settings.speech_model) / "tokenizer.json").unlink()
    monkeypatch.setattr(speech_model, "PACKAGES", ("no_such_package",))
    page = text(keeper, f"{PLACE}/draft")
    assert "lemel[draft]" in page
    assert "It lacks: tokenizer.json" in page
    assert send(keeper, "draft")[0] >= 400


def test_a_draft_is_made_and_then_checked(home: Store, keeper: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """Checked words are replaced only with leave; what is made is told, marked, and unmarked by a person."""
    a_model(home.settings.speech_model)
    monkeypatch.setattr(speech_model, "PACKAGES", ("numpy",))
    monkeypatch.setattr(drafting, "recogniser_of", an_ear)
    assert "that a person has checked" in text(keeper, f"{PLACE}/draft")
    assert send(keeper, "draft")[0] == 409
    status, job = send(keeper, "draft", over="yes", terms="yes")
    assert status == 303
    done = keeper.get(job).headers["Location"]
    assert "The draft is made and kept, as version 1" in text(keeper, done)
    assert "Its words are a draft" in text(keeper, PLACE)
    assert send(keeper, "checked", checked="yes") == (303, PLACE)
    assert "Its words are a draft" not in text(keeper, PLACE)


def test_what_has_no_words_cannot_be_checked(home: Store, keeper: FlaskClient) -> None:
    """Told in words."""
    with home.changing("keeper") as session:
        row = recording(session, "I-1-a")
        keep_lines(session, row, [], who="keeper", said="None", based_on=row.transcript_version)
        row.transcript_state = "none"
    assert send(keeper, "checked", checked="yes")[0] == 409
