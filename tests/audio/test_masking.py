"""Closed ranges are gone to the sample, and nothing else has changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pyloudnorm
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.guarding import guarded_span
from archive.audio.masking import RAMP_MS, Mask, mask
from archive.audio.reading import Block
from archive.errors import CannotRead, OutOfRange
from archive.values.timecode import Span

RATE = 48_000
RAMP = RAMP_MS * RATE // 1000


def test_refuses_a_form_that_loses_sound(make_sound: Callable[..., Path], tmp_path: Path) -> None:
    """A lossless copy is WAV or FLAC; another name is refused with what is allowed."""
    with pytest.raises(OutOfRange, match=r"\.wav or \.flac"):
        mask(make_sound("a.wav", np.zeros(480)), tmp_path / "a.mp3", [])


def test_refuses_what_is_not_sound(tmp_path: Path) -> None:
    """Text is refused before a target is made."""
    (tmp_path / "a.wav").write_text("not sound")
    with pytest.raises(CannotRead):
        mask(tmp_path / "a.wav", tmp_path / "b.wav", [])
    assert not (tmp_path / "b.wav").exists()


@pytest.mark.parametrize("suffix", [".wav", ".flac"])
@pytest.mark.parametrize("subtype", ["PCM_16", "PCM_24"])
@pytest.mark.parametrize("channels", [1, 2])
def test_bit_identical_outside_and_silent_inside(
    make_sound: Callable[..., Path],
    hiss: Callable[..., object],
    tmp_path: Path,
    suffix: str,
    subtype: str,
    channels: int,
) -> None:
    """Every bit of the closed range is zero; every sample beyond the fades beside it is the master's own."""
    path = make_sound(f"m{channels}{subtype}{suffix}", hiss(5, channels=channels), RATE, subtype)
    target = tmp_path / f"masked{suffix}"
    mask(path, target, [Span(1500, 2250), Span(4999, 5000)])
    before, _ = soundfile.read(path, dtype="int32", always_2d=True)
    after, rate = soundfile.read(target, dtype="int32", always_2d=True)
    assert (rate, after.shape) == (RATE, before.shape)
    first, end = 72_000, 108_000
    assert not after[first:end].any()
    assert not after[239_952:].any()
    assert np.array_equal(after[: first - RAMP], before[: first - RAMP])
    assert np.array_equal(after[end + RAMP : 239_952 - RAMP], before[end + RAMP : 239_952 - RAMP])
    assert (np.abs(after.astype(np.int64)) <= np.abs(before.astype(np.int64))).all()


@pytest.mark.parametrize("suffix", [".wav", ".flac"])
def test_a_guard_that_reaches_to_a_pause_is_kept_to_the_sample(
    make_sound: Callable[..., Path], hiss: Callable[..., object], tmp_path: Path, suffix: str
) -> None:
    """From the pause before to the guard's end all is zero; beyond it and its fades nothing has changed."""
    path, target = make_sound(f"guarded{suffix}", hiss(4), RATE, "PCM_24"), tmp_path / f"guarded{suffix}"
    guarded = guarded_span(Span(1500, 2250), [Span(1100, 1300)], 4000)
    assert guarded == Span(1300, 2300)
    mask(path, target, [guarded])
    before, after = (soundfile.read(each, dtype="int32")[0] for each in (path, target))
    assert not after[62_400:110_400].any()
    assert np.array_equal(after[: 62_400 - RAMP], before[: 62_400 - RAMP])
    assert np.array_equal(after[110_400 + RAMP :], before[110_400 + RAMP :])


@pytest.mark.parametrize("rate", [44_100, 22_050, 11_025, 8_000])
def test_every_sample_that_a_span_touches_is_closed(
    make_sound: Callable[..., Path], hiss: Callable[..., object], tmp_path: Path, rate: int
) -> None:
    """Where a millisecond is no whole number of samples, the sample at either edge is closed too."""
    path, target = make_sound(f"odd-{rate}.wav", hiss(1, rate), rate), tmp_path / "odd.wav"
    mask(path, target, [Span(333, 667)])
    after, _ = soundfile.read(target, dtype="int16")
    times = np.arange(rate) * 1000 / rate
    assert not after[(times >= 333) & (times < 667)].any()


def test_other_sample_formats_keep_their_values(
    make_sound: Callable[..., Path], hiss: Callable[..., object], tmp_path: Path
) -> None:
    """8-bit, 32-bit and float WAV keep every value outside the closed range."""
    for subtype in ("PCM_U8", "PCM_32", "FLOAT"):
        path, target = make_sound(f"{subtype}.wav", hiss(1), RATE, subtype), tmp_path / f"{subtype}.wav"
        mask(path, target, [Span(400, 500)])
        before, _ = soundfile.read(path)
        after, _ = soundfile.read(target)
        assert np.array_equal(before[: 19_200 - RAMP], after[: 19_200 - RAMP]), subtype
        assert not after[19_200:24_000].any(), subtype


def test_a_tone_stands_where_it_was_closed(
    make_sound: Callable[..., Path], hiss: Callable[..., object], tmp_path: Path
) -> None:
    """With a tone, the closed range holds the tone and nothing of the master: two masters give the same range."""
    masked = []
    for seed in (1, 2):
        path, target = make_sound(f"t{seed}.wav", hiss(3, seed=seed)), tmp_path / f"t{seed}.wav"
        mask(path, target, [Span(1000, 2000)], "tone")
        masked.append(soundfile.read(target, dtype="int16")[0])
    inside = [samples[48_000:96_000] for samples in masked]
    assert np.array_equal(*inside)
    spectrum = np.abs(np.fft.rfft(inside[0].astype(float)))
    assert spectrum.argmax() == 1000
    assert inside[0][0] == 0
    assert not np.array_equal(masked[0][:48_000], masked[1][:48_000])


def test_loudness_outside_is_unchanged(
    make_sound: Callable[..., Path], wave: Callable[..., object], tmp_path: Path
) -> None:
    """By ITU-R BS.1770 as another program measures it, the open parts are exactly as loud as before."""
    path, target = make_sound("loud.wav", wave(9, level=0.3)), tmp_path / "loud.wav"
    mask(path, target, [Span(3000, 6000)])
    meter = pyloudnorm.Meter(RATE)
    before, _ = soundfile.read(path)
    after, _ = soundfile.read(target)
    margin = RATE * 3 - RATE // 100
    for part in (slice(0, margin), slice(len(before) - margin, None)):
        assert meter.integrated_loudness(after[part]) == meter.integrated_loudness(before[part])
    assert meter.integrated_loudness(after[RATE * 3 : RATE * 6]) < -70


SPANS = st.lists(
    st.tuples(st.integers(0, 400), st.integers(1, 60)).map(lambda pair: Span(pair[0], pair[0] + pair[1])), max_size=5
)


@given(spans=SPANS, cuts=st.lists(st.integers(1, 3999), max_size=6), with_=st.sampled_from(["silence", "tone"]))
def test_block_by_block_is_the_same_as_all_at_once(spans: list[Span], cuts: list[int], with_: str) -> None:
    """Wherever the blocks are cut, the masked sound is the same, and no original sample stays in a closed range."""
    rate = 8_000
    original = np.random.default_rng(3).integers(1000, 30_000, (4000, 2)).astype(np.int16)
    closed = Mask.of(spans, rate, with_)  # type: ignore[arg-type]
    whole = closed.on(Block(0, original)).samples
    edges = [0, *sorted(set(cuts)), 4000]
    pieces = [closed.on(Block(a, original[a:b])).samples for a, b in zip(edges, edges[1:], strict=False)]
    assert np.array_equal(np.concatenate(pieces), whole)
    far = np.ones(4000, bool)
    for span in spans:
        assert (np.abs(whole[span.start_ms * 8 : span.end_ms * 8]) < 2000).all()
        far[max(0, span.start_ms * 8 - 40) : span.end_ms * 8 + 40] = False
    assert np.array_equal(whole[far], original[far])


def test_fades_lead_down_and_up_again() -> None:
    """Beside a closed range the gain falls and rises step by step, so that there is no click."""
    steady = np.full((8000, 1), 10_000, np.int16)
    masked = Mask.of([Span(400, 600)], 8_000).on(Block(0, steady)).samples[:, 0].astype(int)
    down, up = masked[3159:3201], masked[4799:4841]
    assert (np.diff(down) < 0).all()
    assert (np.diff(up) > 0).all()
    assert (down[0], down[-1], up[0], up[-1]) == (10_000, 0, 0, 10_000)
