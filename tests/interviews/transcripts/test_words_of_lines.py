"""Marks, find and replace, comparing and suggestions: each pure, each shown before it is done."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.interviews.transcripts.comparing import compare, pieces
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.marks import in_convention, inaudible, marks_in, unclear, without_marks
from archive.interviews.transcripts.replacing import Asked, marks_brought_in, replacements
from archive.interviews.transcripts.suggesting import Known, suggestions

TEXTS = ["Tupp and tupp.", "The tup's rope.", "A tupple of beer."]
TUP = Known("object", "TY.1", "drop stamp No. 3", ("drop stamp", "stamp"))
WORD = Known("term", "t-stamp", "drop stamp", ("drop stamp",))


@pytest.mark.parametrize("find", ["", "   ", "x" * 201])
def test_nothing_to_find_is_refused(find: str) -> None:
    """An empty question, or one too long, is a fault."""
    with pytest.raises(Unacceptable, match="Give something to find"):
        replacements(TEXTS, Asked(find, "tup"))


def test_a_pattern_is_no_pattern() -> None:
    """Signs that machines read as patterns are found as they stand."""
    assert replacements(["abc"], Asked("a.c", "x", whole_words=False)) == []
    assert replacements(["a.c"], Asked("a.c", r"\1", whole_words=False))[0].text == r"\1"


def test_whole_words_keep_their_capital() -> None:
    """Only the whole word changes, each time it stands there, and a capital stays one."""
    found = replacements(TEXTS, Asked("tupp", "tup"))
    assert [(each.at, each.text) for each in found] == [(0, "Tup and tup.")]


def test_parts_of_words_are_found_when_asked() -> None:
    """Without whole words, a part counts."""
    assert [each.at for each in replacements(TEXTS, Asked("tupp", "x", whole_words=False))] == [0, 2]


@given(
    text=st.text("ab [](:)?", max_size=30), find=st.text("ab ", min_size=1, max_size=3), put=st.text("ab", max_size=3)
)
def test_the_preview_is_the_text_that_comes(text: str, find: str, put: str) -> None:
    """Same and gone pieces are the old text, same and added ones the new: the preview hides nothing."""
    if not find.strip():
        return
    for each in replacements([text], Asked(find, put, whole_words=False)):
        assert "".join(piece.text for piece in each.pieces if piece.kind != "added") == text
        assert "".join(piece.text for piece in each.pieces if piece.kind != "gone") == each.text


def test_marks_are_put_and_taken_off() -> None:
    """A stretch marked unclear stands in the convention; marked again, it stands bare."""
    marked = unclear("It was the tup rope.", 11, 14)
    assert marked == "It was the [unclear: tup] rope."
    assert unclear(marked, 22, 25) == "It was the tup rope."
    assert unclear("a  b", 1, 2) == "a  b"
    assert inaudible("He said and left.", 7) == "He said [inaudible] and left."
    assert without_marks(f"{marked} [inaudible]") == "It was the tup rope."


@pytest.mark.parametrize(
    ("typed", "comes"),
    [
        ("He (inaudible) left", "He [inaudible] left"),
        ("He [indistinct 0:12] left", "He [inaudible] left"),
        ("He [?] left", "He [inaudible] left"),
        ("The [unclear - tup?] rope", "The [unclear: tup] rope"),
        ("The (sounds like tup) rope", "The [unclear: tup] rope"),
        ("The [unclear: tup] rope [inaudible]", "The [unclear: tup] rope [inaudible]"),
        ("The (old) rope [laughs]", "The (old) rope [laughs]"),
    ],
)
def test_what_typists_write_comes_into_the_convention(typed: str, comes: str) -> None:
    """Other ways of writing the same are brought in; other brackets are left alone; twice is once."""
    told = "".join(piece.text for piece in in_convention(typed) if piece.kind != "gone")
    assert told == comes
    assert [each.text for each in marks_brought_in([typed])] == ([] if typed == comes else [comes])
    assert marks_brought_in([comes]) == []
    if "[inaudible]" in comes or "unclear" in comes:
        assert list(marks_in(comes))


WORDS = st.lists(st.sampled_from(["press", "tup", "dust,", "wages."]), max_size=8).map(" ".join)


@given(before=WORDS, after=WORDS)
def test_pieces_give_both_texts_back(before: str, after: str) -> None:
    """What is same or gone is the old text, what is same or added the new."""
    told = pieces(before, after)
    assert "".join(piece.text for piece in told if piece.kind != "added") == before
    assert "".join(piece.text for piece in told if piece.kind != "gone") == after


def test_comparing_tells_what_is_new_gone_and_changed() -> None:
    """Only lines that differ are told, in order of time."""
    one, two, three = (Line(at * 1000, at * 1000 + 900, "P-1", "", f"It was {word}") for at, word in
                       enumerate(["a fly press", "the wages of Friday", "dust everywhere"]))  # fmt: skip
    new = Line(3000, 3900, "P-1", "", "Nothing else")
    told = compare([one, two, three], [replace(one, text="It was a big fly press"), three, new])
    assert [change.kind for change in told] == ["changed", "gone", "added"]


def test_suggestions_leave_out_what_is_tied() -> None:
    """Each kind is spotted for itself; what the line is tied to already is not offered again."""
    told = suggestions("The drop stamp fell.", [TUP, WORD])
    assert [(each.known.kind, each.said) for each in told] == [("object", "drop stamp"), ("term", "drop stamp")]
    assert [each.known.kind for each in suggestions("The drop stamp fell.", [TUP, WORD], [("object", "TY.1")])] == [
        "term"
    ]
    assert suggestions("A fly press.", [TUP, WORD]) == []
