"""A tour on the floor: who may open what, what the pages tell; what is carried out of reach holds nothing closed."""

from __future__ import annotations

import datetime as dt
import io
import json
import re
from collections.abc import Iterator
from zipfile import ZipFile

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from archive.interviews.model import Clip
from archive.objects.model import Clearance
from archive.rights.decisions import Role
from archive.rights.model import Closure, Permission
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.tours.model import Stop
from archive.values.timecode import Span
from tests.conftest import TODAY, SignIn, app_of, fill, sign_in, with_accounts
from tests.house.planted import forbidden_words, write_planted_collection

TOUR = "/desk/tours/t-short"
CLIP = "/media/clips/C-1.mp3?tour=t-short&for=tour"
PAGES = (f"{TOUR}/give", f"{TOUR}/pack.json", f"{TOUR}/pack.zip", f"{TOUR}/sheet")


def packed(answer: bytes) -> dict[str, bytes]:
    """The files in a pack."""
    with ZipFile(io.BytesIO(answer)) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def get(browser: FlaskClient, address: str) -> bytes:
    """What an address answers, which must be well."""
    with browser.get(address) as answer:
        assert answer.status_code == 200, address
        return answer.get_data()


@pytest.fixture
def own_guide(home: Store) -> FlaskClient:
    """A guide's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "guide")


@pytest.fixture(scope="module")
def planted_guide(tmp_path_factory: pytest.TempPathFactory) -> Iterator[FlaskClient]:
    """A guide's browser on a home in which closed words are planted, on the tour too."""
    folder = tmp_path_factory.mktemp("planted")
    store = make_home(Settings(folder / "home", testing=True))
    fill(store, write_planted_collection(folder / "collection"))
    yield sign_in(app_of(with_accounts(store)).test_client(), "guide")
    store.close()


@pytest.mark.parametrize("address", PAGES)
def test_strangers_and_readers_are_kept_out(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers are sent to sign in, readers are refused."""
    assert client.get(address).status_code == 303
    assert as_role("reader").get(address).status_code == 403


@pytest.mark.parametrize(
    "address", ["/desk/tours/t-none/give", "/desk/tours/t-none/pack.zip", CLIP.replace("C-1", "C-9")]
)
def test_what_is_not_there_is_told_so(as_role: SignIn, address: str) -> None:
    """An unknown reference is no fault."""
    assert as_role("guide").get(address).status_code == 404


@pytest.mark.parametrize("starts", ["half ten", "24:00", "10:61", "1030", "٣:00", "-1:00"])
def test_a_start_that_is_no_time_is_refused(as_role: SignIn, starts: str) -> None:
    """The page says what a time of day looks like."""
    answer = as_role("guide").get(f"{TOUR}/sheet", query_string={"starts": starts})
    assert answer.status_code == 400
    assert "such as 10:30" in answer.get_data(as_text=True)


def test_the_sheet_tells_the_clock_when_it_knows_the_start(as_role: SignIn) -> None:
    """The press is reached two and a half minutes after the door."""
    page = get(as_role("guide"), f"{TOUR}/sheet?starts=10:58").decode()
    assert "starts at 10:58" in page
    assert re.search(r"11:00<.*?>–</span>11:05", page)
    assert re.search(r"2:30<.*?>–</span>7:00", get(as_role("guide"), f"{TOUR}/sheet").decode())


def test_the_page_has_all_that_the_floor_asks_for(as_role: SignIn) -> None:
    """Script, voice with its sound, steps and cautions, line to stand behind, standing, the way to the next stop."""
    page = get(as_role("guide"), f"{TOUR}/give").decode()
    for words in ("You are standing where the hands came in.", CLIP.replace("&", "&amp;"), "Swing the arm once.",
                  "Nobody within reach.", "1.5 m", "documented:", "Next: ", "The way here"):  # fmt: skip
        assert words in page
    plan = json.loads(re.search(r'data-plan="([^"]*)"', page)[1].replace("&#34;", '"'))  # type: ignore[index]
    assert [stop["station"] for stop in plan["stops"]] == ["st-door", "st-press", "st-bench"]
    assert plan["minutes"] == 15


def test_what_is_carried_is_what_is_heard_here(as_role: SignIn) -> None:
    """The voice in the pack is the clip's own sound at the level of its tour, byte for byte: eight seconds of MP3."""
    heard = get(as_role("guide"), CLIP)
    assert packed(get(as_role("guide"), f"{TOUR}/pack.zip"))["sounds/voice-01.mp3"] == heard
    assert 0.8 < len(heard) / (8 * 48_000 / 8) < 1.2


def test_the_list_names_what_is_there_and_its_version_follows_changes(home: Store, own_guide: FlaskClient) -> None:
    """Every file on it is there; the version stays while nothing changes and moves when the tour does."""
    first = json.loads(get(own_guide, f"{TOUR}/pack.json"))
    for address in first["files"]:
        get(own_guide, address)
    assert CLIP in first["files"]
    assert json.loads(get(own_guide, f"{TOUR}/pack.json")) == first
    with home.changing("tests") as session:
        session.execute(update(Stop).values(walk_minutes=2.0))
    assert json.loads(get(own_guide, f"{TOUR}/pack.json"))["version"] != first["version"]


def test_pages_of_the_desk_are_still_kept_by_no_cache(as_role: SignIn) -> None:
    """What may be kept is for the worker to keep, by the list; the headers say so to everyone else."""
    for address in (f"{TOUR}/give", f"{TOUR}/pack.json", f"{TOUR}/pack.zip", f"{TOUR}/sheet", "/desk/outings/token"):
        assert as_role("guide").get(address).headers["Cache-Control"] == "no-store"


def test_the_worker_is_a_script_for_the_whole_desk(client: FlaskClient) -> None:
    """Browsers ask for it without a sign-in too, and ask again each time."""
    answer = client.get("/desk/giving-worker.js")
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-cache")
    assert "javascript" in answer.mimetype


def test_a_clip_that_is_closed_goes_from_page_list_and_pack(home: Store, own_guide: FlaskClient) -> None:
    """A closure over one second of it takes the voice out everywhere at once, and its sound is not to be had."""
    before = json.loads(get(own_guide, f"{TOUR}/pack.json"))
    with home.changing("tests") as session:
        recording = session.scalars(select(Clip).where(Clip.ref == "C-1")).one().recording
        recording.closures.append(
            Closure(Span(3000, 4000), (), recording.duration_ms, reason="x", review_on=dt.date(2040, 1, 1))
        )
    after = json.loads(get(own_guide, f"{TOUR}/pack.json"))
    assert after["version"] != before["version"]
    assert not [address for address in after["files"] if "/clips/" in address]
    assert own_guide.get(CLIP).status_code == 404
    files = packed(get(own_guide, f"{TOUR}/pack.zip"))
    assert not [name for name in files if name.startswith("sounds/")]
    for told in (get(own_guide, f"{TOUR}/give"), *files.values()):
        assert b"Her first morning" not in told
        assert b"C-1" not in told


def test_nothing_carried_tells_what_is_closed(planted_guide: FlaskClient) -> None:
    """Page, sheet, list and pack of a tour on which closed voices are planted: no word, no file, no name of a file."""
    words = re.compile("|".join(map(re.escape, forbidden_words(Role.GUIDE))), re.IGNORECASE)
    listed = json.loads(get(planted_guide, f"{TOUR}/pack.json"))
    told = {address: get(planted_guide, address) for address in (*PAGES[:2], PAGES[3], *listed["files"])}
    answer = planted_guide.get(f"{TOUR}/pack.zip")
    told["headers"] = str(answer.headers).encode()
    told |= packed(answer.data)
    assert {place for place, content in told.items() if words.search(f"{place}\n{content.decode('latin-1')}")} == set()
    assert len([place for place in told if place.startswith("sounds/")]) == 1


def test_a_pack_is_the_same_bytes_on_the_same_day(as_role: SignIn) -> None:
    """It holds pages, plan, style, script and sounds, named after nothing that they tell."""
    first = get(as_role("guide"), f"{TOUR}/pack.zip")
    assert first == get(as_role("guide"), f"{TOUR}/pack.zip")
    assert list(packed(first)) == ["index.html", "plan/ground.svg", "plan/upper.svg", "script.js", "sheet.html",
                                   "sounds/voice-01.mp3", "style.css"]  # fmt: skip


def test_a_pack_points_nowhere_but_into_itself(as_role: SignIn) -> None:
    """No address of the app and no form with a token is in it."""
    files = packed(get(as_role("guide"), f"{TOUR}/pack.zip"))
    for name in ("index.html", "sheet.html"):
        page = files[name].decode()
        assert "csrf" not in page
        for address in re.findall(r'(?:src|href)="([^"#]+)"', page):
            assert address in files, address


@pytest.mark.parametrize(
    ("change", "until"),
    [(None, "2026-12-02"), ("agreement", "2026-11-28"), ("paper", "2026-11-27")],
)
def test_it_says_until_when_it_may_be_used(home: Store, own_guide: FlaskClient, change: str | None, until: str) -> None:
    """A week, or up to the day before an agreement is withdrawn, or the last day of a machine's paper."""
    with home.changing("tests") as session:
        if change == "agreement":
            mine = Permission.purpose == "tour"
            session.execute(update(Permission).where(mine).values(withdrawn_on=TODAY + dt.timedelta(days=4)))
        if change == "paper":
            # The small collection lacks two kinds of paper, so all four are given.
            machine = session.scalars(select(Clearance)).first().object_id  # type: ignore[union-attr]
            session.query(Clearance).delete()
            for place, kind in enumerate(("condition survey", "risk assessment", "operating instructions", "operator")):
                ends = TODAY + dt.timedelta(days=2 + place)
                session.add(Clearance(object_id=machine, position=place, kind=kind, dated=TODAY, runs_out=ends))
    assert json.loads(get(own_guide, f"{TOUR}/pack.json"))["until"] == until
    day = dt.date.fromisoformat(until)
    assert f"until {day.day} {day:%B %Y}" in packed(get(own_guide, f"{TOUR}/pack.zip"))["index.html"].decode()
