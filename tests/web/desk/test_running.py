"""Demonstrations at the Desk: no start without papers and confirmations, runs kept once, marked where they must be."""

from __future__ import annotations

import datetime as dt
import html
import time
from typing import Any

import pytest
from flask.testing import FlaskClient

from archive.objects.model import MachineRun
from archive.objects.running import edits, queries
from archive.objects.running.papers import Paper
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from tests.conftest import TODAY, SignIn, app_of, sign_in
from tests.small_collection import UNNAMED

START, HAND_IN = "/desk/demonstrations/dm-press/start", "/desk/runs/"
UNTIL = dt.date(2034, 1, 9)


@pytest.fixture
def cleared(home: Store) -> Store:
    """A home whose press has all four papers."""
    with home.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        for kind in ("condition survey", "operating instructions"):
            edits.add_paper(session, press, Paper(kind, "", dt.date(2024, 1, 10), UNTIL, ""))
    return home


@pytest.fixture
def guide(home: Store) -> FlaskClient:
    """A guide's browser."""
    return sign_in(app_of(home).test_client(), "guide")


def words(store: Store) -> list[str]:
    """The words of all of today's checks."""
    with store.session() as session:
        press = queries.demonstrations(session)[0]
        names = {person.id: person.ref for person in queries.people(session)}
        checks = queries.before_start(session, press, Viewer(Role.GUIDE, Purpose.TOUR, TODAY), names)
        return [check.words for check in checks.checks]


def run(confirmed: list[str], **changed: Any) -> dict[str, Any]:
    """A run as the page's script posts it."""
    return {
        "key": "0123456789abcdef",
        "machine": "SM.1",
        "demonstration": "dm-press",
        "operator": "P-5",
        "started_at": "2026-11-25T10:00:00+00:00",
        "minutes": None,
        "confirmed": confirmed,
        "faults": "",
        **changed,
    }


def post(client: FlaskClient, address: str, data: Any) -> tuple[int, dict[str, Any]]:
    """The status and the JSON of a posted run, with a fresh token."""
    token = client.get("/desk/runs/token").get_json()["token"]
    answer = client.post(address, json=data, headers={"X-CSRFToken": token})
    return answer.status_code, answer.get_json()


def kept(store: Store) -> list[MachineRun]:
    """The log of the press."""
    with store.session() as session:
        return list(queries.runs_of(session, "SM.1"))


@pytest.mark.parametrize(
    "address", ["/desk/demonstrations/", "/desk/demonstrations/dm-press", "/desk/machines/SM.1/log"]
)
def test_only_guides_and_keepers_come_in(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers sign in first, readers are refused."""
    assert client.get(address).status_code == 303
    assert as_role("reader").get(address).status_code == 403


@pytest.mark.parametrize("address", ["/desk/demonstrations/dm-x", "/desk/machines/SM.2/log", "/desk/machines/x/log"])
def test_what_is_no_demonstration_or_machine_is_not_found(as_role: SignIn, address: str) -> None:
    """A reference that is none, and an object that cannot be run."""
    assert as_role("guide").get(address).status_code == 404


def test_nothing_is_taken_without_a_token(cleared: Store, guide: FlaskClient) -> None:
    """A run from elsewhere is refused."""
    for address in (START, HAND_IN):
        assert guide.post(address, json=run(words(cleared))).status_code == 400
    assert kept(cleared) == []


@pytest.mark.parametrize("role", ["guide", "keeper"])
def test_a_machine_without_its_papers_is_not_started_by_anyone(home: Store, role: str) -> None:
    """With every check confirmed it is refused, the paper named, nothing kept; the page has no checks to confirm."""
    browser = sign_in(app_of(home).test_client(), role)
    status, answer = post(browser, START, run(words(home)))
    assert status == 409
    assert answer["lacking"][0] == "There is no condition survey in force."
    assert kept(home) == []
    page = browser.get("/desk/demonstrations/dm-press").get_data(as_text=True)
    assert "There is no condition survey in force." in page
    assert "A keeper can renew it" in page
    assert "<start-check" not in page


def test_a_check_that_is_not_confirmed_stops_the_start(cleared: Store, guide: FlaskClient) -> None:
    """It is told in its own words, and words of our own making count for nothing."""
    asked = words(cleared)
    status, answer = post(guide, START, run([*asked[1:], "All is well."]))
    assert (status, answer["lacking"]) == (409, [asked[0]])
    assert kept(cleared) == []


@pytest.mark.parametrize("changed", [{"operator": "P-1"}, {"machine": "SM.2"}, {"demonstration": "dm-x"}])
def test_another_operator_or_machine_stops_the_start(
    cleared: Store, guide: FlaskClient, changed: dict[str, str]
) -> None:
    """Who is not named for the machine, and a run of another machine."""
    status, answer = post(guide, START, run(words(cleared), **changed))
    assert status == 409
    assert len(answer["lacking"]) == 1


@pytest.mark.parametrize("data", [[], {"key": "x"}, "run"])
def test_what_is_no_run_is_refused_in_words(cleared: Store, guide: FlaskClient, data: Any) -> None:
    """At the start and when it is handed in."""
    for address in (START, HAND_IN):
        status, answer = post(guide, address, data)
        assert status == 400
        assert answer["faults"]


def test_with_all_confirmed_it_starts_and_its_end_is_written(cleared: Store, guide: FlaskClient) -> None:
    """One line of the log, with minutes and the fault, which then stands on the demonstration."""
    asked = words(cleared)
    assert post(guide, START, run(asked))[0] == 200
    ended = run(asked, minutes=4.5, faults="The stop is loose.")
    for _again in range(2):
        assert post(guide, HAND_IN, ended) == (200, {"key": "0123456789abcdef", "lapsed": []})
    assert [(row.minutes, row.faults, row.confirmed) for row in kept(cleared)] == [(4.5, "The stop is loose.", asked)]
    for address in ("/desk/demonstrations/", "/desk/demonstrations/dm-press", "/desk/demonstrations/dm-press/card"):
        assert "The stop is loose." in guide.get(address).get_data(as_text=True)


def test_a_run_without_papers_is_kept_and_marked(home: Store, guide: FlaskClient) -> None:
    """Losing its log would be worse: it is told to the guide, in the log and to the keeper."""
    status, answer = post(guide, HAND_IN, run(words(home), minutes=3.0))
    assert status == 200
    assert "There is no condition survey in force." in answer["lapsed"]
    mark = "Run without a clearance in force"
    assert mark in guide.get("/desk/machines/SM.1/log").get_data(as_text=True)
    keeper = sign_in(app_of(home).test_client(), "keeper")
    for address in ("/workroom/machines/", "/workroom/machines/SM.1"):
        assert mark in keeper.get(address).get_data(as_text=True)


def test_a_run_out_of_reach_is_judged_by_its_own_day(cleared: Store, guide: FlaskClient) -> None:
    """Papers in force today were not in force before they were dated."""
    late = run(words(cleared), minutes=3.0, started_at="2023-05-01T10:00:00+00:00")
    assert post(guide, HAND_IN, late)[1]["lapsed"]


def test_checks_that_were_not_confirmed_are_marked(cleared: Store, guide: FlaskClient) -> None:
    """A run handed in without one of them is kept, and says which."""
    asked = words(cleared)
    assert post(guide, HAND_IN, run(asked[1:], minutes=3.0))[1]["lapsed"] == [f"Not confirmed: {asked[0]}"]


def test_a_run_of_what_is_gone_is_kept(cleared: Store, guide: FlaskClient) -> None:
    """The collection may have been loaded anew since."""
    assert post(guide, HAND_IN, run([], machine="SM.77", minutes=3.0))[0] == 200
    with cleared.session() as session:
        assert queries.run_by_key(session, "0123456789abcdef") is not None


def form_of(guide: FlaskClient, **changed: str) -> dict[str, str]:
    """The form of a run written down on paper, with the page's own token and key."""
    page = guide.get("/desk/machines/SM.1/log").get_data(as_text=True)
    token, key = (page.rsplit(f'name="{name}" value="', 1)[1].split('"')[0] for name in ("csrf_token", "key"))
    good = {"demonstration": "dm-press", "operator": "P-5", "day": "2026-11-24", "time": "10:00", "minutes": "4.5"}
    return {"csrf_token": token, "key": key, **good, **changed}


@pytest.mark.parametrize(
    ("field", "value", "where"),
    [
        ("demonstration", "dm-x", "demonstration"),
        ("operator", "P-1", "operator"),
        ("day", "soon", "day"),
        ("day", "2027-01-01", "started_at"),
        ("time", "25:00", "time"),
        ("minutes", "a few", "minutes"),
        ("minutes", "-2", "minutes"),
        ("faults", "x" * 4001, "faults"),
    ],
)
def test_a_run_by_hand_with_a_fault_is_refused_beside_its_field(
    cleared: Store, guide: FlaskClient, field: str, value: str, where: str
) -> None:
    """The fault stands at the field and on top, and what was typed stays."""
    answer = guide.post("/desk/machines/SM.1/log", data=form_of(guide, **{field: value}))
    assert answer.status_code == 400
    assert f'id="{where}-fault"' in answer.get_data(as_text=True)
    assert kept(cleared) == []


def test_a_run_by_hand_is_kept_once(cleared: Store, guide: FlaskClient) -> None:
    """Sent twice it stands once; nothing is marked, since its checks were on paper."""
    form = form_of(guide, faults="A guard sticks.")
    for _again in range(2):
        assert guide.post("/desk/machines/SM.1/log", data=form).status_code == 303
    assert [(row.minutes, row.faults, row.lapsed) for row in kept(cleared)] == [(4.5, "A guard sticks.", [])]


def test_an_unnamed_operator_is_never_named(cleared: Store, guide: FlaskClient) -> None:
    """On page, card, list and log the operator goes by what they are called; in the page's data too."""
    with cleared.changing("keeper") as session:
        paper = Paper("operator", "P-2", dt.date(2024, 1, 10), UNTIL, "")
        edits.add_paper(session, queries.machine(session, "SM.1"), paper)
    asked = words(cleared)
    assert post(guide, START, run(asked, operator="P-2"))[0] == 200
    pages = ("demonstrations/", "demonstrations/dm-press", "demonstrations/dm-press/card", "machines/SM.1/log")
    for address in pages:
        page = html.unescape(guide.get(f"/desk/{address}").get_data(as_text=True))
        assert "A hand in the loft" in page
        assert not any(part in page for part in UNNAMED.split())


def test_a_start_dated_back_is_marked(cleared: Store, guide: FlaskClient) -> None:
    """Today's papers do not cover a day before they were signed, whatever the device's clock says."""
    status, _told = post(guide, START, run(words(cleared), started_at="2019-11-25T10:00:00+00:00"))
    assert status == 200
    assert "There is no condition survey in force." in kept(cleared)[0].lapsed


@pytest.mark.parametrize("moment", ["0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00"])
def test_a_moment_at_the_end_of_all_calendars_is_refused(cleared: Store, guide: FlaskClient, moment: str) -> None:
    """It is told as a fault, and nothing breaks."""
    assert post(guide, HAND_IN, run([], started_at=moment))[0] == 400


@pytest.mark.parametrize(("own_m", "larger"), [(0.1, "the map's"), (30.0, "the keeper's")])
def test_every_page_draws_the_line_where_the_start_asks_for_it(
    cleared: Store, guide: FlaskClient, own_m: float, larger: str
) -> None:
    """The larger of the keeper's own line and the map's, with the same words on card, sheet, station and telling."""
    with cleared.changing("keeper") as session:
        press = queries.demonstrations(session)[0]
        press.stand_back_m = own_m
        line = queries.line_for(session, press)
    assert larger in line.how
    said = f'<span class="figure">{line.metres:g} m</span>. {line.how}'
    pages = ("demonstrations/dm-press", "demonstrations/dm-press/card", "tours/t-short", "tours/t-short/sheet",
             "tours/t-short/give", "stations/st-press", "tellings/tl-run")  # fmt: skip
    assert [page for page in pages if said not in html.unescape(guide.get(f"/desk/{page}").text)] == []


def test_a_run_by_hand_is_timed_by_the_clock_in_the_house(
    cleared: Store, guide: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two in the morning there is the evening before in UTC; its papers are held against the day in the house."""
    monkeypatch.setenv("TZ", "XXX-5:30")
    time.tzset()
    try:
        form = form_of(guide, day="2026-11-24", time="02:00")
        assert guide.post("/desk/machines/SM.1/log", data=form).status_code == 303
        assert [row.started_at for row in kept(cleared)] == [dt.datetime(2026, 11, 23, 20, 30)]
        log = guide.get("/desk/machines/SM.1/log").text
    finally:
        monkeypatch.undo()
        time.tzset()
    assert "24 November 2026, 02:00" in log
    assert "UTC" not in log
