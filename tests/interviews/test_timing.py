"""Which lines want a time, and the lines once times were found."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from archive.audio.aligning.model import AlignedLine, Alignment, GivenLine
from archive.interviews.timing import is_guessed, wanting, with_times
from archive.interviews.transcripts.lines import Line, faults_of
from archive.values.timecode import Span

LENGTH_MS = 60_000
BY_HAND = Line(1_000, 2_000, "", "", "first")
GUESSED = Line(2_000, 9_000, "", "A", "second", 0.0, True)
POOR = Line(9_000, 12_000, "", "A", "third", 0.3, True)
SURE = Line(20_000, 22_000, "", "A", "fourth", 0.9, False)
LINES = [BY_HAND, GUESSED, POOR, SURE]


def found(*confidences: float) -> Alignment:
    """Lines ten seconds apart, as sure as this."""
    return Alignment(
        [AlignedLine(at * 10_000 + 500, at * 10_000 + 4_000, sure, sure < 0.5) for at, sure in enumerate(confidences)]
    )


def test_what_is_sure_keeps_its_time() -> None:
    """Lines timed by a person or found before are anchors, guesses and doubts are looked for; anew, all are."""
    assert [line.start_ms for line in wanting(LINES)] == [1_000, None, None, 20_000]
    assert all(line.start_ms is None for line in wanting(LINES, anew=True))
    assert [is_guessed(line) for line in LINES] == [False, True, False, False]


def test_times_are_put_where_they_were_wanted() -> None:
    """A line that had its time is as it was; the others get time, confidence and mark."""
    lines = with_times(LINES, wanting(LINES), found(0.2, 0.8, 1.0, 0.1), [], LENGTH_MS)
    assert lines[0] == BY_HAND
    assert lines[3].said == SURE.said
    assert lines[3].confidence == 0.9
    assert (lines[1].start_ms, lines[1].end_ms, lines[1].confidence, lines[1].doubtful) == (10_500, 14_000, 0.8, False)
    assert (lines[2].start_ms, lines[3].start_ms) == (20_500, 20_500)


def test_a_typed_time_is_no_doubt() -> None:
    """A line that a typist timed, guessed as a whole before, is a person's once it is aligned."""
    typed = [GivenLine("second", 3_000)]
    (line,) = with_times([GUESSED], typed, found(0.0), [], LENGTH_MS)
    assert (line.start_ms, line.end_ms, line.confidence, line.doubtful) == (3_000, 4_000, None, False)


def test_a_guessed_end_is_found() -> None:
    """A line that was typed with its start alone keeps that, and ends where it was heard to end."""
    typed = Line(3_000, 9_000, "", "A", "second", 0.0)
    (asked,) = wanting([typed])
    assert (asked.start_ms, asked.end_ms) == (3_000, None)
    (line,) = with_times([typed], [asked], found(0.8), [], LENGTH_MS)
    assert (line.start_ms, line.end_ms, line.confidence, line.doubtful) == (3_000, 4_000, None, False)


def test_a_doubtful_line_near_a_closure_stays_closed() -> None:
    """Where words that are closed might be said, the line is laid over the whole stretch; a sure line is not."""
    closed = [Span(13_000, 15_000)]
    lines = with_times(LINES, wanting(LINES, anew=True), found(0.9, 0.1, 0.1, 0.9), closed, LENGTH_MS)
    assert [(line.start_ms, line.end_ms) for line in lines[1:3]] == [(500, 30_500), (500, 30_500)]
    assert lines[0].end_ms == 4_000
    apart = with_times(LINES, wanting(LINES, anew=True), found(0.9, 0.1, 0.1, 0.9), [Span(50_000, 51_000)], LENGTH_MS)
    assert apart[1].start_ms == 10_500


@given(st.data())
def test_the_lines_can_always_be_kept(data: st.DataObject) -> None:
    """Whatever the transcript was and whatever was found, no line is lost and all of them may be stored."""
    starts = sorted(data.draw(st.lists(st.integers(0, LENGTH_MS - 100), min_size=1, max_size=12)))
    lines = [
        Line(start, start + data.draw(st.integers(1, 99)), "", "", f"line {at}", *data.draw(_marks))
        for at, start in enumerate(starts)
    ]
    times = sorted(data.draw(st.lists(st.integers(0, LENGTH_MS - 2), min_size=len(lines), max_size=len(lines))))
    aligned = [AlignedLine(start, start + 1, 0.2, data.draw(st.booleans())) for start in times]
    closed = [Span(20_000, 30_000)] if data.draw(st.booleans()) else []
    kept = with_times(lines, wanting(lines), Alignment(aligned), closed, LENGTH_MS)
    assert [line.text for line in kept] == [line.text for line in lines]
    assert not list(faults_of(kept, LENGTH_MS, frozenset()))


_marks = st.sampled_from([(None, False), (0.0, True), (0.3, True), (0.9, False)])
