"""The bench: for keepers alone, refused in words, and every deed kept as a version; closed words leave it to nobody."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from archive.interviews.model import Recording, Tie
from archive.interviews.transcripts import queries
from archive.store.session import Store
from archive.tasks.doing import do
from archive.web.workroom.bench import deed_views
from tests.conftest import SignIn, app_of, sign_in
from tests.house.planted import IN_CARE
from tests.interviews.test_renditions import loudest, served
from tests.small_collection import CLOSED_WORD, UNNAMED

PLACE = "/workroom/recordings/I-1-a"
READS = ["/bench", "/bench/transcript.json", "/sound", "/levels.json?from=0&to=1000", "/versions/", "/versions/compare"]
DEEDS = ["lines", "merged", "replacements", "suggestions", "ties", "closures", "state"]


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "keeper")


def token_of(browser: FlaskClient) -> str:
    """The token that the bench's page gives its script."""
    return browser.get(f"{PLACE}/bench").get_data(as_text=True).split('data-token="')[1].split('"')[0]


def ask(browser: FlaskClient, deed: str, body: Any) -> Any:
    """What the bench answers to a deed."""
    return browser.post(f"{PLACE}/bench/{deed}", json=body, headers={"X-CSRFToken": token_of(browser)})


def told(browser: FlaskClient) -> Any:
    """What the bench begins with."""
    return browser.get(f"{PLACE}/bench/transcript.json").get_json()


@pytest.mark.parametrize("address", READS)
def test_nobody_but_a_keeper_comes_to_the_bench(client: FlaskClient, signed_in: SignIn, address: str) -> None:
    """Strangers are sent to sign in, readers and guides are refused; nobody is told a closed word."""
    for browser, status in ((client, 303), (signed_in("reader"), 403), (signed_in("guide"), 403)):
        answer = browser.get(PLACE + address)
        assert answer.status_code == status
        assert CLOSED_WORD not in answer.get_data(as_text=True)


@pytest.mark.parametrize("deed", DEEDS)
def test_nobody_but_a_keeper_does_a_deed(home: Store, deed: str) -> None:
    """A guide who sends what the bench would send is refused, and nothing changes."""
    guide = sign_in(app_of(home).test_client(), "guide")
    page = guide.get("/desk/out-of-use/").get_data(as_text=True)
    token = page.split('name="csrf_token"')[1].split('value="')[1].split('"')[0]
    answer = guide.post(f"{PLACE}/bench/{deed}", json={}, headers={"X-CSRFToken": token})
    assert answer.status_code == 403


def test_a_deed_without_the_pages_token_is_refused(keeper: FlaskClient) -> None:
    """Another site cannot mend in a keeper's name."""
    assert keeper.post(f"{PLACE}/bench/state", json={"checked": True}).status_code == 400


@pytest.mark.parametrize("address", [each for each in READS if each != "/versions/compare"])
def test_what_is_shown_in_care_is_kept_by_no_cache(keeper: FlaskClient, address: str) -> None:
    """Neither the words nor the sound may lie in a cache."""
    answer = keeper.get(PLACE + address)
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "no-store"


def test_every_address_that_the_walk_lets_be_is_a_keepers_alone(keeper: FlaskClient, signed_in: SignIn) -> None:
    """The walk over all addresses passes over closed words at few of them; each refuses every other role."""
    rules = [rule for rule in keeper.application.url_map.iter_rules() if rule.endpoint in IN_CARE]
    assert {rule.endpoint for rule in rules} == set(IN_CARE)
    for rule in rules:
        assert rule.methods == {"GET", "HEAD", "OPTIONS"}
        address = rule.rule.replace("<ref>", "I-1-a").replace("<int:key>", "1").replace("<int:number>", "1")
        assert address.startswith("/workroom/")
        assert {signed_in(role).get(address).status_code for role in ("reader", "guide")} == {403}


def test_a_keeper_sees_closed_words_marked_and_no_name_that_is_not_shown(keeper: FlaskClient) -> None:
    """The closed line is there with its closure; an unnamed person is called what they are called."""
    answer = keeper.get(f"{PLACE}/bench/transcript.json")
    body = answer.get_json()
    assert any(CLOSED_WORD in line[4] for line in body["lines"])
    assert [(each["start"], each["end"], each["masked"]) for each in body["closures"]] == [(8060, 11950, [8000, 12000])]
    assert UNNAMED.split()[0] not in answer.get_data(as_text=True)
    assert "A hand in the loft" in {each["name"] for each in body["people"]}


def test_the_sound_is_whole_and_by_ranges(keeper: FlaskClient, home: Store) -> None:
    """A keeper hears what is closed: the bytes are the master's, in the stretch that is asked for."""
    with home.session() as session:
        master = session.scalars(select(Recording.master_sha256).where(Recording.ref == "I-1-a")).one()
    kept = {home.files.path(master).read_bytes(), keeper.get("/workroom/recordings/I-1-a/sound").get_data()}
    answer = keeper.get(f"{PLACE}/sound", headers={"Range": "bytes=10-29"})
    assert answer.status_code == 206
    assert any(whole[10:30] == answer.get_data() for whole in kept)
    peaks = keeper.get(f"{PLACE}/levels.json?from=8500&to=9500").get_json()["peaks"]
    assert len(peaks) == 100
    assert min(peaks) > 0


@pytest.mark.parametrize(
    ("deed", "body", "says"),
    [
        ("lines", [], "no JSON object"),
        ("lines", {"version": 0}, "no list of lines"),
        ("lines", {"version": 0, "lines": [[0, 1]]}, "no line"),
        ("lines", {"version": -1, "lines": []}, "no whole number"),
        ("lines", {"version": 0, "lines": [[5, 5, "", "", "x", None, False, None]]}, "ends after it starts"),
        ("replacements", {"texts": ["a"], "find": " "}, "Give something to find"),
        ("replacements", {"texts": [1], "find": "a"}, "no list of texts"),
        ("ties", {"line": 999, "kind": "term", "ref": "t-brass"}, "no line '999'"),
        ("ties", {"line": 1, "kind": "hazard", "ref": "hz-noise"}, "is no kind"),
        ("ties", {"line": 1, "kind": "term", "ref": "t-none"}, "no term"),
        ("closures", {"start": 0, "end": 900, "reason": " ", "review": "2031-01-01"}, "no reason"),
        ("closures", {"start": 0, "end": 900, "reason": "x", "review": ""}, "no day"),
        ("closures", {"start": 0, "end": 900, "reason": "x", "review": "2020-01-01"}, "after today"),
        ("closures", {"start": 900, "end": 0, "reason": "x", "review": "2031-01-01"}, "before it starts"),
        ("closures", {"lift": 999}, "no closure"),
    ],
)
def test_what_cannot_be_is_refused_in_words(keeper: FlaskClient, deed: str, body: Any, says: str) -> None:
    """Each fault is told as a sentence, and nothing is kept."""
    before = told(keeper)
    answer = ask(keeper, deed, body)
    assert answer.status_code in {400, 404}
    assert says in answer.get_json()["says"]
    assert told(keeper) == before


def test_the_second_of_two_keepers_is_told_and_merges(keeper: FlaskClient, home: Store) -> None:
    """From the same version: the second is refused with who was first; merged, each has what only they changed."""
    base = told(keeper)["lines"]
    other = sign_in(app_of(home).test_client(), "keeper")
    theirs = [[*base[0][:4], "Theirs.", *base[0][5:]], [*base[1][:4], "Both, theirs.", *base[1][5:]], *base[2:]]
    mine = [base[0], [*base[1][:4], "Both, mine.", *base[1][5:]], [*base[2][:4], "Mine.", *base[2][5:]], *base[3:]]
    assert ask(other, "lines", {"version": 0, "lines": theirs}).get_json()["version"] == 1
    refused = ask(keeper, "lines", {"version": 0, "lines": mine})
    assert refused.status_code == 409
    assert (refused.get_json()["version"], refused.get_json()["who"]) == (1, "keeper")
    merged = ask(keeper, "merged", {"base": base, "mine": mine}).get_json()
    assert [part["from"] for part in merged["parts"]][:3] == ["theirs", "choose", "mine"]
    assert merged["parts"][1]["theirs"][0][4] == "Both, theirs."
    kept = ask(keeper, "lines", {"version": 1, "lines": [line for part in merged["parts"] for line in part["lines"]]})
    assert kept.get_json()["version"] == 2
    assert [line[4] for line in told(keeper)["lines"]][:3] == ["Theirs.", "Both, mine.", "Mine."]


def test_lines_that_are_new_get_their_segments(keeper: FlaskClient) -> None:
    """The answer gives each line's segment, in order; a line that was there keeps its own."""
    base = told(keeper)["lines"]
    first = base[0]
    split = [
        [0, 2000, *first[2:4], "Can you tell me", *first[5:]],
        [2000, 4000, *first[2:4], "about it?", None, False, -7],
    ]
    keys = ask(keeper, "lines", {"version": 0, "lines": [*split, *base[1:]]}).get_json()["keys"]
    assert keys[0] == first[7]
    assert keys[1] not in {line[7] for line in base}
    assert keys[2:] == [line[7] for line in base[1:]]


def test_a_line_is_tied_and_untied(keeper: FlaskClient, home: Store) -> None:
    """A suggestion that is accepted is a tie made by the keeper; a proposed tie is accepted; untied, it is gone."""
    body = told(keeper)
    line = body["lines"][3]
    offered = ask(keeper, "suggestions", {"text": line[4], "tied": []}).get_json()
    assert ("term", "t-brass") in {(each["kind"], each["ref"]) for each in offered}
    now = ask(keeper, "ties", {"line": line[7], "kind": "term", "ref": "t-brass"}).get_json()
    assert {"kind": "term", "ref": "t-brass", "state": "accepted"}.items() <= next(
        each.items() for each in now if each["ref"] == "t-brass"
    )
    with home.session() as session:
        made = [tie for tie in session.scalars(select(Tie).where(Tie.segment_id == line[7])) if tie.kind == "term"]
        assert [tie.made_by for tie in made] == ["keeper"]
    after = ask(keeper, "ties", {"line": line[7], "kind": "term", "ref": "t-brass", "untie": True}).get_json()
    assert "t-brass" not in {each["ref"] for each in after}


def test_a_passage_is_closed_at_once_and_opened_again(
    keeper: FlaskClient, home: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Readers lose the line and the sound the moment it is closed, and get a sound that is silent there once made.

    Opened again, the line is back at once. The wish for copies stands in the same commit, and only once.
    """
    wishes: list[str] = []
    monkeypatch.setattr(deed_views, "hand_over", lambda _store, key: wishes.append(key))
    reader = sign_in(app_of(home).test_client(), "reader")
    assert "fingers" in reader.get("/media/captions/I-1-a.vtt").get_data(as_text=True)
    closed = ask(keeper, "closures", {"start": 4000, "end": 7950, "reason": "Asked for", "review": "2031-01-01"})
    key = next(each["key"] for each in closed.get_json() if each["start"] == 4000)
    assert "fingers" not in reader.get("/media/captions/I-1-a.vtt").get_data(as_text=True)
    assert reader.get("/media/recordings/I-1-a.webm").status_code == 503
    assert reader.get("/media/waveforms/I-1-a.json").status_code == 503
    do(home, wishes[0])
    masked = served(home, "webm", "I-1-a")
    assert reader.get("/media/recordings/I-1-a.webm").get_data() == masked.read_bytes()
    assert loudest(masked, 4, 11.95) < 1e-4 < loudest(masked, 1, 3)
    ask(keeper, "closures", {"lift": key})
    assert "fingers" in reader.get("/media/captions/I-1-a.vtt").get_data(as_text=True)
    assert reader.get("/media/recordings/I-1-a.webm").status_code == 503
    ask(keeper, "closures", {"start": 20_000, "end": 21_000, "reason": "Asked for", "review": "2031-01-01"})
    assert len(set(wishes)) == 2


def test_find_and_replace_is_shown_and_not_done(keeper: FlaskClient) -> None:
    """The preview tells each line and each piece; the transcript is as it was."""
    before = told(keeper)
    texts = [line[4] for line in before["lines"]]
    shown = ask(keeper, "replacements", {"texts": texts, "find": "yella", "put": "yellow", "whole": True}).get_json()
    assert [(each["at"], each["pieces"][1]) for each in shown] == [(3, ["gone", "yella"])]
    marks = ask(keeper, "replacements", {"texts": ["He (inaudible) left"], "marks": True}).get_json()
    assert marks[0]["text"] == "He [inaudible] left"
    assert told(keeper) == before


def test_versions_are_listed_compared_and_gone_back_to(keeper: FlaskClient, home: Store) -> None:
    """Each version stands with who and what; two are compared with the words marked; going back makes a new one."""
    base = told(keeper)["lines"]
    ask(
        keeper, "lines", {"version": 0, "lines": [[*base[0][:4], "Can you tell us about it?", *base[0][5:]], *base[1:]]}
    )
    listed = keeper.get(f"{PLACE}/versions/").get_data(as_text=True)
    assert "Mended at the bench" in listed
    compared = keeper.get(f"{PLACE}/versions/compare?older=0&newer=1").get_data(as_text=True)
    assert "<del>me</del><ins>us</ins>" in compared
    sent = {"csrf_token": token_of(keeper), "now": "1"}
    assert keeper.post(f"{PLACE}/versions/0/back", data={**sent, "now": "0"}).status_code == 409
    assert keeper.post(f"{PLACE}/versions/0/back", data=sent).status_code == 303
    assert told(keeper)["lines"] == base
    with home.session() as session:
        row = queries.recording_in_care(session, _care(), "I-1-a")
        assert [each.number for each in queries.versions(session, row)] == [2, 1, 0]


def test_a_person_says_that_it_is_checked(keeper: FlaskClient) -> None:
    """The state is what the keeper says, both ways."""
    assert ask(keeper, "state", {"checked": False}).get_json()["state"] == "draft"
    assert told(keeper)["state"] == "draft"
    assert ask(keeper, "state", {"checked": True}).get_json()["state"] == "checked"


def _care() -> Any:
    from archive.rights.decisions import Purpose, Role, Viewer
    from tests.conftest import TODAY

    return Viewer(Role.KEEPER, Purpose.CARE, TODAY)
