"""The words around what was found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from whoosh import query

from archive.search.parsing import Wanted
from archive.search.snippets import LONGEST, Marker, Snippet

LONG = "word " * 60 + "the fly press stood by the window " + "word " * 60


def _wanted(*stems: str, beginnings: tuple[str, ...] = ()) -> Wanted:
    return Wanted(query.NullQuery, frozenset(stems), beginnings)


def _snippet(wanted: Wanted, text: str, longest: int = LONGEST) -> Snippet:
    return Marker(wanted, [text]).snippet(text, longest)


def _marked(wanted: Wanted, text: str) -> list[str]:
    found = _snippet(wanted, text)
    return [found.text[start:end] for start, end in found.marks]


@pytest.mark.parametrize(
    ("wanted", "text", "marked"),
    [
        (_wanted("anneal"), "Annealing, then annealed again.", ["Annealing", "annealed"]),
        (_wanted("color"), "The colour <b>of</b> the Color", ["colour", "Color"]),
        (_wanted(beginnings=("poli",)), "polish and POLISHING", ["polish", "POLISHING"]),
        (_wanted("firegild"), "The fire-gilding hearth", ["fire", "gilding"]),
        (_wanted("press"), "Nothing here", []),
        (_wanted(), "", []),
    ],
)
def test_what_was_asked_for_is_marked(wanted: Wanted, text: str, marked: list[str]) -> None:
    """By stem, by spelling, by beginning, and as two halves of one word."""
    assert _marked(wanted, text) == marked


def test_a_short_text_is_shown_whole_and_unchanged() -> None:
    """Markup in a text stays text."""
    assert _snippet(_wanted("press"), "The <script> press & co.").text == "The <script> press & co."


def test_a_long_text_is_cut_around_the_marks_at_whole_words() -> None:
    """Dots stand where it is cut."""
    found = _snippet(_wanted("fly", "press"), LONG, longest=100)
    assert found.text.startswith("… word ")
    assert found.text.endswith(" …")
    assert [found.text[start:end] for start, end in found.marks] == ["fly", "press"]
    assert set(found.text.strip("… ").split()) <= set(LONG.split())


@given(
    st.lists(st.sampled_from(["press", "presses", "fly", "x" * 300, "a", "\n", "…"]), max_size=80).map(" ".join),
    st.integers(80, 300),
)
def test_marks_always_lie_on_the_words(text: str, longest: int) -> None:
    """Wherever it is cut, a mark covers a word that was asked for."""
    found = _snippet(_wanted("press"), text, longest)
    assert {found.text[start:end] for start, end in found.marks} <= {"press", "presses"}
    assert len(found.text) <= longest + 4
