"""Sounds for the tests, written by soundfile where it can, so that the code under test reads the work of others."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile
from numpy.typing import NDArray

Wave = NDArray[np.float64]
MakeSound = Callable[..., Path]

_BY_SOUNDFILE = {
    ".wav": ("WAV", "PCM_16"),
    ".flac": ("FLAC", "PCM_16"),
    ".aiff": ("AIFF", "PCM_16"),
    ".mp3": ("MP3", "MPEG_LAYER_III"),
    ".ogg": ("OGG", "VORBIS"),
    ".opus": ("OGG", "OPUS"),
}
_BY_AV = {".webm": ("webm", "libopus"), ".m4a": ("mp4", "aac")}


def tone(seconds: float, rate: int = 48_000, *, hertz: float = 440, level: float = 1.0) -> Wave:
    """A sine wave."""
    return level * np.sin(2 * np.pi * hertz * np.arange(round(seconds * rate)) / rate)


def noise(seconds: float, rate: int = 48_000, *, channels: int = 1, seed: int = 7) -> Wave:
    """Noise at about a third of full scale, the same at each call."""
    return np.random.default_rng(seed).uniform(-0.6, 0.6, (round(seconds * rate), channels))


@pytest.fixture(scope="session")
def make_sound(tmp_path_factory: pytest.TempPathFactory) -> MakeSound:
    """Write samples to a file whose suffix says the form; gives its path."""
    folder = tmp_path_factory.mktemp("sounds")

    def make(name: str, samples: Wave, rate: int = 48_000, subtype: str | None = None) -> Path:
        path = folder / name
        if path.suffix in _BY_SOUNDFILE:
            form, usual = _BY_SOUNDFILE[path.suffix]
            soundfile.write(path, samples, rate, format=form, subtype=subtype or usual)
        else:
            _write_by_av(path, samples, rate)
        return path

    return make


def _write_by_av(path: Path, samples: Wave, rate: int) -> None:
    form, codec = _BY_AV[path.suffix]
    with av.open(str(path), "w", format=form) as container:
        stream = container.add_stream(codec, rate=rate)
        stream.layout = "mono"
        frame = av.AudioFrame.from_ndarray((samples.reshape(1, -1) * 32767).astype(np.int16), "s16", "mono")
        frame.sample_rate, frame.pts, frame.time_base = rate, 0, Fraction(1, rate)
        container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


@pytest.fixture(scope="session")
def read_back() -> Callable[[Path], Wave]:
    """The samples of a mono file as decoded by FFmpeg with nothing of ours between, from -1 to 1."""

    def read(path: Path) -> Wave:
        with av.open(str(path)) as container:
            frames = [frame.to_ndarray().reshape(-1) for frame in container.decode(audio=0)]
        samples = np.concatenate(frames)
        return samples / np.iinfo(samples.dtype).max if samples.dtype.kind == "i" else samples.astype(np.float64)

    return read


@pytest.fixture(scope="session")
def wave() -> Callable[..., Wave]:
    """Makes tones: seconds, rate, hertz=, level=."""
    return tone


@pytest.fixture(scope="session")
def hiss() -> Callable[..., Wave]:
    """Makes noise: seconds, rate, channels=, seed=."""
    return noise
