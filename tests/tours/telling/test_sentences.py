"""Scripts as sentences, and their minutes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.tours.telling.naming import new_ref
from archive.tours.telling.sentences import lasting_minutes, sentences, spoken_minutes
from archive.values.identifiers import is_ref


def test_abbreviations_end_no_sentence() -> None:
    """Stamp No. 3 and Mr. Dunmore are one sentence, and so are figures with a point."""
    assert sentences("Stamp No. 3 was Mr. Dunmore's.  It fell 1.7 m.\n\nWho lifted it?") == (
        "Stamp No. 3 was Mr. Dunmore's.",
        "It fell 1.7 m.",
        "Who lifted it?",
    )


@pytest.mark.parametrize(("words", "minutes"), [(0, 0.0), (1, 0.1), (65, 0.5), (85, 0.7), (130, 1.0)])
def test_minutes_follow_from_the_words(words: int, minutes: float) -> None:
    """At 130 words a minute, to a tenth, and never none."""
    assert spoken_minutes("word " * words, 130) == minutes
    assert lasting_minutes(30_000) == 0.5


@given(st.text(max_size=400))
def test_no_word_is_lost_between_sentences(script: str) -> None:
    """All the words, in order, whatever is typed."""
    assert " ".join(sentences(script)).split() == script.split()


def test_a_taken_reference_gets_a_number() -> None:
    """Readable, and the next free one."""
    taken = {"tl-gate-brass-check", "tl-gate-brass-check-2"}
    assert new_ref("st-gate", "The brass check", taken.__contains__) == "tl-gate-brass-check-3"


@given(st.text(max_size=300))
def test_every_title_makes_a_reference(title: str) -> None:
    """Even one without a letter that we can print."""
    assert is_ref(new_ref("st-gate", title, set[str]().__contains__))
