"""A draft's lines, kept clear of what is closed."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from archive.audio.drafting.model import DraftLine
from archive.interviews.drafted import NEAR_MS, lines_of_draft
from archive.values.timecode import Span


def test_a_line_keeps_its_times_and_its_doubt() -> None:
    """No speaker is known of it."""
    (line,) = lines_of_draft([DraftLine(1_000, 2_000, "We cut it.", 0.9)], [])
    assert line.row == [1_000, 2_000, "", "", "We cut it.", 0.9, False]


@given(st.integers(0, 30_000), st.integers(1, 9_000))
def test_what_may_be_said_in_a_closure_lies_in_it(start: int, length: int) -> None:
    """A line nearer to a closure than a model's times are sure overlaps it, and waits for a person."""
    closed = Span(10_000, 12_000)
    drafted = DraftLine(start, start + length, "Said.", 0.9)
    (line,) = lines_of_draft([drafted], [closed])
    near = start < closed.end_ms + NEAR_MS and start + length > closed.start_ms - NEAR_MS
    assert Span(line.start_ms, line.end_ms).overlaps(closed) == near
    assert line.doubtful == (drafted.doubtful or (near and not Span(start, start + length).overlaps(closed)))
    assert line.start_ms <= start < start + length <= line.end_ms
