"""Pauses against times that are known, silence and clipping."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.clipping import ClippingMeter
from archive.audio.pauses import PauseMeter
from archive.audio.reading import Block
from archive.values.timecode import Span
from tests.audio.test_same_sound import spoken

RATE = 16_000


def _meter(samples: np.ndarray, rate: int = RATE) -> PauseMeter:
    shaped = samples.reshape(len(samples), -1).astype(np.float32)
    meter = PauseMeter(rate, shaped.shape[1])
    for start in range(0, len(shaped), rate):
        meter.take(Block(start, shaped[start : start + rate]))
    return meter


def _with_pauses(seconds: int, seed: int, noise_db: float) -> tuple[np.ndarray, list[Span]]:
    """Steady syllables with pauses of 0.3 to 1.5 s cut into them, and noise so many dB below the speech."""
    random = np.random.default_rng(seed)
    at = np.arange(seconds * RATE) / RATE
    voice = sum(np.sin(2 * np.pi * 130 * part * at) / part for part in range(1, 12))
    voice *= 0.6 + 0.4 * np.sin(2 * np.pi * 4 * at)
    pauses, time = [], 1000
    while (time := time + int(random.integers(1500, 5000))) < seconds * 1000 - 2000:
        length = int(random.integers(300, 1500))
        pauses.append(Span(time, time + length))
        voice[time * RATE // 1000 : (time + length) * RATE // 1000] = 0
        time += length
    voice *= 0.1 / np.sqrt(np.square(voice).mean())
    return voice + random.normal(0, 0.1 * 10 ** (-noise_db / 20), len(voice)), pauses


def test_nothing_and_nearly_nothing() -> None:
    """No sound has no pauses, and silence is one pause from end to end."""
    assert PauseMeter(RATE, 1).pauses() == ()
    assert PauseMeter(RATE, 1).silence_share() == 0
    silent = _meter(np.zeros(RATE * 3 + 5))
    assert silent.pauses() == (Span(0, 3000),)
    assert silent.silence_share() == 1


def test_steady_noise_has_no_pauses() -> None:
    """Where nothing stands out from the noise, nothing is called a pause."""
    assert _meter(np.random.default_rng(1).normal(0, 0.05, RATE * 60)).pauses() == ()


@pytest.mark.parametrize("noise_db", [60, 20, 15])
@pytest.mark.parametrize("seed", [1, 2])
def test_every_pause_is_found_in_its_place(noise_db: float, seed: int) -> None:
    """Over noise down to 15 dB: each pause of 0.3 s and more and no other, its edges within 30 ms (at 15 dB, 60 ms)."""
    samples, known = _with_pauses(120, seed, noise_db)
    found = _meter(samples).pauses()
    assert len(found) == len(known)
    near = 60 if noise_db < 20 else 30
    for one, other in zip(found, known, strict=True):
        assert abs(one.start_ms - other.start_ms) <= near
        assert abs(one.end_ms - other.end_ms) <= near


def test_the_noise_floor_is_followed() -> None:
    """A recorder that is moved from a quiet room (50 dB) to a noisy one (18 dB) finds the pauses in both."""
    quiet, first = _with_pauses(120, 3, 50)
    noisy, second = _with_pauses(120, 4, 18)
    known = [*first, *(Span(pause.start_ms + 120_000, pause.end_ms + 120_000) for pause in second)]
    found = _meter(np.concatenate([quiet, noisy])).pauses()
    hits = sum(any(abs(one.start_ms - other.start_ms) <= 40 for one in found) for other in known)
    assert hits >= 0.9 * len(known)
    assert len(found) <= 1.1 * len(known)


def test_a_click_does_not_end_a_pause() -> None:
    """A click of 10 ms within a pause of two seconds is passed over."""
    samples = spoken(20, 2, RATE)
    samples[8 * RATE : 10 * RATE] = np.random.default_rng(1).normal(0, 0.0005, 2 * RATE)
    samples[9 * RATE : 9 * RATE + 160] = 0.4
    assert any(pause.start_ms <= 8050 and pause.end_ms >= 9950 for pause in _meter(samples).pauses())


def test_half_silent() -> None:
    """The share of silence, whatever the block it falls in."""
    samples = np.concatenate([np.zeros(RATE * 10), spoken(10, 1, RATE) + 0.01])
    assert _meter(samples).silence_share() == pytest.approx(0.5, abs=0.01)


def _clipped(samples: np.ndarray, cuts: list[int]) -> float:
    meter = ClippingMeter(samples.shape[1])
    for start, end in itertools.pairwise([0, *cuts, len(samples)]):
        meter.take(Block(start, samples[start:end]))
    return meter.share()


def test_clipping_counts_runs_at_full_scale() -> None:
    """Single loud samples are no clipping; three at the edge in a row are, on either side, in each channel."""
    samples = np.zeros((1000, 2), np.int16)
    samples[10], samples[20:22, 0] = 32_767, 32_767
    assert _clipped(samples, []) == 0
    samples[100:103, 0], samples[200:210, 1] = 32_767, -32_768
    assert _clipped(samples, []) == 13 / 2000


@given(st.lists(st.booleans(), min_size=20, max_size=60), st.sets(st.integers(1, 19)))
def test_clipping_is_the_same_however_blocks_are_cut(loud: list[bool], cuts: set[int]) -> None:
    """A run that two or more blocks share counts once, and as long as it is."""
    samples = np.where(np.array(loud), 32_767, 100).astype(np.int16)[:, None]
    assert _clipped(samples, sorted(cuts)) == _clipped(samples, [])
