"""From the times of words to the times of lines."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.aligning.model import GivenLine, Heard
from archive.audio.aligning.placing import in_order, place_lines
from archive.audio.aligning.text import text_of

LINES = ["we cut the strip", "and rolled it", "then the muffle"]


def at(*pairs: tuple[int, int]) -> dict[int, Heard]:
    """Words by number, each starting at a time and 200 ms long."""
    return {number: Heard("w", start, start + 200) for number, start in pairs}


def test_a_line_starts_with_its_first_word() -> None:
    """Where both ways agree the line is sure; where they do not it is in doubt."""
    text = text_of([GivenLine(line) for line in LINES], frozenset())
    laid = at(*((word, 1_000 + word * 300) for word in range(10)))
    anchors = at(*((word, 1_000 + word * 300) for word in range(4)), (7, 9_000))
    first, second, third = place_lines(text, anchors, laid, 10_000, ())
    assert (first.start_ms, first.confidence, first.doubtful) == (1_000, 1.0, False)
    assert second.start_ms == 2_200
    assert second.doubtful
    assert third.confidence == 0
    assert third.doubtful


def test_without_laid_words_anchors_serve_and_then_neighbours() -> None:
    """A line whose words could not be laid is timed by its anchors, one without any by its neighbours."""
    text = text_of([GivenLine(line) for line in LINES], frozenset())
    first, second, third = place_lines(text, at((1, 1_300), (2, 1_600)), {}, 10_000, ())
    assert first.start_ms == 1_000
    assert first.doubtful
    assert 1_000 < second.start_ms < third.start_ms < 10_000
    assert second.confidence == third.confidence == 0


def test_a_given_time_stays() -> None:
    """A typist's time is kept to the millisecond, and the lines about it stay on their sides."""
    given_lines = [GivenLine(LINES[0]), GivenLine(LINES[1], 5_000, 6_000), GivenLine(LINES[2])]
    text = text_of(given_lines, frozenset())
    laid = at((0, 7_000), (4, 5_200), (7, 4_000))
    lines = place_lines(text, {}, laid, 10_000, ())
    assert (lines[1].start_ms, lines[1].end_ms) == (5_000, min(6_000, lines[2].start_ms))
    assert lines[0].end_ms <= 5_000 < lines[2].start_ms


@given(st.lists(st.integers(-50, 2_000), max_size=50), st.integers(100, 1_500))
def test_starts_come_out_in_order(starts: list[int], duration_ms: int) -> None:
    """Any starts: none lost, each after the one before, all within the sound."""
    found = in_order(starts, duration_ms)
    assert len(found) == len(starts)
    assert found == sorted(set(found))
    assert all(0 <= start < duration_ms for start in found)


@given(st.data())
def test_lines_never_overlap(data: st.DataObject) -> None:
    """Whatever was heard and laid: as many lines as were given, in order, within the sound, none into the next."""
    lengths = data.draw(st.lists(st.integers(0, 6), min_size=1, max_size=20))
    fixed = sorted(data.draw(st.sets(st.integers(100, 9_000), max_size=3)))
    timed = dict(zip(sorted(data.draw(st.permutations(range(len(lengths))))[: len(fixed)]), fixed, strict=False))
    lines = [GivenLine("word " * length, timed.get(number)) for number, length in enumerate(lengths)]
    text = text_of(lines, frozenset())
    times = st.dictionaries(st.integers(0, max(0, sum(lengths) - 1)), st.integers(0, 12_000))
    anchors, laid = (at(*data.draw(times).items()) for _ in range(2))
    unheard = data.draw(st.sets(st.integers(0, len(lengths) - 1)))
    found = place_lines(text, anchors, laid, 10_000, unheard)
    assert len(found) == len(lines)
    assert all(0 <= line.start_ms < line.end_ms <= 10_000 for line in found)
    assert all(one.end_ms <= other.start_ms for one, other in zip(found, found[1:], strict=False))
    assert all(0 <= line.confidence <= 1 for line in found)


@pytest.mark.parametrize("starts", [[5, 5, 5], [9, 1, 4]])
def test_fixed_starts_stay(starts: list[int]) -> None:
    """A fixed start is not moved by the others."""
    assert in_order([*starts, 50, 20], 100, {3})[3] == 50
