"""Lines given times: their own, or a place in proportion to their words; nothing closed slips out by a guess."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.exchange.typed.model import TypedLine
from archive.exchange.typed.placing import place
from archive.interviews.transcripts.lines import faults_of
from archive.values.timecode import Span


def typed(text: str, start: int | None = None, end: int | None = None) -> TypedLine:
    """A line by Ada."""
    return TypedLine(start, end, "ADA", text)


def test_more_lines_than_milliseconds_are_refused() -> None:
    """They can have no place."""
    with pytest.raises(Unacceptable, match="it has 5 lines"):
        place([typed("x")] * 5, 4)


def test_times_of_their_own_are_kept_and_sure() -> None:
    """A line ends where it says, else where the next begins, the last with the recording."""
    lines = place([typed("a", 0, 900), typed("b", 1_000), typed("c", 4_000)], 10_000)
    assert [(line.start_ms, line.end_ms, line.doubtful, line.confidence) for line in lines] == [
        (0, 900, False, None),
        (1_000, 4_000, False, None),
        (4_000, 10_000, False, None),
    ]


def test_guessed_places_go_by_words_and_are_doubtful() -> None:
    """Between the times that are known, with no confidence."""
    lines = place([typed("one"), typed("one two three four five"), typed("six", 8_000)], 10_000)
    assert [(line.start_ms, line.end_ms) for line in lines] == [(0, 2_000), (2_000, 8_000), (8_000, 10_000)]
    assert [(line.doubtful, line.confidence) for line in lines] == [(True, 0.0), (True, 0.0), (False, None)]


def test_a_typed_time_stands_though_the_lines_after_it_have_none() -> None:
    """Of a run, the first starts when the typist says; where it ends, and where the others lie, is a guess."""
    lines = place([typed("one", 2_000), typed("one two three"), typed("four", 8_000)], 10_000)
    assert [(line.start_ms, line.doubtful, line.confidence) for line in lines] == [
        (2_000, False, 0.0),
        (4_000, True, 0.0),
        (8_000, False, None),
    ]


def test_two_voices_of_one_caption_share_its_time() -> None:
    """They lie within it, and never beyond the start of the next."""
    lines = place([typed("a", 0, 2_000), typed("b", 0, 2_000), typed("c", 9_000)], 10_000)
    assert [(line.start_ms, line.end_ms) for line in lines] == [(0, 1_000), (1_000, 2_000), (9_000, 10_000)]
    assert place([typed("a", None, 9), typed("b", None, 9), typed("c", 4)], 40)[1].end_ms == 4


def test_a_guess_near_a_closure_covers_all_of_where_it_may_lie() -> None:
    """So the words overlap the closure, and stay hidden; lines elsewhere are not touched."""
    lines = [typed("a"), typed("b"), typed("c", 8_000), typed("d", 12_000), typed("e")]
    placed = place(lines, 20_000, closed=[Span(2_000, 3_000)])
    assert [(line.start_ms, line.end_ms) for line in placed[:2]] == [(0, 8_000), (0, 8_000)]
    assert placed[3].start_ms < placed[4].start_ms


def test_labels_stand_for_people() -> None:
    """Where one is known; else the label stays as it was written."""
    known, unknown = place([typed("a"), TypedLine(None, None, "Somebody", "b")], 1_000, people={"ADA": "P-1"})
    assert (known.speaker, known.label, unknown.speaker, unknown.label) == ("P-1", "", "", "Somebody")


_TIMES = st.none() | st.integers(0, 60_000)
_LINES = st.lists(st.tuples(_TIMES, _TIMES, st.text("ab ", min_size=1, max_size=40)), max_size=30)
_CLOSED = st.lists(st.tuples(st.integers(0, 50_000), st.integers(1, 9_000)), max_size=3)


@given(given_lines=_LINES, duration=st.integers(40, 60_000), closures=_CLOSED)
def test_any_lines_are_placed_so_that_they_can_be_kept(
    given_lines: list[tuple[int | None, int | None, str]], duration: int, closures: list[tuple[int, int]]
) -> None:
    """In order, inside the recording, each with a length; none that is guessed where a closure may be is outside it."""
    lines = [typed(text, start, None if end is None else min(end, duration)) for start, end, text in given_lines]
    closed = [Span(start, start + length) for start, length in closures]
    placed = place(lines, duration, closed=closed)
    assert [line.text for line in placed] == [line.text for line in lines]
    assert list(faults_of(placed, duration, frozenset())) == []
