"""Time fragments as they are written into addresses."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from archive.values.timecode import media_fragment, parse_media_fragment


def test_a_fragment_is_written_as_the_standard_shows_it() -> None:
    """Seconds carry no needless noughts, and the end is left out when there is none."""
    assert media_fragment(12_500, 20_000) == "t=12.5,20"
    assert media_fragment(0) == "t=0"
    assert media_fragment(600_040) == "t=600.04"


@given(st.integers(0, 10**8), st.integers(1, 10**6))
def test_what_is_written_is_read_back(start: int, length: int) -> None:
    """Every stretch survives being written into an address and read from it, to the millisecond."""
    read = parse_media_fragment(media_fragment(start, start + length).removeprefix("t="))
    assert [round(seconds * 1000) for seconds in read if seconds is not None] == [start, start + length]
