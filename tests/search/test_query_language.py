"""What a reader may write, and that nothing a reader writes is an error."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.search.document import Document
from archive.search.gateway import SearchIndex

OPEN = frozenset({"open"})
DOCUMENTS = [
    Document(
        "segment",
        1,
        "open",
        "We set our own tools on the fly press.",
        refs={"speaker": ["P-01"], "decade": ["1950"], "station": ["st-fly"], "process": ["pr-blank"]},
        names={"speaker": ["Nella Farrant"], "station": ["Row of fly presses"], "process": ["Blanking"]},
    ),
    Document("segment", 2, "open", "The colour of the fume over the pickle was brown.", refs={"speaker": ["P-02"]}),
    Document("segment", 3, "open", "Fire-gilding left the brass grey, then gold.", refs={"decade": ["1950", "1960"]}),
    Document("object", 4, "open", "TY.1984.20 A hand press.", "Swing press"),
    Document("term", 5, "open", "swing press: a press worked by hand", "fly press", ways=("fly press", "swing press")),
    Document("term", 6, "open", "A bath of weak acid.", "pickle", ways=("pickle", "sour")),
    Document("segment", 7, "open", "Out of the sour it went, clean."),
]


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SearchIndex]:
    """A handful of documents."""
    made = SearchIndex(tmp_path_factory.mktemp("index"))
    made.rebuild_from(DOCUMENTS, stamp=lambda: "1")
    yield made
    made.close()


def _found(index: SearchIndex, text: str) -> set[int]:
    return {hit.id for hit in index.ask(text, OPEN).hits}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("tools press", {1}),
        ("tools OR fume", {1, 2}),
        ("press NOT tools", {4, 5}),
        ("(tools OR fume) AND press", {1}),
        ("NOT press", {2, 3, 6, 7}),
        ('"own tools"', {1}),
        ('"tools own"', set()),
        ('"set tools"~3', {1}),
        ("“own tools”", {1}),
        ("gild*", {3}),
        ("fum*", {2}),
        ("color", {2}),
        ("GREY", {3}),
        ("firegilding", {3}),
        ("fire-gilding", {3}),
        ("fire gilding", {3}),
        ("TY.1984.20", {4}),
        ("toools~", {1}),
        ("speaker:P-01", {1}),
        ("speaker:p-01", {1}),
        ("Speaker:Nella", {1}),
        ('speaker:"Nella Farrant"', {1}),
        ("speaker:nel*", {1}),
        ("station:presses", {1}),
        ("process:blanking", {1}),
        ("decade:1950s", {1, 3}),
        ("decade:195*", {1, 3}),
        ("kind:objects", {4}),
        ("title:press", {4, 5}),
        ("decade:1950 NOT speaker:p-01", {3}),
        ("the of and", set()),
        ("the fume", {2}),
        ('"the fume"', {2}),
    ],
)
def test_each_way_of_asking(index: SearchIndex, text: str, found: set[int]) -> None:
    """Words, phrases, beginnings, fields, AND OR NOT, brackets, near misses."""
    assert _found(index, text) == found


def test_the_thesaurus_finds_other_words_at_a_lower_weight(index: SearchIndex) -> None:
    """A word of a term finds its other words too, below its own."""
    assert [hit.id for hit in index.ask("sour", OPEN).hits][-1] == 2
    assert _found(index, "sour") == {2, 6, 7}
    assert _found(index, "pickle") == {2, 6, 7}
    assert _found(index, "fly press") == {1, 4, 5}
    assert _found(index, "swing press") == {1, 4, 5}


@pytest.mark.parametrize(
    "text",
    ["", " ", '"', '""', "(", "))((", "AND", "NOT", "OR OR", "speaker:", "*", "~", "a*", '"unclosed', "x:y", "(" * 400],
)
def test_what_makes_no_sense_is_taken_as_plain_words(index: SearchIndex, text: str) -> None:
    """Malformed questions are answered, with little or nothing."""
    assert index.ask(text, OPEN).total <= len(DOCUMENTS)


def test_a_malformed_question_still_finds_its_words(index: SearchIndex) -> None:
    """An unclosed quote or bracket does not hide the words in it."""
    assert _found(index, '"fume') == {2}
    assert _found(index, "(fume") == {2}
    assert _found(index, "fume)") == {2}
    assert _found(index, "fume AND") == {2}


@given(
    st.lists(
        st.sampled_from(
            [
                '"',
                "(",
                ")",
                "*",
                "~",
                "~2",
                ":",
                "AND",
                "OR",
                "NOT",
                "speaker:",
                "decade:",
                "press",
                "fly",
                " ",
                "-",
                "^2",
            ]
        )
        | st.text(max_size=5),
        max_size=14,
    ).map(" ".join)
    | st.text(max_size=60)
)
@settings(max_examples=150, deadline=None)
def test_no_text_is_an_error(index: SearchIndex, text: str) -> None:
    """Any text at all is answered."""
    found = index.ask(text, OPEN, facets=["kind"])
    assert 0 <= len(found.hits) <= found.total <= len(DOCUMENTS)


def test_filters_narrow_and_facets_count(index: SearchIndex) -> None:
    """Filters are any-of within a field and all-of across fields; counts are of what is left."""
    found = index.ask("", OPEN, {"decade": ["1950", "1960"]}, facets=["speaker", "decade"])
    assert {hit.id for hit in found.hits} == {1, 3}
    assert found.facets == {"speaker": {"P-01": 1}, "decade": {"1950": 2, "1960": 1}}
    assert index.ask("press", OPEN, {"kind": ["object"], "decade": ["1950"]}).total == 0


def test_pages_follow_on_one_another(index: SearchIndex) -> None:
    """The pages of an answer, laid end to end, are the whole answer."""
    whole = index.ask("press OR brass OR sour", OPEN, limit=10).hits
    assert [index.ask("press OR brass OR sour", OPEN, limit=1, offset=at).hits[0] for at in range(len(whole))] == whole
    assert index.ask("press", OPEN, limit=5, offset=50).hits == []
