"""Recordings in the Workroom: the list, one of them, new interviews, and files sent in pieces."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from archive.interviews.intake import queries
from archive.interviews.model import Interview
from archive.interviews.queries import open_interviews
from archive.rights.decisions import AGREED, Viewer
from archive.store.session import Store
from tests.conftest import TODAY, SignIn, app_of, sign_in
from tests.interviews.intake.sounds import write
from tests.small_collection import UNNAMED

PAGE = "/workroom/upload/"


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser."""
    return sign_in(app_of(home).test_client(), "keeper")


def text(keeper: FlaskClient, address: str) -> str:
    """A page in one line, without its marks."""
    answer = keeper.get(address, follow_redirects=True)
    assert answer.status_code == 200
    return " ".join(re.sub(r"<[^>]+>", " ", answer.get_data(as_text=True)).split())


def token(keeper: FlaskClient) -> str:
    """A token of the upload page."""
    return keeper.get(PAGE).get_data(as_text=True).split('data-token="')[1].split('"')[0]


def begin(keeper: FlaskClient, **form: object) -> tuple[int, dict[str, object]]:
    """Begin an upload."""
    given = {"interview": "I-1", "name": "tape.wav", "size": 10, "csrf_token": token(keeper), **form}
    answer = keeper.post(f"{PAGE}begin", data=given)
    return answer.status_code, answer.get_json()


def put(keeper: FlaskClient, key: object, at: object, piece: bytes) -> tuple[int, dict[str, object]]:
    """Send a piece."""
    headers = {"X-CSRFToken": token(keeper)}
    answer = keeper.put(f"{PAGE}{key}/bytes?from={at}", data=piece, headers=headers)
    return answer.status_code, answer.get_json()


def sent(keeper: FlaskClient, source: Path, interview: str = "I-1") -> dict[str, object]:
    """Send a file in two pieces."""
    content = source.read_bytes()
    _status, row = begin(keeper, interview=interview, name=source.name, size=len(content))
    half = len(content) // 2
    assert put(keeper, row["key"], 0, content[:half])[1]["received"] == half
    return put(keeper, row["key"], half, content[half:])[1]


@pytest.mark.parametrize(
    "address", ["/workroom/recordings/", "/workroom/recordings/I-1-a", "/workroom/interviews/new", PAGE]
)
def test_only_keepers_come_in(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers sign in first, guides and readers are refused."""
    assert client.get(address).status_code in (302, 303)
    assert as_role("guide").get(address).status_code == as_role("reader").get(address).status_code == 403


@pytest.mark.parametrize("deed", ["begin", "plain", "x/take", "x/drop"])
def test_nothing_is_sent_without_a_token(keeper: FlaskClient, deed: str) -> None:
    """A page from elsewhere cannot send in the keeper's name."""
    assert keeper.post(PAGE + deed, data={"interview": "I-1", "name": "a", "size": "1"}).status_code == 400
    assert keeper.put(f"{PAGE}x/bytes?from=0", data=b"x").status_code == 400


@pytest.mark.parametrize(
    ("form", "status", "says"),
    [
        ({"interview": "I-9"}, 400, "There is no interview 'I-9'"),
        ({"interview": "../../x\0" + "y" * 500}, 400, "There is no interview"),
        ({"size": 0}, 400, "It is empty"),
        ({"size": "-5"}, 400, "no number of bytes"),
        ({"size": "1e9"}, 400, "no number of bytes"),
        ({"size": "9" * 17}, 400, "the disk has room for"),
    ],
)
def test_what_cannot_come_is_told(keeper: FlaskClient, form: dict[str, object], status: int, says: str) -> None:
    """In words that a script shows beside the file."""
    answered, told = begin(keeper, **form)
    assert answered == status
    assert says in str(told["says"])


@pytest.mark.parametrize(
    ("name", "kept"),
    [("../../a.wav", "a.wav"), ("a\0b.wav", "ab.wav"), ("\u202eevaw.wav", "evaw.wav"), ("n" * 300, "n" * 120)],
)
def test_hostile_names_are_made_plain_and_shown(keeper: FlaskClient, name: str, kept: str) -> None:
    """The file is called so from the first answer on."""
    status, told = begin(keeper, name=name)
    assert (status, told["name"]) == (201, kept)
    assert kept in text(keeper, PAGE)


def test_pieces_that_cannot_be_are_told(keeper: FlaskClient, home: Store) -> None:
    """A gap, a piece too large for a request, a place that is no number, an upload that is none."""
    _status, row = begin(keeper, size=5_000_000)
    assert put(keeper, row["key"], 7, b"x")[0] == 409
    assert put(keeper, row["key"], "x", b"x")[0] == 400
    assert put(keeper, "none", 0, b"x")[0] == 404
    large = keeper.put(
        f"{PAGE}{row['key']}/bytes?from=0", data=bytes((1 << 20) + 1), headers={"X-CSRFToken": token(keeper)}
    )
    assert large.status_code == 413
    assert put(keeper, row["key"], 0, bytes(1_000_000))[1]["received"] == 1_000_000


def test_a_file_in_pieces_becomes_a_recording(keeper: FlaskClient, home: Store, tmp_path: Path) -> None:
    """It stands in the list and on a page of its own, and its bytes are those that were sent."""
    source = write(tmp_path / "tape.wav", 6)
    now = sent(keeper, source)
    assert (now["state"], now["says"]) == ("taken in", "Taken in as I-1-b.")
    with home.session() as session:
        row = queries.recording(session, "I-1-b")
        assert home.files.path(row.master_sha256).read_bytes() == source.read_bytes()
    assert not list(home.settings.incoming.glob(str(now["key"])))
    assert "I-1-b I-1 0:06" in text(keeper, "/workroom/recordings/")
    page = text(keeper, "/workroom/recordings/I-1-b")
    assert all(words in page for words in ("tape.wav", "LUFS", "taken in , all well", "copy made , all well", "MP3"))
    assert "Taken in as I-1-b." in text(keeper, PAGE)


def test_after_a_new_start_of_the_server_a_file_goes_on(home: Store, tmp_path: Path) -> None:
    """What has arrived is known from the disk alone."""
    content = write(tmp_path / "tape.wav", 6).read_bytes()
    first = sign_in(app_of(home).test_client(), "keeper")
    _status, row = begin(first, size=len(content))
    put(first, row["key"], 0, content[:50_000])
    second = sign_in(app_of(home).test_client(), "keeper")
    now = second.get(f"{PAGE}{row['key']}.json").get_json()
    assert (now["state"], now["received"]) == ("arriving", 50_000)
    assert "Choose the same file again" in text(second, PAGE)
    assert put(second, row["key"], 40_000, content[40_000:])[1]["state"] == "taken in"


def test_a_twin_waits_until_the_keeper_says_what_to_do(keeper: FlaskClient, home: Store, tmp_path: Path) -> None:
    """It can be taken in for another interview all the same, or dropped."""
    source = write(tmp_path / "tape.wav", 6)
    sent(keeper, source)
    first, second = sent(keeper, source, "I-2"), sent(keeper, source, "I-2")
    assert first["state"] == second["state"] == "refused"
    assert "This very file is I-1-b already" in text(keeper, PAGE)
    assert keeper.post(f"{PAGE}{first['key']}/take", data={"csrf_token": token(keeper)}).status_code == 303
    assert keeper.post(f"{PAGE}{second['key']}/drop", data={"csrf_token": token(keeper)}).status_code == 303
    with home.session() as session:
        assert {row.ref for row in queries.recordings(session)} >= {"I-1-b", "I-2-b"}
        assert [row.state for row in queries.ended_uploads(session)] == ["dropped", "taken in", "taken in"]
    assert [path.name for path in home.settings.incoming.iterdir()] == ["making"]
    assert keeper.post(f"{PAGE}{first['key']}/drop", data={"csrf_token": token(keeper)}).status_code == 409


def test_a_small_file_is_sent_without_scripts(keeper: FlaskClient, tmp_path: Path) -> None:
    """The form itself sends it, and leads to the work; one that is no sound is told on the page and kept."""
    for name, says in (("tape.wav", "I-1-b"), ("notes.wav", "it is text, not sound")):
        place = tmp_path / name
        write(place, 6) if says == "I-1-b" else place.write_text("Dear Sir")
        with place.open("rb") as file:
            form = {"csrf_token": token(keeper), "interview": "I-1", "file": (file, name)}
            answer = keeper.post(f"{PAGE}plain", data=form, follow_redirects=True)
        assert answer.status_code == 200
        assert says in answer.get_data(as_text=True)


def test_a_form_without_a_file_is_told(keeper: FlaskClient) -> None:
    """As an empty file is."""
    answer = keeper.post(f"{PAGE}plain", data={"csrf_token": token(keeper), "interview": "I-1"})
    assert answer.status_code == 400
    assert "it is empty" in answer.get_data(as_text=True)


def test_strangers_in_the_inbox_are_told(keeper: FlaskClient, home: Store) -> None:
    """With what to do."""
    (home.settings.inbox / "Tapes").mkdir(parents=True)
    assert "Tapes/ : There is no such interview. Make it, or rename the folder." in text(keeper, PAGE)


@pytest.mark.parametrize(
    ("query", "refs"),
    [
        ("", ["I-1-a", "I-2-a"]),
        ("?falling=1", ["I-2-a", "I-1-a"]),
        ("?interview=I-2", ["I-2-a"]),
        ("?only=closures", ["I-1-a"]),
        ("?only=damaged", []),
        ("?words=draft", []),
        ("?sort=length&falling=x", ["I-1-a", "I-2-a"]),
        ("?sort=%00&words=<b>&only=x&interview=", ["I-1-a", "I-2-a"]),
    ],
)
def test_the_list_is_sorted_and_sifted(as_role: SignIn, query: str, refs: list[str]) -> None:
    """By what the address asks; what is no choice is passed over."""
    page = as_role("keeper").get(f"/workroom/recordings/{query}").get_data(as_text=True)
    assert re.findall(r'/workroom/recordings/([^"/?]+)"', page) == refs
    assert UNNAMED not in page


def test_a_recording_that_is_none_is_told_as_such(as_role: SignIn) -> None:
    """Like every page that is not there."""
    assert as_role("keeper").get("/workroom/recordings/I-77-a").status_code == 404


def test_what_came_in_a_folder_can_be_measured(keeper: FlaskClient, home: Store) -> None:
    """Its page offers it, and then tells what was found."""
    place = "/workroom/recordings/I-1-a"
    assert "Measure it" in text(keeper, place)
    answer = keeper.post(f"{place}/measure", data={"csrf_token": token(keeper)}, follow_redirects=True)
    assert answer.request.path == place
    assert "Measure it" not in text(keeper, place)
    assert "LUFS" in text(keeper, place)
    assert keeper.post("/workroom/recordings/I-77/measure", data={"csrf_token": token(keeper)}).status_code == 404


def test_an_interview_with_faults_is_not_made(keeper: FlaskClient, home: Store) -> None:
    """Every fault is told at its field, and what was given stands there still."""
    form = {
        "csrf_token": token(keeper),
        "title": "",
        "ref": "I-1",
        "held": "last spring",
        "language": "English!",
        "narrators": ["P-99"],
        "allowed": ["research", "gossip"],
        "signed": "2026-02-31",
        "name_form": "none",
    }
    answer = keeper.post("/workroom/interviews/new", data=form)
    page = answer.get_data(as_text=True)
    assert answer.status_code == 400
    for field in ("title", "ref", "held", "language", "narrators", "allowed", "signed", "name_form"):
        assert f'id="{field}-fault"' in page, field
    assert "last spring" in page
    with home.session() as session:
        assert queries.interview_refs(session) == ["I-1", "I-2"]


def test_a_new_interview_is_closed_but_for_what_was_ticked(keeper: FlaskClient, home: Store) -> None:
    """It gets the next references, and leads on to where its recordings are sent."""
    form = {
        "csrf_token": token(keeper),
        "title": "At the presses",
        "held": "1987-03",
        "new_narrator": "Dora Vane",
        "signed": "1987-04-01",
        "allowed": ["research"],
    }
    answer = keeper.post("/workroom/interviews/new", data=form)
    assert answer.status_code == 303
    assert answer.location == "/workroom/upload/?interview=I-03"
    with home.session() as session:
        row = queries.interview(session, "I-03")
        assert [(person.name, person.initials, person.roles) for person in row.narrators] == [
            ("Dora Vane", "D. V.", ["narrator"])
        ]
        for purpose in AGREED:
            open_now = session.scalars(open_interviews(Viewer("keeper", purpose, TODAY)).where(Interview.ref == "I-03"))
            assert (open_now.first() is not None) == (purpose == "research")


def test_a_recordings_page_leads_to_the_work_on_it(as_role: SignIn) -> None:
    """To its words and to their times; and both pages are there."""
    keeper = as_role("keeper")
    page = keeper.get("/workroom/recordings/I-1-a").get_data(as_text=True)
    for work in ("words", "align"):
        address = f"/workroom/recordings/I-1-a/{work}"
        assert f'href="{address}"' in page
        assert keeper.get(address).status_code == 200
