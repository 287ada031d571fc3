"""Clips cut at the sample."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile
from scipy.signal import correlate

from archive.audio.access import make_copies
from archive.audio.cutting import FADE_MS, cut, levels_of, loudness_of, shared_level
from archive.audio.loudness import LoudnessMeter, gain_to
from archive.audio.masking import mask
from archive.audio.probe import probe
from archive.audio.reading import open_sound
from archive.errors import OutOfRange
from archive.values.timecode import Span
from tests.audio.test_same_sound import spoken

MakeSound = Callable[..., Path]
Wave = np.ndarray


def test_refusals(make_sound: MakeSound, tmp_path: Path) -> None:
    """A form that is none and a clip past the end of the sound are refused with what is allowed, and leave nothing."""
    source = make_sound("short.wav", np.zeros(48_000))
    for target, span, words in (
        ("a.flac", Span(0, 500), r"\.wav, \.webm, \.mp3, \.m4a"),
        ("a.wav", Span(2000, 3000), "ends before 0:02"),
    ):
        with pytest.raises(OutOfRange, match=words):
            cut(source, tmp_path / target, span)
    assert sorted(tmp_path.glob("a.*")) == []
    with pytest.raises(OutOfRange, match="up to 30 minutes"):
        levels_of(source, Span(0, 3_600_000))


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


def _loudness(path: Path) -> float:
    with open_sound(path) as sound:
        meter = LoudnessMeter(sound.rate, sound.channel_names)
        for block in sound.blocks():
            meter.take(block)
    found = meter.loudness().integrated
    assert found is not None
    return found


def _cut_to(level: float, source: Path, target: Path, span: Span, closed: Sequence[Span] = ()) -> float:
    """The clip brought to a level as far as its true peak allows; the gain is given back."""
    gain = gain_to(level, loudness_of(source, span, closed=closed))
    cut(source, target, span, closed=closed, gain_db=gain)
    return gain


def _spoken_master(make_sound: MakeSound) -> Path:
    soft, loud = spoken(20, 1) * 0.1, spoken(20, 2)
    return make_sound("levels.wav", np.concatenate([soft, loud]), 48_000, "PCM_24")


@pytest.mark.parametrize("suffix", [".wav", ".webm", ".mp3", ".m4a"])
def test_clips_of_a_tour_are_level(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """A soft and a loud stretch come out equally loud, as far as both can go."""
    source, spans = _spoken_master(make_sound), (Span(2000, 18_000), Span(22_000, 38_000))
    measured = [loudness_of(source, span) for span in spans]
    assert abs((measured[0].integrated or 0) - (measured[1].integrated or 0)) > 15
    level = shared_level(measured)
    heard = []
    for number, span in enumerate(spans):
        target = tmp_path / f"{number}{suffix}"
        _cut_to(level, source, target, span)
        heard.append(_loudness(target))
    assert heard[0] == pytest.approx(heard[1], abs=0.5)
    assert heard[0] == pytest.approx(level, abs=1.0)


def test_gain_is_limited_by_the_true_peak(make_sound: MakeSound, tmp_path: Path) -> None:
    """A soft voice with one sharp knock is raised only until the knock reaches -1 dBTP."""
    samples = spoken(10, 3) * 0.02
    samples[200_000:200_010] = 0.5
    source = make_sound("knock.wav", samples)
    gain = _cut_to(-23, source, tmp_path / "a.wav", Span(0, 10_000))
    assert 3 < gain < 5.1
    with open_sound(tmp_path / "a.wav") as sound:
        meter = LoudnessMeter(sound.rate, sound.channel_names)
        for block in sound.blocks():
            meter.take(block)
    peak = meter.loudness().true_peak
    assert peak is not None
    assert peak == pytest.approx(-1, abs=0.1)


def test_what_is_closed_has_no_say_in_the_level(make_sound: MakeSound, tmp_path: Path) -> None:
    """Two masters that differ only in what is closed give the same clip, byte for byte, and the same gain."""
    made = []
    for seed in (1, 2):
        samples = spoken(10, 9) * 0.2
        samples[48_000 * 4 : 48_000 * 6] = spoken(2, seed) * seed * 0.4
        source, target = make_sound(f"closed-level-{seed}.wav", samples), tmp_path / f"{seed}.webm"
        gain = _cut_to(-23, source, target, Span(1000, 9000), [Span(4000, 6000)])
        made.append((gain, target.read_bytes()))
    assert made[0] == made[1]


@pytest.mark.parametrize("suffix", [".wav", ".webm", ".mp3", ".m4a"])
def test_the_same_clip_has_the_same_bytes(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """Made twice, a clip is the same file, so that it may be kept by its content."""
    source = _spoken_master(make_sound)
    for name in ("one", "two"):
        _cut_to(-20, source, tmp_path / f"{name}{suffix}", Span(3333, 9876))
    assert (tmp_path / f"one{suffix}").read_bytes() == (tmp_path / f"two{suffix}").read_bytes()


def test_a_wav_clip_keeps_the_depth(make_sound: MakeSound, tmp_path: Path) -> None:
    """Of a 24-bit master, a WAV clip for a sound editor has 24 bits and exactly the master's samples."""
    source, target = _spoken_master(make_sound), tmp_path / "a.wav"
    cut(source, target, Span(21_000, 25_000))
    whole, _ = soundfile.read(source, dtype="int32")
    clip, _ = soundfile.read(target, dtype="int32")
    assert soundfile.info(target).subtype == "PCM_24"
    assert np.array_equal(clip[480:-480], whole[21 * 48_000 : 25 * 48_000][480:-480])


def test_a_clip_from_the_access_copy(make_sound: MakeSound, tmp_path: Path) -> None:
    """Where only a copy is at hand, a clip is cut from it, as long to the sample."""
    copy = tmp_path / "copy.webm"
    make_copies(_spoken_master(make_sound), {"webm": copy})
    cut(copy, tmp_path / "a.wav", Span(22_000, 27_000))
    assert soundfile.info(tmp_path / "a.wav").frames == 5 * 48_000


@pytest.mark.parametrize("length_ms", [5, 19, 20, 21, 999, 1000, 1010, 2005])
def test_clips_of_every_length_are_faded_at_both_ends(make_sound: MakeSound, tmp_path: Path, length_ms: int) -> None:
    """However the sound falls into blocks, a clip rises from nothing, holds every sample between, and sinks again."""
    source, target = make_sound("level.flac", np.full(4 * 48_000, 0.5)), tmp_path / "a.wav"
    cut(source, target, Span(700, 700 + length_ms))
    clip, _ = soundfile.read(target, dtype="int16")
    edge = min(10, length_ms // 2) * 48
    assert len(clip) == length_ms * 48
    assert (np.diff(clip[:edge]) >= 0).all()
    assert (np.diff(clip[-edge:]) <= 0).all()
    assert (clip[edge:-edge] == 16_384).all()
    assert clip[0] < 16_384 / 3
    assert clip[-1] < 16_384 / 3


def test_a_clip_of_a_millisecond_breaks_nothing(make_sound: MakeSound, tmp_path: Path) -> None:
    """The shortest span that can be named is cut too."""
    cut(make_sound("level.flac", np.full(4 * 48_000, 0.5)), tmp_path / "a.wav", Span(700, 701))
    assert soundfile.info(tmp_path / "a.wav").frames == 48
