"""The same sound told from another: by codec, level, rate, noise, a cut start, and among the demo's own voices.

Measured when written: the demo's MP3 against its WebM 0.93; cut by 50 ms, softer and with hiss added 0.83; ten seconds
out of six minutes 0.84; different recordings of the demo, voices in common, at most 0.54 (0.67 where only 3 s are
compared, which are never called the same).
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from archive.audio.reading import Block, open_sound
from archive.audio.same_sound import SAME_SHARE, Fingerprint, FingerprintMeter, likeness
from archive.errors import OutOfRange

DEMO = Path(__file__).parents[2] / "demo-collection" / "interviews"


def spoken(seconds: float, seed: int, rate: int = 48_000) -> np.ndarray:
    """Speech-like: a voice whose pitch and vowels change four times a second, with pauses."""
    random = np.random.default_rng(seed)
    pieces = []
    while sum(map(len, pieces)) < seconds * rate:
        at = np.arange(round(random.uniform(0.12, 0.35) * rate)) / rate
        pitch, vowel = random.uniform(90, 180), random.uniform(300, 2500, 2)
        parts = np.arange(1, 25)[:, None]
        strength = sum(np.exp(-(((parts * pitch - peak) / 250) ** 2)) for peak in vowel)
        voice = (strength * np.sin(2 * np.pi * parts * pitch * at)).sum(axis=0)
        pieces.append(np.hanning(len(at)) * voice * (random.random() > 0.15))
    samples = np.concatenate(pieces)[: round(seconds * rate)]
    return 0.5 * samples / np.abs(samples).max() + random.normal(0, 0.0005, len(samples))


def _taken(samples: np.ndarray, rate: int = 48_000) -> Fingerprint:
    shaped = np.atleast_2d(samples.T).T.astype(np.float32)
    meter = FingerprintMeter(rate, shaped.shape[1])
    for start in range(0, len(shaped), rate):
        meter.take(Block(start, shaped[start : start + rate]))
    return meter.fingerprint()


def _of(path: Path) -> Fingerprint:
    with open_sound(path) as sound:
        meter = FingerprintMeter(sound.rate, sound.channels)
        for block in sound.blocks():
            meter.take(block)
    return meter.fingerprint()


@pytest.mark.parametrize("content", [b"", b"SAME1\0", b"SAME1\0\x05\0\0\0abc", b"x" * 30])
def test_other_bytes_are_refused(content: bytes) -> None:
    """What is no kept fingerprint is refused."""
    with pytest.raises(OutOfRange, match="no fingerprint"):
        Fingerprint.from_bytes(content)


@given(arrays(np.uint16, st.integers(0, 40)), st.data())
def test_bytes_and_back(bits: np.ndarray, data: st.DataObject) -> None:
    """What is kept is what is read."""
    heard = data.draw(arrays(bool, len(bits)))
    back = Fingerprint.from_bytes(Fingerprint(bits, heard).to_bytes())
    assert np.array_equal(back.bits, bits)
    assert np.array_equal(back.heard, heard)


@pytest.mark.parametrize("seconds", [0, 0.05, 0.4, 0.9, 4])
def test_too_little_is_never_the_same(seconds: float) -> None:
    """A few seconds may agree with anything, so nothing is said of them; nor of silence."""
    short = _taken(spoken(5, 1)[: round(seconds * 48_000)])
    assert not likeness(short, _taken(spoken(30, 1))).same
    silent = _taken(np.zeros(48_000 * 20))
    assert not likeness(silent, silent).same


def test_other_recordings_differ() -> None:
    """Six made voices: no two are alike, at any shift."""
    taken = [_taken(spoken(40, seed)) for seed in range(6)]
    for one, other in itertools.combinations(taken, 2):
        assert likeness(one, other).share < SAME_SHARE - 0.1


@pytest.mark.parametrize("suffix", [".flac", ".mp3", ".opus", ".ogg", ".webm", ".m4a"])
def test_another_format_is_the_same(make_sound: Callable[..., Path], suffix: str) -> None:
    """The same voice in another format, where only the codec changes it."""
    samples = spoken(20, 11)
    found = likeness(_taken(samples), _of(make_sound(f"same{suffix}", samples)))
    assert found.same
    assert abs(found.shift_ms) <= 100


@pytest.mark.parametrize("cut_ms", [3, 20, 50, 1250])
@pytest.mark.parametrize("rate", [48_000, 44_100])
def test_cut_softer_noisier_and_at_another_rate(cut_ms: int, rate: int) -> None:
    """With its start cut off, ten dB softer, two channels and hiss added, it is still the same; the shift is told."""
    samples = spoken(30, 5)
    at = np.arange(round(30 * rate)) * 48_000 / rate
    other = np.interp(at, np.arange(len(samples)), samples)[cut_ms * rate // 1000 :] * 0.3
    both = np.stack([other, other], axis=1) + np.random.default_rng(3).normal(0, 0.002, (len(other), 2))
    found = likeness(_taken(samples), _taken(both, rate))
    assert found.same
    assert abs(found.shift_ms - cut_ms) <= 100


def test_an_excerpt_is_found_in_the_whole() -> None:
    """Twelve seconds out of a minute agree where they were taken."""
    samples = spoken(60, 8)
    found = likeness(_taken(samples), _taken(samples[33 * 48_000 + 700 : 45 * 48_000]))
    assert found.same
    assert found.shift_ms == pytest.approx(33_000, abs=100)


def test_the_demo_recordings() -> None:
    """Each interview's MP3 is the same as its WebM, and as no other interview's, though voices return."""
    refs = ("I-01", "I-08", "I-02")
    webm = {ref: _of(DEMO / ref / "audio.webm") for ref in refs}
    mp3 = {ref: _of(DEMO / ref / "audio.mp3") for ref in refs}
    for one, other in itertools.product(refs, refs):
        found = likeness(webm[one], mp3[other])
        assert found.same == (one == other)
        assert found.share > 0.9 or found.share < 0.6
