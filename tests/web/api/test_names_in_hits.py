"""What is found, read or taken away carries no name that its narrator did not give."""

from __future__ import annotations

import json

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from archive.interviews.model import Clip, Segment
from archive.people.model import Person
from archive.search.gateway import SearchIndex
from archive.store.session import Store
from tests.conftest import app_of, sign_in


def reindexed(home: Store) -> FlaskClient:
    """A browser on the home, its index made anew."""
    index = SearchIndex(home.settings.index)
    index.rebuild(home)
    index.close()
    return app_of(home).test_client()


def test_a_clip_is_found_without_its_narrators_name(home: Store) -> None:
    """A cataloguer who writes the full name into title and summary does not give it away to the kiosk."""
    with home.changing("tests") as session:
        clip = session.scalars(select(Clip).where(Clip.ref == "C-1")).one()
        clip.title, clip.summary = "Ada Birch at the zoetrope", "Mrs Birch remembers a zoetrope."
    answer = reindexed(home).get("/api/v1/search?q=zoetrope").get_json()
    told = json.dumps(answer)
    assert [hit["title"] for hit in answer["hits"]] == ["A.B. at the zoetrope"]
    assert "Birch" not in told


@pytest.mark.parametrize(
    "address",
    ["/api/v1/search?q=zoetrope", "/api/v1/recordings/I-1-a/segments", "/api/v1/statements", "/kiosk/interviews/I-1",
     "/kiosk/voices/C-1", "/kiosk/objects/SM.1", "/media/captions/I-1-a.vtt?for=kiosk"],
)  # fmt: skip
def test_a_narrator_greeted_by_name_is_read_under_the_shown_one(home: Store, address: str) -> None:
    """Who says the name in an interview, or labels a voice with it, gives nothing away to the kiosk."""
    with home.changing("tests") as session:
        spoken = session.scalars(select(Segment).where(Segment.text.like("%fly press%"))).one()
        spoken.text = "I am with Mrs Ada Birch, BIRCH to her mates, at the zoetrope; the fly press is behind us."
        loose = session.scalars(select(Segment).where(Segment.speaker_label != "")).one()
        loose.speaker_label, loose.text = "Ada, at the door", "A zoetrope."
    told = reindexed(home).get(address).get_data(as_text=True)
    assert "birch" not in told.casefold()
    assert "Ada" not in told


def test_of_one_not_shown_by_name_the_search_tells_no_trade(home: Store) -> None:
    """A trade and a shown name together may tell who it is; neither is it found by."""
    with home.changing("tests") as session:
        session.scalars(select(Person).where(Person.ref == "P-2")).one().trade = "zoetroper"
    reader = sign_in(reindexed(home), "reader")
    assert reader.get("/api/v1/search?q=zoetroper").get_json()["total"] == 0
    hits = reader.get("/api/v1/search?q=loft&kind=person").get_json()["hits"]
    assert [(hit["title"], hit["snippet"]) for hit in hits] == [("A hand in the loft", "")]


def test_a_segments_id_does_not_count_the_closed_ones(home: Store) -> None:
    """It is named by where it begins; a running number would jump over what is closed."""
    answer = reindexed(home).get("/api/v1/search?q=yella&kind=segment").get_json()
    assert [hit["id"] for hit in answer["hits"]] == ["I-1-a@12"]


def test_one_whose_own_interview_is_closed_is_not_found_as_a_voice_in_another(home: Store) -> None:
    """The packer, not known of at the kiosk, calls out in the press hand's interview."""
    with home.changing("tests") as session:
        loose = session.scalars(select(Segment).where(Segment.speaker_label != "")).one()
        loose.speaker_id = session.scalars(select(Person.id).where(Person.ref == "P-2")).one()
    client = reindexed(home)
    assert client.get("/api/v1/search?speaker=P-2").get_json()["total"] == 0
    assert client.get("/api/v1/search?q=still+speaker:P-2").get_json()["total"] == 0
    assert client.get("/api/v1/search?q=still").get_json()["hits"][0]["speaker"] == ""
