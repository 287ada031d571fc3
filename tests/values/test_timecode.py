"""Time codes, spans and time fragments."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.values.timecode import Span, format_clock, format_timecode, parse_media_fragment, parse_timecode


@pytest.mark.parametrize("text", ["", "7", "1:60", "1:2", "1:60:00", "-1:00", "1:00.1234", "a:bc", "1:0:0:0", "٣:0٠"])
def test_what_is_no_time_is_refused(text: str) -> None:
    """The refusal says how to write one."""
    with pytest.raises(ValueError, match="is not a time"):
        parse_timecode(text)


@pytest.mark.parametrize(
    ("text", "ms"), [("0:07", 7_000), ("12:05.5", 725_500), ("75:00", 4_500_000), ("1:02:03.004", 3_723_004)]
)
def test_times_are_read(text: str, ms: int) -> None:
    """Minutes may pass sixty when there are no hours."""
    assert parse_timecode(text) == ms


@given(st.integers(0, 359_999_999))
def test_a_written_time_is_read_back(ms: int) -> None:
    """The exact form loses nothing; the form for people loses less than a second."""
    assert parse_timecode(format_timecode(ms)) == ms
    assert 0 <= ms - parse_timecode(format_clock(ms)) < 1000


@pytest.mark.parametrize(("start", "end"), [(-1, 5), (5, 5), (6, 5)])
def test_a_span_runs_forward_from_zero(start: int, end: int) -> None:
    """Anything else is refused."""
    with pytest.raises(ValueError, match="span"):
        Span(start, end)


@pytest.mark.parametrize("text", ["", ",", "3,", "7,3", "3,3", "a", "-1", "1:3", "1:60", "0:00:60", "npt:", "3 "])
def test_fragments_that_are_invalid(text: str) -> None:
    """W3C Media Fragments URI 1.0, 4.2.1: ends after starts, two digits after minutes, nothing half-written."""
    with pytest.raises(ValueError, match="fragment|normal play time|ends before"):
        parse_media_fragment(text)


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("3,7", 3, 7),
        ("npt:3,7", 3, 7),
        (",7", 0, 7),
        ("3", 3, None),
        ("0:00:03,0:00:07", 3, 7),
        ("02:00,121.5", 120, 121.5),
        ("10.25", 10.25, None),
    ],
)
def test_fragments_that_are_valid(text: str, start: float, end: float | None) -> None:
    """The forms of the recommendation's section 4.2.1 and its published test cases TC0091 to TC0095."""
    assert parse_media_fragment(text) == (start, end)
