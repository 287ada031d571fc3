"""Loudness on the signals of EBU Tech 3341 and Tech 3342, made here, and against another program."""

from __future__ import annotations

import itertools

import numpy as np
import pyloudnorm
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import firwin, resample_poly

from archive.audio.loudness import Loudness, LoudnessMeter, channel_weights, gain_to
from archive.audio.reading import Block

RATE = 48_000
RATES = [16_000, 44_100, 48_000, 96_000]


def _sine(dbfs: float, seconds: float, rate: int = RATE, hertz: float = 1000) -> np.ndarray:
    return 10 ** (dbfs / 20) * np.sin(2 * np.pi * hertz * np.arange(round(seconds * rate)) / rate)


def _stereo(*parts: tuple[float, float], rate: int = RATE) -> np.ndarray:
    """Parts of (dBFS, seconds), one after the other, the same in both channels."""
    one = np.concatenate([_sine(dbfs, seconds, rate) for dbfs, seconds in parts])
    return np.stack([one, one], axis=1)


def _measured(samples: np.ndarray, rate: int = RATE, channels: tuple[str, ...] = ("FL", "FR")) -> Loudness:
    meter = LoudnessMeter(rate, channels)
    for start in range(0, len(samples), rate):
        meter.take(Block(start, samples[start : start + rate].astype(np.float32)))
    return meter.loudness()


def test_silence_has_no_loudness() -> None:
    """Digital silence, and less than 400 ms of anything, has no integrated loudness, and no gain is wanted."""
    silent = _measured(np.zeros((RATE * 5, 2)))
    assert silent == Loudness(None, None, None, None, None)
    assert gain_to(-23, silent) == 0
    assert _measured(_stereo((-20, 0.3))).integrated is None
    assert _measured(_stereo((-75, 20))).integrated is None


# Source: EBU Tech 3341 (2023), table 1, cases 1 to 5 (levels and seconds); tolerance 0.1 LU.
CASES_3341 = {
    1: ([(-23, 20)], -23.0),
    2: ([(-33, 20)], -33.0),
    3: ([(-36, 10), (-23, 60), (-36, 10)], -23.0),
    4: ([(-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10)], -23.0),
    5: ([(-26, 20), (-20, 20.1), (-26, 20)], -23.0),
}


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("case", CASES_3341)
def test_integrated_loudness_of_tech_3341(case: int, rate: int) -> None:
    """Cases 1 to 5, within 0.1 LU, at four rates."""
    parts, wanted = CASES_3341[case]
    assert _measured(_stereo(*parts, rate=rate), rate).integrated == pytest.approx(wanted, abs=0.1)


@pytest.mark.parametrize("case", [1, 2])
def test_momentary_and_short_term_of_a_steady_tone(case: int) -> None:
    """Source: Tech 3341, cases 1 and 2: a steady tone reads the same by all three windows."""
    parts, wanted = CASES_3341[case]
    loudness = _measured(_stereo(*parts))
    assert loudness.momentary_max == pytest.approx(wanted, abs=0.1)
    assert loudness.short_term_max == pytest.approx(wanted, abs=0.1)


@pytest.mark.parametrize("channels", [("FL", "FR", "FC", "LFE", "SL", "SR"), ("FL", "FR", "FC", "LFE", "BL", "BR")])
def test_surround_of_tech_3341(channels: tuple[str, ...]) -> None:
    """Case 6: left and right at -28, centre at -24, surrounds at -30 dBFS give -23 LUFS; bass is left out."""
    samples = np.stack([_sine(dbfs, 20) for dbfs in (-28, -28, -24, -10, -30, -30)], axis=1)
    assert _measured(samples, RATE, channels).integrated == pytest.approx(-23, abs=0.1)


def test_weights_of_unnamed_channels() -> None:
    """Where a file names none of its channels, they stand in the usual order; of 7.1, the sides count more."""
    assert channel_weights(["NONE"] * 6).tolist() == [1, 1, 1, 0, 1.41, 1.41]
    assert channel_weights(["NONE"]).tolist() == [1]
    assert channel_weights(["FL", "FR", "FC", "LFE", "BL", "BR", "SL", "SR"]).tolist() == [1, 1, 1, 0, 1, 1, 1.41, 1.41]


@pytest.mark.parametrize(
    ("parts", "window"), [([(-20, 1.34), (-30, 1.66)], "short"), ([(-20, 0.18), (-30, 0.22)], "m")]
)
def test_windows_over_changing_tones(parts: list[tuple[float, float]], window: str) -> None:
    """Tech 3341, cases 9 and 12: tones whose mean over the window stays the same read -23 within 0.1 LU."""
    loudness = _measured(_stereo(*(parts * (5 if window == "short" else 25))))
    found = loudness.short_term_max if window == "short" else loudness.momentary_max
    assert found == pytest.approx(-23, abs=0.1)


@pytest.mark.parametrize("number", range(1, 21))
def test_windows_that_start_anywhere(number: int) -> None:
    """Tech 3341, cases 10 and 13: a tone just as long as the window, after silence of any length, reads -23."""
    short = _measured(_stereo((-200, number * 0.15), (-23, 3), (-200, 1)))
    assert short.short_term_max == pytest.approx(-23, abs=0.1)
    momentary = _measured(_stereo((-200, number * 0.02), (-23, 0.4), (-200, 1)))
    assert momentary.momentary_max == pytest.approx(-23, abs=0.1)


# Source: EBU Tech 3341, cases 11 and 14: seconds of the tone and of the whole segment, what each start is later.
CASES_RISING = {"short_term_max": (3.0, 6.0, 0.15), "momentary_max": (0.4, 0.8, 0.02)}


@pytest.mark.parametrize("window", CASES_RISING)
def test_windows_follow_a_rising_row_of_tones(window: str) -> None:
    """Cases 11 and 14: twenty tones, each a unit louder and a little later; the highest so far is the last one's."""
    tone, whole, later = CASES_RISING[window]
    meter, at = LoudnessMeter(RATE, ("FL", "FR")), 0
    for number in range(20):
        level, before = -38 + number, number * later
        samples = _stereo((-200, before), (level, tone), (-200, whole - tone - before))
        meter.take(Block(at, samples.astype(np.float32)))
        at += len(samples)
        assert getattr(meter.loudness(), window) == pytest.approx(level, abs=0.1)


# Source: EBU Tech 3342, cases 1 to 4 (levels of 20 s each, range in LU); tolerance 1 LU. Cases 5 and 6, like 7 and 8 of
# Tech 3341, are recordings of the EBU's own, which cannot be made here; the programmes below stand in for them.
CASES_3342 = {1: ([-20, -30], 10), 2: ([-20, -15], 5), 3: ([-40, -20], 20), 4: ([-50, -35, -20, -35, -50], 15)}


@pytest.mark.parametrize("case", CASES_3342)
def test_range_of_tech_3342(case: int) -> None:
    """Cases 1 to 4, within 1 LU."""
    levels, wanted = CASES_3342[case]
    assert _measured(_stereo(*((dbfs, 20) for dbfs in levels))).range == pytest.approx(wanted, abs=1)


@pytest.mark.parametrize(("spread", "wanted"), [(3.2, 5), (9.6, 15)])
def test_range_of_a_programme(spread: float, wanted: float) -> None:
    """In place of cases 5 and 6: speech-like noise whose loudness is spread evenly, narrow or wide, with pauses.

    From the tenth to the ninety-fifth percentile of an even spread lie 85 parts of a hundred of it, less what windows
    of three seconds smooth away; the pauses, more than 20 LU below the rest, are gated out.
    """
    random = np.random.default_rng(3)
    levels = np.repeat(random.permutation(np.linspace(-23 - spread, -23 + spread, 16)), 6)
    gains = 10 ** (np.concatenate([levels, np.full(20, -80.0)]) / 20)
    noise = random.normal(0, 1, (len(gains) * 8000, 2)) * np.repeat(gains, 8000)[:, None] * 0.7
    assert _measured(noise, 8000).range == pytest.approx(wanted, abs=1)


# Source: EBU Tech 3341 (2023), table 1, cases 15 to 19: part of the rate, level, phase in degrees, dBTP; +0.2, -0.4.
CASES_TRUE_PEAK = {
    15: (4, 0.5, 0.0, -6.0),
    16: (4, 0.5, 45.0, -6.0),
    17: (6, 0.5, 60.0, -6.0),
    18: (8, 0.5, 67.5, -6.0),
    19: (4, 1.41, 45.0, 3.0),
}


def _faded(samples: np.ndarray) -> np.ndarray:
    """A soft start and end: a sound that starts in mid-wave truly overshoots, and the cases mean the steady tone."""
    ramp = np.minimum(1, np.minimum(np.arange(len(samples)), np.arange(len(samples))[::-1]) / 480)
    return samples * ramp


@pytest.mark.parametrize("case", CASES_TRUE_PEAK)
def test_true_peak_of_tech_3341(case: int) -> None:
    """Cases 15 to 19: peaks that fall between the samples."""
    part, level, phase, wanted = CASES_TRUE_PEAK[case]
    wave = _faded(level * np.sin(2 * np.pi * np.arange(RATE) / part + np.radians(phase)))
    found = _measured(np.stack([wave, wave], axis=1)).true_peak
    assert found is not None
    assert -0.4 <= found - wanted <= 0.2


@pytest.mark.parametrize("offset", range(4))
def test_true_peak_of_one_period_between_the_samples(offset: int) -> None:
    """After cases 20 to 23: one stronger period, made at four times the rate and thinned out from four places."""
    at = np.arange(4 * 4800)
    wave = 0.5 * np.sin(2 * np.pi * at / 24)
    wave[9600:9624] *= 2
    smooth = np.convolve(_faded(wave), firwin(401, 0.22), "same")
    smooth /= np.abs(smooth).max()
    thinned = smooth[offset::4]
    found = _measured(np.stack([thinned, thinned], axis=1)).true_peak
    assert found is not None
    assert -0.4 <= found <= 0.2


def test_true_peak_agrees_with_a_finer_oversampling() -> None:
    """On noise of every colour, within 0.35 dB under sixteen times oversampling by another library."""
    noise = np.random.default_rng(4).normal(0, 0.1, RATE)
    for cutoff in (0.1, 0.3, 0.8):
        wave = np.convolve(noise, firwin(101, cutoff), "same")
        finer = 20 * np.log10(np.abs(resample_poly(wave, 16, 1)).max())
        found = _measured(wave[:, None], channels=("FC",)).true_peak
        assert found is not None
        assert finer - 0.35 <= found <= finer + 0.05, cutoff


@pytest.mark.parametrize("rate", [16_000, 22_050, 44_100, 48_000, 96_000])
def test_agrees_with_another_program(rate: int) -> None:
    """Noise whose level wanders through the gates, against pyloudnorm with the same filters, within 0.02 LU."""
    shape = np.repeat(10 ** (np.array([-20, -60, -35, -90, -25, -31]) / 20), rate * 3)
    samples = np.random.default_rng(2).normal(0, 1, (len(shape), 2)) * shape[:, None]
    samples = np.clip(samples, -1, 1).astype(np.float32)
    theirs, found = pyloudnorm.Meter(rate, filter_class="DeMan"), _measured(samples, rate)
    assert found.integrated == pytest.approx(theirs.integrated_loudness(samples.astype(np.float64)), abs=0.02)


def test_range_agrees_with_another_program() -> None:
    """Noise whose level wanders within the gates, against pyloudnorm, which takes a new window once a second only."""
    shape = np.repeat(10 ** (np.random.default_rng(6).uniform(-34, -20, 30) / 20), RATE // 3 * 4)
    samples = np.random.default_rng(2).normal(0, 0.5, (len(shape), 2)) * shape[:, None]
    theirs = pyloudnorm.Meter(RATE, filter_class="DeMan").loudness_range(samples)
    assert _measured(samples).range == pytest.approx(theirs, abs=0.3)


@settings(deadline=None)
@given(cuts=st.lists(st.integers(1, 31_999), max_size=6), rate=st.sampled_from([8_000, 11_025]))
def test_blocks_may_be_cut_anywhere(cuts: list[int], rate: int) -> None:
    """The loudness is the same however the sound comes in blocks."""
    samples = np.random.default_rng(9).uniform(-0.5, 0.5, (32_000, 2)).astype(np.float32)
    at_once, in_parts = LoudnessMeter(rate, ["FL", "FR"]), LoudnessMeter(rate, ["FL", "FR"])
    at_once.take(Block(0, samples))
    for start, end in itertools.pairwise([0, *sorted(set(cuts)), 32_000]):
        in_parts.take(Block(start, samples[start:end]))
    whole, parts = at_once.loudness(), in_parts.loudness()
    for one, other in zip(vars(whole).values(), vars(parts).values(), strict=True):
        assert one == pytest.approx(other, abs=1e-6)


def test_gain_stops_at_the_true_peak() -> None:
    """A soft sound with a sharp peak is not brought all the way; a loud one is brought down whatever its peak."""
    assert gain_to(-23, Loudness(-30, 5, -4, -25, -28)) == pytest.approx(3)
    assert gain_to(-23, Loudness(-30, 5, -20, -25, -28)) == pytest.approx(7)
    assert gain_to(-23, Loudness(-15, 5, -9, -12, -14)) == pytest.approx(-8)
