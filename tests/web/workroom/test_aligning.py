"""The page that finds times for typed words."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.queries import lines_of
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in

PLACE = "/workroom/recordings/I-1-a/align"


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser."""
    return sign_in(app_of(home).test_client(), "keeper")


def text(keeper: FlaskClient, address: str = PLACE) -> str:
    """A page in one line."""
    answer = keeper.get(address)
    assert answer.status_code == 200
    return " ".join(answer.get_data(as_text=True).split())


def send(keeper: FlaskClient, **form: str) -> tuple[int, str]:
    """Ask for the work with the page's token; gives the status and where it leads."""
    token = text(keeper).rsplit('name="csrf_token" value="', 1)[1].split('"')[0]
    answer = keeper.post(PLACE, data={"csrf_token": token, **form})
    return answer.status_code, answer.headers.get("Location", "")


def test_only_keepers_come_in(client: FlaskClient, as_role: SignIn) -> None:
    """Strangers sign in first, guides and readers are refused."""
    assert client.get(PLACE).status_code in (302, 303)
    for who in ("guide", "reader"):
        assert as_role(who).get(PLACE).status_code == 403


def test_a_recording_that_is_not_there(keeper: FlaskClient) -> None:
    """Told as not found."""
    assert keeper.get("/workroom/recordings/I-9-z/align").status_code == 404


def test_without_words_it_leads_to_bringing_them(home: Store, keeper: FlaskClient) -> None:
    """There is no button for what cannot be done, and asking all the same is refused in words."""
    with home.changing("keeper") as session:
        row = recording(session, "I-1-a")
        keep_lines(session, row, [], who="keeper", said="None", based_on=row.transcript_version)
    page = text(keeper)
    assert "/workroom/recordings/I-1-a/words" in page
    assert "Find the times" not in page
    assert send(keeper)[0] == 409


def test_asked_done_and_looked_at(home: Store, keeper: FlaskClient) -> None:
    """The work leads back to the page, which lists what is in doubt; a tone has no words, so that is every line."""
    with home.session() as session:
        count = len(lines_of(session, recording(session, "I-1-a")))
    assert "Every line has its time" in text(keeper)
    status, job = send(keeper, anew="yes")
    assert status == 303
    done = keeper.get(job)
    assert done.status_code == 303
    assert done.headers["Location"].startswith(f"{PLACE}?done=")
    page = text(keeper, done.headers["Location"])
    assert "The times are found and kept, as version 1" in page
    assert all(f"Line {number}" in page for number in range(1, count + 1))
    assert f"<dd>{count}</dd>" in page
    assert "Find the times" in page
    assert "quatrefoil" not in page
