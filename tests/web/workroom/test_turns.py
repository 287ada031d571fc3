"""The page on which voices are told apart, heard and named."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.audio.turns import Told, Turns
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of, versions
from archive.store.session import Store
from archive.tasks import telling_apart
from archive.web.workroom.turns.views import SAID
from tests.conftest import SignIn, app_of, sign_in

REF = "I-1-a"
PLACE = f"/workroom/recordings/{REF}/turns"


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser, on a recording none of whose lines has a speaker."""
    with home.changing("keeper") as session:
        row = recording(session, REF)
        bare = [Line(line.start_ms, line.end_ms, "", "", line.text) for line in lines_of(session, row)]
        keep_lines(session, row, bare, who="keeper", said="No speakers", based_on=row.transcript_version)
    return sign_in(app_of(home).test_client(), "keeper")


@pytest.fixture
def two_voices(monkeypatch: pytest.MonkeyPatch) -> None:
    """An ear that gives every other line to the second voice, and doubts the last."""

    def ear(_sound: object, spans: list[object], **_rest: object) -> Turns:
        last = len(spans) - 1
        two = tuple(Told(at % 2, 0.0 if at == last else 0.9) for at in range(len(spans)))
        return Turns(2, {1: tuple(Told(0, 1.0) for _span in spans), 2: two})

    monkeypatch.setattr(telling_apart, "tell_apart", ear)


def text(keeper: FlaskClient, address: str = PLACE) -> str:
    """A page in one line."""
    answer = keeper.get(address)
    assert answer.status_code == 200
    return " ".join(answer.get_data(as_text=True).split())


def send(keeper: FlaskClient, address: str, **form: str) -> tuple[int, str]:
    """Send a form with the page's token; gives the status and where it leads."""
    token = text(keeper).rsplit('name="csrf_token" value="', 1)[1].split('"')[0]
    answer = keeper.post(address, data={"csrf_token": token, **form})
    return answer.status_code, answer.headers.get("Location", "")


def speakers(home: Store) -> list[str]:
    """Who speaks, line by line."""
    with home.session() as session:
        return [line.speaker or line.label for line in lines_of(session, recording(session, REF))]


def test_only_keepers_come_in(client: FlaskClient, signed_in: SignIn) -> None:
    """Strangers sign in first, guides and readers are refused."""
    assert client.get(PLACE).status_code in (302, 303)
    for who in ("guide", "reader"):
        assert signed_in(who).get(PLACE).status_code == 403


def test_without_words_there_is_nothing_to_tell(home: Store, keeper: FlaskClient) -> None:
    """The page leads to words, and asking all the same is refused."""
    with home.changing("keeper") as session:
        row = recording(session, REF)
        keep_lines(session, row, [], who="keeper", said="None", based_on=row.transcript_version)
    assert f"/workroom/recordings/{REF}/words" in text(keeper)
    assert send(keeper, PLACE)[0] == 409


def test_a_tone_is_one_voice(keeper: FlaskClient) -> None:
    """The whole way on a real sound, from the page's button to its answer."""
    assert keeper.get(send(keeper, PLACE)[1]).headers["Location"] == PLACE
    assert "1 voice</h2>" in text(keeper)


def test_voices_are_named_once_and_undone(home: Store, keeper: FlaskClient, two_voices: None) -> None:
    """Heard, named throughout as one version; a voice that nobody names keeps its lines as they are."""
    send(keeper, PLACE)
    page = text(keeper)
    assert "2 voices</h2>" in page
    assert page.count("<audio") >= 2
    assert f"/workroom/recordings/{REF}/sound#t=" in page
    assert "Line 5" in page
    assert "1 voice</h2>" in text(keeper, f"{PLACE}?voices=1")
    assert send(keeper, f"{PLACE}/names", voices="2")[0] == 400
    assert send(keeper, f"{PLACE}/names", **{"voices": "2", "who-1": "P-nobody"})[0] == 400
    assert send(keeper, f"{PLACE}/names", **{"voices": "2", "who-1": "P-3", "label-2": " A  neighbour "})[0] == 303
    assert speakers(home) == ["P-3", "A neighbour", "P-3", "A neighbour", "P-3"]
    with home.session() as session:
        assert versions(session, recording(session, REF))[0].said == SAID
    assert "The voices are named" in text(keeper, f"{PLACE}?named=yes")


def test_words_changed_since_are_not_named(home: Store, keeper: FlaskClient, two_voices: None) -> None:
    """The voices were of other lines; ask again."""
    send(keeper, PLACE)
    with home.changing("another") as session:
        row = recording(session, REF)
        keep_lines(session, row, lines_of(session, row)[1:], who="another", said="Cut", based_on=row.transcript_version)
    assert send(keeper, f"{PLACE}/names", **{"voices": "2", "who-1": "P-3"})[0] == 409
    assert set(speakers(home)) == {""}
    assert "What will be done" in text(keeper)
