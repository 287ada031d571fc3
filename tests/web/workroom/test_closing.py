"""Closures in the Workroom: for a keeper alone, refused in words, kept, heard over their edges, undone."""

from __future__ import annotations

import datetime as dt
import html
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from archive.interviews.closing import masked_spans
from archive.interviews.closing_edits import close_span
from archive.interviews.copies_edits import ask_for_copies
from archive.interviews.model import Recording
from archive.interviews.renditions import servable
from archive.jobs.edits import stop
from archive.rights.model import Closure
from archive.store.session import Store
from archive.values.timecode import Span
from archive.web.workroom.closing.hearing import heard_stretch
from tests.conftest import TODAY, SignIn, app_of, sign_in
from tests.copied_homes import copied
from tests.heard import loudness
from tests.small_collection import CLOSED_WORD

PLACE = "/workroom/recordings/I-1-a/closures"
READS = ["", "/1", "/heard.webm?start=8000&end=12000&original=1"]
DEEDS = ["", "/1", "/look", "/1/lift", "/changes/1/undo", "/copies"]
Resting = tuple[Store, FlaskClient]
GIVEN = {"start": "0:00:14.000", "end": "0:15.500", "reason": "A sum of money.", "review": "2031-05-03"}


@pytest.fixture
def own_home(shared_home: Store, tmp_path: Path) -> Iterator[Store]:
    """The small collection in a home of this test's own."""
    store = copied(shared_home, tmp_path / "home")
    yield store
    store.close()


@pytest.fixture(scope="module")
def resting(shared_home: Store, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Resting]:
    """A home in which nothing may come to change, and a keeper's browser on it."""
    store = copied(shared_home, tmp_path_factory.mktemp("resting") / "home")
    yield store, sign_in(app_of(store).test_client(), "keeper")
    store.close()


@pytest.fixture
def keeper(own_home: Store) -> FlaskClient:
    """A keeper's browser on it."""
    return sign_in(app_of(own_home).test_client(), "keeper")


def send(browser: FlaskClient, deed: str, **given: str) -> Any:
    """What the page answers to one of its forms."""
    page = browser.get("/desk/out-of-use/").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    return browser.post(PLACE + deed, data={"csrf_token": token, **given})


def closures(store: Store) -> list[tuple[Any, ...]]:
    """Every closure as the database has it."""
    columns = (Closure.id, Closure.start_ms, Closure.end_ms, Closure.masked_start_ms, Closure.masked_end_ms)
    with store.session() as session:
        wanted = select(*columns, Closure.reason, Closure.review_on).order_by(Closure.id)
        return [tuple(row) for row in session.execute(wanted)]


def undo_of(page: Any) -> str:
    """The address of the first Undo on a page."""
    found = re.search(r'action="[^"]*/closures(/changes/\d+/undo)"', page.get_data(as_text=True))
    assert found
    return found[1]


def told(page: Any) -> str:
    """A page's words on one line, without its marks."""
    text = re.sub(r"<[^>]+>", "", page.get_data(as_text=True))
    return " ".join(html.unescape(text).split())


@pytest.mark.parametrize("address", READS)
def test_nobody_but_a_keeper_comes_to_the_closures(as_role: SignIn, client: FlaskClient, address: str) -> None:
    """Strangers are sent to sign in, readers and guides are refused; nobody is told a closed word, or why it is."""
    for browser, status in ((client, 303), (as_role("reader"), 403), (as_role("guide"), 403)):
        answer = browser.get(PLACE + address)
        assert answer.status_code == status
        assert CLOSED_WORD not in answer.get_data(as_text=True)
        assert "illness" not in answer.get_data(as_text=True)


def test_nobody_but_a_keeper_does_a_deed(own_home: Store) -> None:
    """A guide who sends what the forms would send is refused, and everything is closed as it was."""
    guide, before = sign_in(app_of(own_home).test_client(), "guide"), closures(own_home)
    assert {send(guide, deed, **GIVEN).status_code for deed in DEEDS} == {403}
    assert closures(own_home) == before


def test_a_form_of_another_site_closes_nothing(resting: Resting) -> None:
    """Without the page's own token nothing is done in a keeper's name."""
    store, keeper = resting
    assert keeper.post(PLACE, data=GIVEN).status_code == 400
    assert len(closures(store)) == 1


@pytest.mark.parametrize("address", ["", "/1", "/heard.mp3?start=8000&end=12000&original=1&edge=end"])
def test_what_a_keeper_sees_in_care_is_kept_by_no_cache(as_role: SignIn, address: str) -> None:
    """Neither the words nor the sound lie in a cache."""
    answer = as_role("keeper").get(PLACE + address)
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-store")


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("start", "soon", "'soon' is not a time. Write it as 0:01:02.500."),
        ("start", "", "The time is missing."),
        ("start", "0:24", "It starts after the recording ends. Give a time before 0:00:24.000."),
        ("end", "0:14", "It ends before it starts. Give a time after 0:00:14.000."),
        ("end", "0:24.001", "It ends after the recording does. Give a time up to 0:00:24.000."),
        ("reason", "  ", "The reason is missing."),
        ("reason", "x" * 2001, "The reason is too long. Up to 2000 characters."),
        ("review", "", "The day of the review is missing."),
        ("review", "soon", "'soon' is not a day. Year, month and day, like 2031-05-03."),
        ("review", TODAY.isoformat(), "The day of the review is not to come. Give a day after today."),
    ],
)
def test_what_cannot_be_closed_is_told_beside_its_field(resting: Resting, field: str, value: str, says: str) -> None:
    """Nothing is kept; the fault stands on top and beside the field, and all that was given stays in the form."""
    store, keeper = resting
    before, answer = closures(store), send(keeper, "", **{**GIVEN, field: value})
    page = html.unescape(answer.get_data(as_text=True))
    assert answer.status_code == 400
    assert page.count(says) == 2
    assert closures(store) == before
    assert f'id="{field}-fault"' in page
    kept = [given for name, given in GIVEN.items() if name != field]
    assert all(f'value="{given}"' in page or f">{given}</textarea>" in page for given in kept)


def test_what_is_closed_already_is_not_closed_twice(resting: Resting) -> None:
    """Just the same stretch is refused with the way out; of nowhere there is nothing to change, open or undo."""
    store, keeper = resting
    same = send(keeper, "", **{**GIVEN, "start": "0:08.06", "end": "0:11.95"})
    assert same.status_code == 400
    assert "Just this stretch is closed already" in told(same)
    assert [send(keeper, deed, **GIVEN).status_code for deed in ("/9", "/9/lift", "/changes/9/undo")] == [404, 404, 409]
    assert len(closures(store)) == 1


@pytest.mark.parametrize("asked", ["", "?start=9&end=9", "?start=25000&end=26000", "?start=0&end=9000&edge=middle"])
def test_only_an_edge_is_heard(as_role: SignIn, asked: str) -> None:
    """No stretch, an empty one, one beyond the end and a made-up edge are refused in words."""
    answer = as_role("keeper").get(f"{PLACE}/heard.webm{asked}")
    assert answer.status_code == 400
    assert "is no" in told(answer)


def test_looking_closes_nothing_and_tells_all(resting: Resting) -> None:
    """The guard, the lines that fall and why, clips, statements, tours and kiosk pages: before anything is kept."""
    store, keeper = resting
    before, page = closures(store), send(keeper, "/look", start="0:18.5", end="0:20")
    words = told(page)
    assert page.status_code == 200
    assert "Silent from 0:18.440 to 0:20.050: 60 ms before it, 50 ms after it." in words
    assert "2 lines · 1 clip · 1 statement · 1 tour" in words
    assert "yella. Set your own tool? Always. closed, by the guard alone" in words
    assert "Tours that lose something: A short walk." in words
    assert 'href="/kiosk/stations/st-bench"' in page.get_data(as_text=True)
    assert closures(store) == before


def test_the_guard_reaches_to_a_pause(keeper: FlaskClient, own_home: Store) -> None:
    """Where a pause is near, the look tells that the silence begins and ends there."""
    with own_home.changing("tests") as session:
        facts = {"pauses": [[13_700, 13_800], [15_700, 16_000]]}
        session.execute(update(Recording).where(Recording.ref == "I-1-a").values(facts=facts))
    words = told(send(keeper, "/look", **GIVEN))
    assert "200 ms before it, where a pause ends, 200 ms after it, where a pause begins." in words


def test_a_passage_is_closed_changed_and_opened_again(keeper: FlaskClient, own_home: Store) -> None:
    """It bites at once in words and copies; undone, each closure stands as it stood, and the copies follow."""
    visitor, before = app_of(own_home).test_client(), closures(own_home)
    captions = "/media/captions/I-1-a.vtt"
    assert CLOSED_WORD not in visitor.get(captions).get_data(as_text=True)
    opened = send(keeper, "/1/lift")
    assert opened.status_code == 303
    assert (closures(own_home), masked(own_home)) == ([], ())
    assert CLOSED_WORD in visitor.get(captions).get_data(as_text=True)
    page = keeper.get(opened.location)
    assert "It is open again." in told(page)
    undone = send(keeper, undo_of(page))
    assert closures(own_home) == before
    assert CLOSED_WORD not in visitor.get(captions).get_data(as_text=True)
    assert "The copies that readers hear are made for the closures as they are." in told(keeper.get(undone.location))
    send(keeper, "/1", **GIVEN)
    assert closures(own_home) == [
        (1, 14_000, 15_500, 13_940, 15_550, "A sum of money.", dt.date(2031, 5, 3)),
    ]
    page = keeper.get(PLACE)
    assert "from: 0:00:08.060 → 0:00:14.000; to: 0:00:11.950 → 0:00:15.500" in told(page)
    assert send(keeper, undo_of(page)).status_code == 303
    assert closures(own_home) == before


def test_a_deed_that_was_overtaken_is_not_undone(keeper: FlaskClient, own_home: Store) -> None:
    """The second change would be lost, so it is to be undone first; and the page offers no more than that."""
    send(keeper, "/1", **GIVEN)
    first = undo_of(keeper.get(PLACE))
    send(keeper, "/1", **{**GIVEN, "reason": "Another sum."})
    now = closures(own_home)
    assert send(keeper, first).status_code == 409
    assert closures(own_home) == now
    assert first not in keeper.get(PLACE).get_data(as_text=True)


def test_a_new_closure_is_silent_in_the_copy_that_is_made_for_it(keeper: FlaskClient, own_home: Store) -> None:
    """The work makes copies in which it is silent with its guard; just outside the sound is there."""
    assert send(keeper, "", **GIVEN).status_code == 303
    visitor = app_of(own_home).test_client()
    for form in ("webm", "mp3"):
        sound = visitor.get(f"/media/recordings/I-1-a.{form}").get_data()
        assert loudness(sound, 14_000, 15_500) < 1e-4
        assert min(loudness(sound, 13_500, 13_900), loudness(sound, 15_600, 16_000)) > 0.3
    assert len(masked(own_home)) == 2


def test_copies_that_are_missing_are_told_and_can_be_asked_for(keeper: FlaskClient, own_home: Store) -> None:
    """While the work is to come the page leads to it; where it was stopped, the page says so and asks anew."""
    with own_home.changing("tests") as session:
        row = session.scalars(select(Recording).where(Recording.ref == "I-1-a")).one()
        close_span(session, row, Span(1_000, 2_000), reason="x", review_on=dt.date(2031, 5, 3), on=TODAY)
        key = ask_for_copies(session, "tests")
    page = keeper.get(PLACE)
    assert "Until they are ready nobody hears this recording." in told(page)
    assert f'data-follow="/desk/jobs/{key}.json"' in page.get_data(as_text=True)
    with own_home.changing("tests") as session:
        stop(session, key)
    assert "Stopped before it began. No copy fits the closures as they are" in told(keeper.get(PLACE))
    assert send(keeper, "/copies").location == PLACE
    assert len(masked(own_home)) == 2


def test_edges_are_heard_as_readers_hear_them_and_as_they_are(as_role: SignIn) -> None:
    """Three seconds before and after, silent in between; the original has its sound, for the keeper alone."""
    heard = f"{PLACE}/heard.webm?start=14000&end=15500&edge=whole"
    silent, whole = (as_role("keeper").get(heard + more).get_data() for more in ("", "&original=1"))
    assert loudness(silent, 3_060, 4_560) < 1e-4
    assert min(loudness(silent, 1_200, 2_900), loudness(silent, 4_800, 7_400)) > 0.3
    assert loudness(whole, 3_060, 4_560) > 0.3


def test_an_edge_stays_inside_the_recording() -> None:
    """Three seconds to either side where there are that many."""
    masked = Span(1_000, 9_000)
    assert heard_stretch("start", masked, 10_000) == Span(0, 4_000)
    assert heard_stretch("end", masked, 10_000) == Span(6_000, 10_000)
    assert heard_stretch("whole", masked, 10_000) == Span(0, 10_000)


def test_a_closure_whose_day_has_come_is_told(keeper: FlaskClient, own_home: Store) -> None:
    """On the day itself it waits to be looked at; it can be changed only with a day to come."""
    with own_home.changing("tests") as session:
        session.execute(update(Closure).values(review_on=TODAY))
    assert f'href="{PLACE}#closure-1"' in keeper.get("/workroom/").get_data(as_text=True)
    words = told(keeper.get(PLACE))
    assert "1 closure waits to be looked at again." in words
    assert "To be looked at again since 25 November 2026. Open it, or change it and give a new day." in words


def test_the_recording_and_the_bench_lead_to_the_closures(as_role: SignIn) -> None:
    """And the recording's page leads to the bench."""
    keeper = as_role("keeper")
    assert f'href="{PLACE}"' in keeper.get("/workroom/recordings/I-1-a/bench").get_data(as_text=True)
    page = keeper.get("/workroom/recordings/I-1-a").get_data(as_text=True)
    assert f'href="{PLACE}"' in page
    assert 'href="/workroom/recordings/I-1-a/bench"' in page


def masked(store: Store) -> tuple[Span, ...]:
    """What is masked of the recording now; every copy that readers may have is made for just that."""
    with store.session() as session:
        row = session.scalars(select(Recording).where(Recording.ref == "I-1-a")).one()
        assert {servable(row, form).form for form in ("webm", "mp3", "waveform")} == {"webm", "mp3", "waveform"}
        return masked_spans(row)
