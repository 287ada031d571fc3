"""Clips cut at the sample."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile
from scipy.signal import correlate

from archive.audio.cutting import FADE_MS, cut
from archive.audio.masking import mask
from archive.audio.probe import probe
from archive.errors import OutOfRange
from archive.values.timecode import Span

MakeSound = Callable[..., Path]
Wave = np.ndarray


def test_refusals(make_sound: MakeSound, tmp_path: Path) -> None:
    """A form that is none, a clip without end, and one past the end of the sound are refused with what is allowed."""
    source = make_sound("short.wav", np.zeros(48_000))
    for target, span, words in (
        ("a.flac", Span(0, 500), r"\.wav, \.webm, \.mp3, \.m4a"),
        ("a.wav", Span(0, 3_600_000), "up to 30 minutes"),
        ("a.wav", Span(2000, 3000), "ends before 0:02"),
    ):
        with pytest.raises(OutOfRange, match=words):
            cut(source, tmp_path / target, span)


@pytest.mark.parametrize("suffix", [".wav", ".flac"])
@pytest.mark.parametrize(("rate", "channels"), [(48_000, 1), (44_100, 2), (11_025, 1), (22_050, 2)])
@pytest.mark.parametrize("span", [Span(0, 700), Span(3333, 4777), Span(9001, 10_000)])
def test_exact_samples_between_the_fades(
    make_sound: MakeSound, hiss: Callable[..., Wave], tmp_path: Path, suffix: str, rate: int, channels: int, span: Span
) -> None:
    """Of a lossless master the clip holds exactly the samples of its span, faded for 10 ms at either end."""
    source = make_sound(f"cut-{rate}-{channels}{suffix}", hiss(10, rate, channels=channels), rate)
    target = tmp_path / "clip.wav"
    cut(source, target, span)
    first, end = span.start_ms * rate // 1000, span.end_ms * rate // 1000
    whole, _ = soundfile.read(source, dtype="int16", always_2d=True)
    clip, clip_rate = soundfile.read(target, dtype="int16", always_2d=True)
    wanted, edge = whole[first:end], FADE_MS * rate // 1000
    assert (clip_rate, clip.shape) == (rate, wanted.shape)
    assert np.array_equal(clip[edge:-edge], wanted[edge:-edge])
    assert np.abs(clip[:3]).max() < 3000
    assert np.abs(clip[-3:]).max() < 3000


@pytest.mark.parametrize("suffix", [".webm", ".opus", ".ogg", ".mp3"])
def test_in_step_with_lossy_masters(
    make_sound: MakeSound, hiss: Callable[..., Wave], read_back: Callable[[Path], Wave], tmp_path: Path, suffix: str
) -> None:
    """After a seek, the clip of a lossy master lies where the whole file, decoded, has it: within a millisecond."""
    source, target = make_sound(f"seek{suffix}", hiss(20)[:, 0]), tmp_path / "clip.wav"
    cut(source, target, Span(15_000, 16_000))
    whole = read_back(source)[14 * 48_000 : 17 * 48_000]
    clip, _ = soundfile.read(target)
    middle = clip[12_000:36_000]
    place = correlate(whole, middle, "valid", "fft").argmax()
    assert abs(place - 60_000) <= 48


def test_a_closure_inside_a_clip_is_masked(make_sound: MakeSound, wave: Callable[..., Wave], tmp_path: Path) -> None:
    """What is closed is silent in a clip too, at the same time of the recording."""
    source, target = make_sound("masked-clip.wav", wave(10)), tmp_path / "clip.wav"
    cut(source, target, Span(4000, 7000), closed=[Span(5000, 6000)])
    clip, _ = soundfile.read(target, dtype="int16")
    assert not clip[48_000:96_000].any()
    assert np.abs(clip[:47_000]).max() > 32_000
    assert np.abs(clip[97_000:]).max() > 32_000


def test_a_clip_that_overruns_ends_with_the_sound(
    make_sound: MakeSound, wave: Callable[..., Wave], tmp_path: Path
) -> None:
    """A clip as a browser gets it, whose end lies past the end of the sound, holds what there is."""
    for suffix in (".webm", ".mp3"):
        target = tmp_path / f"clip{suffix}"
        cut(make_sound("over.flac", wave(5, level=0.5)), target, Span(4000, 9000))
        assert probe(target).duration_ms == pytest.approx(1000, abs=2)


def test_a_gap_in_the_times_keeps_the_mask_in_place(
    make_sound: MakeSound, wave: Callable[..., Wave], tmp_path: Path
) -> None:
    """Where a file's times leave a second out, what comes after is masked at its own time, in clips as in copies."""
    whole, gapped = make_sound("gap.webm", wave(8, level=0.9)), tmp_path / "gapped.webm"
    with av.open(str(whole)) as source, av.open(str(gapped), "w") as target:
        stream = target.add_stream_from_template(source.streams.audio[0])
        for packet in source.demux(audio=0):
            if packet.pts is not None and not 2000 <= packet.pts < 3000:
                packet.stream = stream
                target.mux(packet)
    closed = [Span(5000, 6000)]
    cut(gapped, tmp_path / "clip.wav", Span(1000, 7000), closed=closed)
    mask(gapped, tmp_path / "all.wav", closed)
    clip, all_of_it = soundfile.read(tmp_path / "clip.wav")[0], soundfile.read(tmp_path / "all.wav")[0]
    for samples, start in ((clip, 1), (all_of_it, 0)):
        assert not samples[(5 - start) * 48_000 : (6 - start) * 48_000].any()
        assert not samples[round((2.2 - start) * 48_000) : round((2.9 - start) * 48_000)].any()
        for second in (1.5, 3.5, 4.5, 6.5):
            at = round((second - start) * 48_000)
            assert np.abs(samples[at : at + 4800]).max() > 0.8, second
