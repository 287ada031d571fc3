"""The levels that are drawn."""

from __future__ import annotations

import tracemalloc
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.access import make_copies
from archive.audio.levels import Levels
from archive.audio.reading import Block
from archive.audio.waveform import LevelMeter, measure_levels
from archive.errors import CannotRead
from archive.values.timecode import Span


@pytest.mark.parametrize(
    "content",
    [b"", b"LEVELS", b"LEVELS\x02\x00" + bytes(8), b"LEVELS\x01\x00d\x00\x00\x00\x05\x00\x00\x00abc", b"x" * 99],
)
def test_other_bytes_are_refused(content: bytes) -> None:
    """Bytes that are no levels, or cut off, are refused with what makes them again."""
    with pytest.raises(CannotRead, match="does not hold levels"):
        Levels.from_bytes(content)


@given(st.lists(st.integers(0, 255)), st.integers(1, 10_000))
def test_bytes_and_back(peaks: list[int], step_ms: int) -> None:
    """What is kept is what is read."""
    levels = Levels(step_ms, tuple(peaks))
    assert Levels.from_bytes(levels.to_bytes()) == levels


@pytest.mark.parametrize("rate", [48_000, 44_100, 11_025])
def test_peaks_follow_the_sound(make_sound: Callable[..., Path], wave: Callable[..., np.ndarray], rate: int) -> None:
    """A second of silence, a second at half scale, a second at full scale."""
    samples = np.concatenate([np.zeros(rate), wave(1, rate, level=0.5), wave(1, rate)])
    levels = measure_levels(make_sound(f"steps-{rate}.wav", samples, rate))
    assert (levels.step_ms, len(levels.peaks)) == (100, 30)
    assert set(levels.peaks[:10]) == {0}
    assert all(126 <= peak <= 129 for peak in levels.peaks[10:20])
    assert all(peak >= 253 for peak in levels.peaks[20:])


@pytest.mark.parametrize("closed", [[Span(500, 1500)], [Span(550, 1450)], [Span(500, 900), Span(800, 1500)]])
def test_flat_where_it_is_closed(
    make_sound: Callable[..., Path], wave: Callable[..., np.ndarray], closed: list[Span]
) -> None:
    """Every step that a closed range touches is 0, and the others are not."""
    levels = measure_levels(make_sound("flat.wav", wave(3)), closed)
    assert [peak == 0 for peak in levels.peaks] == [5 <= step < 15 for step in range(30)]


def test_flat_even_under_a_tone(
    make_sound: Callable[..., Path], wave: Callable[..., np.ndarray], tmp_path: Path
) -> None:
    """The tone that stands for a closed range is not drawn."""
    copies = {"mp3": tmp_path / "a.mp3"}
    levels = make_copies(make_sound("t.wav", wave(3)), copies, closed=[Span(1000, 2000)], with_="tone")
    assert set(levels.peaks[10:20]) == {0}


def test_the_last_part_of_a_step_counts(make_sound: Callable[..., Path], wave: Callable[..., np.ndarray]) -> None:
    """1.234 seconds have thirteen steps; a closed range past the end does no harm."""
    path = make_sound("part.wav", wave(1.234))
    assert len(measure_levels(path).peaks) == 13
    assert len(measure_levels(path, [Span(1000, 99_000)]).peaks) == 13


@given(cuts=st.lists(st.integers(1, 2999), max_size=8))
def test_blocks_may_be_cut_anywhere(cuts: list[int]) -> None:
    """The levels are the same however the sound comes in blocks."""
    samples = np.random.default_rng(5).integers(-32_768, 32_767, (3000, 2)).astype(np.int16)
    at_once, in_parts = LevelMeter(8_000), LevelMeter(8_000)
    at_once.take(Block(0, samples))
    edges = [0, *sorted(set(cuts)), 3000]
    for start, end in zip(edges, edges[1:], strict=False):
        in_parts.take(Block(start, samples[start:end]))
    assert in_parts.levels() == at_once.levels()


def test_long_sound_takes_little_memory(make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray]) -> None:
    """Three minutes are 35 MB of samples, and never more than a few seconds of them are held."""
    path = make_sound("three-minutes.flac", np.tile(hiss(20), (9, 1)))
    tracemalloc.start()
    measure_levels(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 6_000_000
