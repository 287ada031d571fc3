"""Papers of machines in the Workroom: added, renewed, corrected, withdrawn, undone; faults mended."""

from __future__ import annotations

import datetime as dt

import pytest
from flask.testing import FlaskClient

from archive.objects.running import edits, queries
from archive.objects.running.handed import HandedRun
from archive.store.session import Store
from tests.conftest import TODAY, SignIn, app_of, sign_in
from tests.small_collection import UNNAMED

PLACE = "/workroom/machines/SM.1"


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser."""
    return sign_in(app_of(home).test_client(), "keeper")


def text(keeper: FlaskClient, address: str = PLACE) -> str:
    """A page in one line, without its marks."""
    answer = keeper.get(address)
    assert answer.status_code == 200
    return " ".join(answer.get_data(as_text=True).split())


def send(keeper: FlaskClient, address: str, **form: str) -> tuple[int, str]:
    """Post a form with the token of the machine's page."""
    page = text(keeper, f"{PLACE}/papers/new")
    token = page.rsplit('name="csrf_token" value="', 1)[1].split('"')[0]
    answer = keeper.post(address, data={"csrf_token": token, **form})
    return answer.status_code, answer.get_data(as_text=True)


def survey(**changed: str) -> dict[str, str]:
    """The form of a condition survey."""
    return {
        "kind": "condition survey",
        "who": "",
        "dated": "2026-11-01",
        "runs_out": "2026-12-24",
        "note": "",
        **changed,
    }


def number_of(home: Store, kind: str) -> int:
    """The key of the press's newest paper of a kind."""
    with home.session() as session:
        return max(paper.id for paper in queries.machine(session, "SM.1").clearances if paper.kind == kind)


@pytest.mark.parametrize("address", ["/workroom/machines/", PLACE, f"{PLACE}/papers/new", f"{PLACE}/papers/1"])
def test_only_keepers_come_in(client: FlaskClient, as_role: SignIn, address: str) -> None:
    """Strangers sign in first, guides and readers are refused."""
    assert client.get(address).status_code == 303
    for role in ("guide", "reader"):
        assert as_role(role).get(address).status_code == 403


@pytest.mark.parametrize("deed", ["papers/new", "papers/1", "papers/1/withdraw", "changes/1/undo", "runs/1/mended"])
def test_no_guide_does_a_deed_here(as_role: SignIn, deed: str) -> None:
    """A guide cannot renew, undo or mend, with a token of their own."""
    guide = as_role("guide")
    token = guide.get("/desk/runs/token").get_json()["token"]
    assert guide.post(f"{PLACE}/{deed}", data={"csrf_token": token, **survey()}).status_code == 403


@pytest.mark.parametrize("address", ["/workroom/machines/SM.2", f"{PLACE}/papers/99", f"{PLACE}/papers/new?renews=99"])
def test_what_is_not_there_is_not_found(keeper: FlaskClient, address: str) -> None:
    """An object that is no machine, a paper that is none."""
    assert keeper.get(address).status_code == 404


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"runs_out": "2020-01-01"}, "runs_out"),
        ({"dated": ""}, "dated"),
        ({"kind": "operator"}, "who"),
        ({"who": "P-99"}, "who"),
    ],
)
def test_a_paper_with_a_fault_is_refused_beside_its_field(
    keeper: FlaskClient, changed: dict[str, str], field: str
) -> None:
    """The fault stands at the field, what was typed stays, and nothing is kept."""
    status, page = send(keeper, f"{PLACE}/papers/new", **survey(**{"note": "As typed.", **changed}))
    assert status == 400
    assert f'id="{field}-fault"' in page
    assert "As typed." in page
    assert "Nothing since the collection was loaded" in text(keeper)


def test_a_paper_added_runs_out_within_sixty_days(keeper: FlaskClient) -> None:
    """It stands in the list with its last day; renewed, it needs no looking after."""
    assert send(keeper, f"{PLACE}/papers/new", **survey())[0] == 303
    assert "Condition survey: 24 December 2026" in text(keeper, "/workroom/machines/")
    assert send(keeper, f"{PLACE}/papers/new", **survey(runs_out="2031-01-01"))[0] == 303
    assert "Condition survey: 24 December 2026" not in text(keeper, "/workroom/machines/")


def test_renewing_starts_from_the_older_paper_and_keeps_it(home: Store, keeper: FlaskClient) -> None:
    """Kind and note are filled in, days are not; afterwards both are there."""
    send(keeper, f"{PLACE}/papers/new", **survey(note="By the works' own engineer."))
    page = text(keeper, f"{PLACE}/papers/new?renews={number_of(home, 'condition survey')}")
    assert 'value="condition survey" selected' in page
    assert "own engineer." in page
    assert 'name="dated" type="date" value=""' in page
    send(keeper, f"{PLACE}/papers/new", **survey(runs_out="2031-01-01"))
    shown = text(keeper)
    assert "runs out on 24 December 2026" in shown
    assert "runs out on 1 January 2031" in shown


def test_corrected_withdrawn_and_undone(home: Store, keeper: FlaskClient) -> None:
    """Each deed stands in the history with who did it, and the last can be undone."""
    send(keeper, f"{PLACE}/papers/new", **survey())
    number = number_of(home, "condition survey")
    assert send(keeper, f"{PLACE}/papers/{number}", **survey(runs_out="2027-12-24"))[0] == 303
    assert "runs out: 24 December 2026 → 24 December 2027" in text(keeper)
    assert send(keeper, f"{PLACE}/papers/{number}/withdraw")[0] == 303
    page = text(keeper)
    assert "Withdrawn: condition survey" in page
    assert page.count("/undo") == 1
    newest = page.split("/changes/")[1].split("/undo")[0]
    assert send(keeper, f"{PLACE}/changes/{newest}/undo")[0] == 303
    assert "runs out on 24 December 2027" in text(keeper)
    assert send(keeper, f"{PLACE}/changes/{newest}/undo")[0] == 409


def test_a_fault_is_told_to_the_keeper_until_it_is_mended(home: Store, keeper: FlaskClient) -> None:
    """Counted in the list and on the Workroom's first page; mended with what was done, by whom; opened again."""
    run = HandedRun(
        "k" * 20, "SM.1", "dm-press", "P-5", dt.datetime(2026, 11, 24, 10), TODAY, 4.0, (), faults="Loose stop."
    )
    with home.changing("guide") as session:
        edits.take_run(session, run, None, lapsed=[])
        number = queries.runs_of(session, "SM.1")[0].id
    assert "Loose stop." in text(keeper, "/workroom/")
    assert "Loose stop." in text(keeper, "/desk/demonstrations/dm-press")
    assert send(keeper, f"{PLACE}/runs/{number}/mended", note="Tightened.")[0] == 303
    assert "Mended on 25 November 2026 by keeper. Tightened." in text(keeper)
    assert "Loose stop." not in text(keeper, "/workroom/")
    assert send(keeper, f"{PLACE}/runs/{number}/open-again")[0] == 303
    assert "Loose stop." in text(keeper, "/workroom/")


def test_an_unnamed_person_is_not_named_here_either(keeper: FlaskClient) -> None:
    """In the list of people to choose from, on the paper, and in the history."""
    send(keeper, f"{PLACE}/papers/new", **survey(kind="operator", who="P-2"))
    for address in (PLACE, f"{PLACE}/papers/new"):
        page = text(keeper, address)
        assert "A hand in the loft" in page
        assert not any(part in page for part in UNNAMED.split())
