"""Clips that are found carry no name that their narrator did not give."""

from __future__ import annotations

import json

from sqlalchemy import select

from archive.interviews.model import Clip
from archive.search.gateway import SearchIndex
from archive.store.session import Store
from tests.conftest import app_of


def test_a_clip_is_found_without_its_narrators_name(home: Store) -> None:
    """A cataloguer who writes the full name into title and summary does not give it away to the kiosk."""
    with home.changing("tests") as session:
        clip = session.scalars(select(Clip).where(Clip.ref == "C-1")).one()
        clip.title, clip.summary = "Ada Birch at the zoetrope", "Mrs Birch remembers a zoetrope."
    index = SearchIndex(home.settings.index)
    index.rebuild(home)
    index.close()
    answer = app_of(home).test_client().get("/api/v1/search?q=zoetrope").get_json()
    told = json.dumps(answer)
    assert [hit["title"] for hit in answer["hits"]] == ["A.B. at the zoetrope"]
    assert "Birch" not in told
