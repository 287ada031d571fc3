"""The words around what was found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from whoosh import query

from archive.search.parsing import Wanted
from archive.search.snippets import Marker

LONG = "word " * 60 + "the fly press stood by the window " + "word " * 60


def _marker(*stems: str, beginnings: tuple[str, ...] = ()) -> Marker:
    return Marker(Wanted(query.NullQuery, frozenset(stems), beginnings))


def _marked(marker: Marker, text: str) -> list[str]:
    found = marker.snippet(text)
    return [found.text[start:end] for start, end in found.marks]


@pytest.mark.parametrize(
    ("marker", "text", "marked"),
    [
        (_marker("anneal"), "Annealing, then annealed again.", ["Annealing", "annealed"]),
        (_marker("color"), "The colour <b>of</b> the Color", ["colour", "Color"]),
        (_marker(beginnings=("poli",)), "polish and POLISHING", ["polish", "POLISHING"]),
        (_marker("firegild"), "The fire-gilding hearth", ["fire", "gilding"]),
        (_marker("press"), "Nothing here", []),
        (_marker(), "", []),
    ],
)
def test_what_was_asked_for_is_marked(marker: Marker, text: str, marked: list[str]) -> None:
    """By stem, by spelling, by beginning, and as two halves of one word."""
    assert _marked(marker, text) == marked


def test_a_short_text_is_shown_whole_and_unchanged() -> None:
    """Markup in a text stays text."""
    assert _marker("press").snippet("The <script> press & co.").text == "The <script> press & co."


def test_a_long_text_is_cut_around_the_marks_at_whole_words() -> None:
    """Dots stand where it is cut."""
    found = _marker("fly", "press").snippet(LONG, longest=100)
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
    found = _marker("press").snippet(text, longest)
    assert {found.text[start:end] for start, end in found.marks} <= {"press", "presses"}
    assert len(found.text) <= longest + 4
