"""Access copies: the closed range measured in what a browser would decode."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pyloudnorm
import pytest

from archive.audio.access import make_copies
from archive.audio.cutting import cut
from archive.audio.guarding import guarded_span
from archive.audio.probe import probe
from archive.audio.reading import open_sound
from archive.values.timecode import Span

RATES = {"webm": 48_000, "mp3": 24_000}
CLOSED = Span(2000, 4000)
# The room that a codec's own windows may need at the edges.
MARGIN_S = 0.05


def _copies(source: Path, folder: Path, **how: object) -> dict[str, Path]:
    targets = {form: folder / f"copy.{form}" for form in RATES}
    make_copies(source, targets, **how)  # type: ignore[arg-type]
    return targets


def _decibels(samples: np.ndarray) -> float:
    """Of full scale, by the strongest sample."""
    return 20 * float(np.log10(max(np.abs(samples).max(), 1e-9)))


@pytest.mark.parametrize("with_", ["silence", "tone"])
def test_what_was_closed_leaves_no_bit_behind(
    make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray], tmp_path: Path, with_: str
) -> None:
    """Two masters that differ only in what is closed give the same copies, byte for byte, and the same levels."""
    made = []
    for seed in (1, 2):
        samples = hiss(4)
        samples[48_000:96_000] = hiss(1, seed=seed)
        source = make_sound(f"secret-{seed}.wav", samples, 48_000)
        folder = tmp_path / str(seed)
        folder.mkdir()
        targets = {form: folder / f"copy.{form}" for form in RATES}
        levels = make_copies(source, targets, closed=[Span(1000, 2000)], with_=with_)  # type: ignore[arg-type]
        made.append((levels, {form: path.read_bytes() for form, path in targets.items()}))
    assert made[0] == made[1]


@pytest.mark.parametrize(
    ("suffix", "rate"), [(".wav", 48_000), (".wav", 44_100), (".flac", 44_100), (".webm", 48_000), (".mp3", 44_100)]
)
def test_the_closed_range_holds_nothing_of_a_full_scale_tone(
    make_sound: Callable[..., Path], wave: Callable[..., np.ndarray], read_back: Callable[[Path], np.ndarray],
    tmp_path: Path, suffix: str, rate: int,
) -> None:  # fmt: skip
    """Decoded again, the closed range lies below -80 dB of full scale, where the master had 0 dB."""
    source = make_sound(f"full-{rate}{suffix}", wave(6, rate), rate)
    assert _decibels(read_back(source)[2 * rate : 4 * rate]) > -0.5
    for form, path in _copies(source, tmp_path, closed=[CLOSED]).items():
        heard, at = read_back(path), RATES[form]
        inside = heard[round((2 + MARGIN_S) * at) : round((4 - MARGIN_S) * at)]
        assert _decibels(inside) < -80, form
        assert _decibels(heard[: round(1.9 * at)]) > -3, form
        assert _decibels(heard[round(4.1 * at) : round(5.9 * at)]) > -3, form


@pytest.mark.parametrize("channels", [1, 2])
def test_with_its_guard_the_whole_closure_is_gone(
    make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray], tmp_path: Path, channels: int
) -> None:
    """Masked with its guard, every sample of the closure itself lies below -80 dB, in each form, mono and stereo.

    So it does in a clip that is cut across it; the levels are flat wherever the guard reaches, and nowhere else.
    """
    source = make_sound(f"guarded-{channels}.wav", hiss(6, channels=channels))
    targets = {form: tmp_path / f"copy.{form}" for form in ("webm", "mp3", "m4a")}
    guarded = guarded_span(CLOSED, (), 6000)
    levels = make_copies(source, targets, closed=[guarded])
    assert [step for step, peak in enumerate(levels.peaks) if not peak] == list(range(19, 41))
    for form in targets:
        cut(source, tmp_path / f"clip.{form}", Span(0, 5900), closed=[guarded])
    for form, path in [*targets.items(), *((form, tmp_path / f"clip.{form}") for form in targets)]:
        with open_sound(path) as sound:
            heard = np.concatenate([block.floats for block in sound.blocks()])
            at = sound.rate
        # AAC starts one frame late by its nature, and its container does not tell.
        late = 1024 if form == "m4a" else 0
        assert _decibels(heard[2 * at + late : 4 * at]) < -80, form
        assert _decibels(heard[: round(1.9 * at)]) > -10, form
        assert _decibels(heard[round(4.1 * at) : round(5.9 * at)]) > -10, form


def test_with_a_tone_only_the_tone_is_heard(
    make_sound: Callable[..., Path],
    wave: Callable[..., np.ndarray],
    read_back: Callable[[Path], np.ndarray],
    tmp_path: Path,
) -> None:
    """The master's 440 Hz are gone from the closed range; the soft 1000 Hz stand there instead."""
    source = make_sound("toned.wav", wave(6))
    for form, path in _copies(source, tmp_path, closed=[CLOSED], with_="tone").items():
        at = RATES[form]
        inside = read_back(path)[round(2.1 * at) : round(3.9 * at)]
        spectrum = np.abs(np.fft.rfft(inside * np.hanning(len(inside))))
        hertz = np.fft.rfftfreq(len(inside), 1 / at)
        assert abs(hertz[spectrum.argmax()] - 1000) < 2, form
        assert spectrum[np.abs(hertz - 440) < 5].max() < spectrum.max() / 1000, form


def test_as_long_and_as_loud_as_the_master(
    make_sound: Callable[..., Path],
    wave: Callable[..., np.ndarray],
    read_back: Callable[[Path], np.ndarray],
    tmp_path: Path,
) -> None:
    """Flushed to the end: as long as the master, and the open part as loud, by a program of another's.

    The MP3 encoder takes 0.45 dB off by itself, against clipping.
    """
    source = make_sound("fair.wav", wave(7.123, 44_100, hertz=1000, level=0.25), 44_100)
    loudness = pyloudnorm.Meter(44_100).integrated_loudness(read_back(source)[: 44_100 * 2])
    for form, path in _copies(source, tmp_path, closed=[Span(3000, 4000)]).items():
        assert probe(path).duration_ms == pytest.approx(7123, abs=2), form
        heard, at = read_back(path), RATES[form]
        assert pyloudnorm.Meter(at).integrated_loudness(heard[: at * 2]) == pytest.approx(loudness, abs=0.5), form


@pytest.mark.parametrize(("channels", "wanted"), [(1, 1), (2, 2), (6, 2)])
def test_mono_stays_mono_and_more_becomes_stereo(
    make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray], tmp_path: Path, channels: int, wanted: int
) -> None:
    """Two microphones stay apart in the copies; what has more channels is brought down to two."""
    for path in _copies(make_sound(f"{channels}.wav", hiss(2, channels=channels)), tmp_path).values():
        assert probe(path).channels == wanted


def test_the_same_bytes_each_time_and_no_tags(
    make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray], tmp_path: Path
) -> None:
    """The same master gives the same file, and the master's own tags (a name, a remark) do not come along."""
    plain, tagged = make_sound("untagged.wav", hiss(2)), tmp_path / "tagged.flac"
    with av.open(str(plain)) as source, av.open(str(tagged), "w") as target:
        target.metadata["artist"] = "Abel Secret"
        stream = target.add_stream("flac", rate=48_000)
        stream.layout = "mono"
        for frame in source.decode(audio=0):
            target.mux(stream.encode(frame))
        target.mux(stream.encode(None))
    assert b"Abel Secret" in tagged.read_bytes()
    folders = [tmp_path / "one", tmp_path / "two"]
    made = []
    for folder in folders:
        folder.mkdir()
        made.append({form: path.read_bytes() for form, path in _copies(tagged, folder).items()})
    assert made[0] == made[1]
    for content in made[0].values():
        assert b"Abel" not in content


def test_a_broken_end_still_gives_a_copy(
    make_sound: Callable[..., Path], hiss: Callable[..., np.ndarray], tmp_path: Path
) -> None:
    """A master that breaks off is copied up to where it breaks off."""
    whole = make_sound("breaks.flac", hiss(8)).read_bytes()
    half = tmp_path / "half.flac"
    half.write_bytes(whole[: len(whole) // 2])
    for path in _copies(half, tmp_path).values():
        assert 3500 < probe(path).duration_ms < 4100
