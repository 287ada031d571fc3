"""Searching as the faces do it: what is closed leaves no trace, what is open is found."""

from __future__ import annotations

import pytest

from archive.rights.decisions import Viewer
from archive.search.asking import find, suggest
from archive.search.gateway import SearchIndex
from archive.store.session import Store
from tests.search.works import GUIDE, LATER, READER, STRANGER, UNNAMED, VISITOR

Works = tuple[Store, SearchIndex]
CLOSED_WORDS = ["quatrefoil", "tourmaline", "spelter", *UNNAMED.split()]


@pytest.mark.parametrize("viewer", [READER, VISITOR, STRANGER, GUIDE])
@pytest.mark.parametrize("word", CLOSED_WORDS)
def test_closed_words_find_nothing(works: Works, viewer: Viewer, word: str) -> None:
    """A word that only closed records hold finds nothing, counts nothing, and is suggested to nobody."""
    for text in (word, f"{word[:5]}*", f"{word}~2", f'"{word}"'):
        page = find(*works, viewer, text)
        assert (page.total, page.hits) == (0, [])
        assert word.casefold() not in page.did_you_mean
        assert not any(page.facets.values())
    assert suggest(*works, viewer, word[:4]) == []
    assert word.casefold() not in find(*works, viewer, f"{word[:-1]}x").did_you_mean


def test_a_closed_interview_changes_no_count(works: Works) -> None:
    """Three narrators speak of the foreman, one of them under embargo: two are counted."""
    page = find(*works, READER, "foreman")
    assert page.total == 2
    assert page.facets["interview"] == {"A": 1, "B": 1}
    assert page.speakers == {"P-A": "Ada Birch", "P-B": "Bryn Marlowe"}


def test_a_hit_has_all_that_a_page_needs(works: Works) -> None:
    """Title, time, speaker, marked words, and the address of the very stretch."""
    (hit,) = find(*works, READER, "counted blanks").hits
    assert (hit.kind, hit.title, hit.speaker, hit.interview) == ("segment", "Ada Birch on the work", "Ada Birch", "A")
    assert (hit.recording, hit.start, hit.end) == ("A-a", 20_000, 30_000)
    assert [hit.snippet[start:end] for start, end in hit.marks] == ["counted", "blanks"]
    assert hit.url == "/reading/interviews/A?recording=A-a&t=20#t=20,30"


@pytest.mark.parametrize(
    ("viewer", "text", "speaker", "title"),
    [
        (READER, "almonds", "Bryn Marlowe", "Bryn Marlowe on the work"),
        (STRANGER, "almonds", "B. M.", "B. M. on the work"),
        (READER, "gamboge", "A hand in the loft", "A hand in the loft"),
    ],
)
def test_names_are_those_that_the_purpose_shows(
    works: Works, viewer: Viewer, text: str, speaker: str, title: str
) -> None:
    """The same words are given under the name that the narrator allowed for each purpose."""
    (hit,) = find(*works, viewer, text).hits
    assert (hit.speaker, hit.title) == (speaker, title)


@pytest.mark.parametrize("text", ["marlowe", "speaker:marlowe", "speaker:bryn", "title:bryn", "kind:person bryn"])
def test_a_guarded_name_finds_nothing_for_anybody(works: Works, text: str) -> None:
    """Bryn gives initials on the web, so the name is in the index for no purpose; the reference is."""
    assert find(*works, READER, text).total == 0
    assert find(*works, READER, "speaker:P-B").total == 2


def test_an_interview_that_is_closed_for_one_purpose_is_open_for_another(works: Works) -> None:
    """The hand in the loft allowed research alone."""
    assert [find(*works, viewer, "gamboge").total for viewer in (READER, VISITOR, STRANGER, GUIDE)] == [1, 0, 0, 0]


def test_an_embargo_ends_on_its_day(works: Works) -> None:
    """On the day itself the interview, its narrator and what rests on it are found."""
    on_the_day = Viewer(READER.role, READER.purpose, LATER)
    assert {hit.kind for hit in find(*works, on_the_day, "tourmaline").hits} == {"segment", "statement"}
    assert {hit.kind for hit in find(*works, on_the_day, "cassia").hits} == {"person"}
    assert find(*works, READER, "cassia").total == 0


def test_every_kind_of_record_is_found(works: Works) -> None:
    """Each by its own words, with its title and address."""
    found = {
        (hit.kind, hit.id, hit.title)
        for text in ("tools", "blanking", "fingers", "blank", "women", "birch")
        for hit in find(*works, READER, text).hits
    }
    assert {
        ("clip", "C-A", "Ada Birch sets her tools"),
        ("object", "SM.1", "Fly press"),
        ("process", "pr-blank", "Blanking"),
        ("hazard", "hz-fingers", "Fingers"),
        ("term", "t-blank", "blank"),
        ("statement", "S-2", "The presses were worked by women."),
        ("person", "P-A", "Ada Birch"),
    } <= found


def test_the_thesaurus_is_that_of_the_records(works: Works) -> None:
    """A flan is a blank."""
    assert find(*works, READER, "flan", {"kind": ["segment"]}).total == 1


def test_decades_are_those_spoken_of(works: Works) -> None:
    """A period tied to a segment goes before the years of the whole interview."""
    assert find(*works, READER, "strip", {"decade": ["1950"], "kind": ["segment"]}).total == 1
    assert find(*works, READER, "strip", {"decade": ["1960"], "kind": ["segment"]}).total == 0
    assert find(*works, READER, "blanks", {"decade": ["1960"], "kind": ["segment"]}).total == 1


def test_the_answer_for_other_programs(works: Works) -> None:
    """The shape that /api/v1/search promises, times in seconds."""
    answer = find(*works, READER, "counted").as_answer()
    assert set(answer) == {"total", "took_ms", "hits"}
    assert list(answer["hits"][0]) == [
        "kind", "id", "title", "recording", "start", "end", "speaker", "snippet", "url",
    ]  # fmt: skip
    assert (answer["hits"][0]["start"], answer["hits"][0]["end"]) == (20.0, 30.0)


def test_a_role_that_may_not_ask_gets_only_what_is_open_to_all(works: Works) -> None:
    """A visitor who asks for research finds no voice."""
    asking = Viewer(VISITOR.role, READER.purpose, VISITOR.on)
    assert {hit.kind for hit in find(*works, asking, "press OR foreman OR almonds", limit=50).hits} <= {
        "object", "process", "term", "hazard", "statement",
    }  # fmt: skip
