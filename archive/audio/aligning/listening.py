"""A sound as the decoder wants it, 16,000 samples a second of one channel in a file, with its pauses and levels."""

from __future__ import annotations

import os
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from av.audio.frame import AudioFrame
from av.audio.resampler import AudioResampler
from numpy.typing import NDArray

from archive.audio.aligning.model import Stop, StoppedError
from archive.audio.pauses import PauseMeter
from archive.audio.reading import Block, Sound, open_sound
from archive.values.timecode import Span

RATE = 16_000
# The decoder stumbles over digital silence: a murmur far below any voice is laid under everything.
DITHER_STEPS = 4
_SEED = 1868
STEP_MS = 10


@dataclass(frozen=True)
class Listening:
    """The samples' file, how long the sound lasts, its pauses, and its level in each 10 ms."""

    samples: Path
    duration_ms: int
    pauses: tuple[Span, ...]
    levels_db: NDArray[np.float32]

    def quietest(self, start_ms: int, end_ms: int) -> int:
        """The middle of the quietest 50 ms that begin in a stretch."""
        first, last = max(0, start_ms // STEP_MS), max(start_ms // STEP_MS + 1, end_ms // STEP_MS)
        levels = self.levels_db[first : last + 4]
        if len(levels) < 5:
            return min(max(start_ms, 0), self.duration_ms)
        smooth = np.convolve(levels, np.ones(5) / 5, "valid")
        return (first + int(smooth.argmin()) + 2) * STEP_MS

    def speech_ms(self, start_ms: int, end_ms: int) -> int:
        """How much of a stretch is not pause."""
        if end_ms <= start_ms:
            return 0
        first = bisect_right(self.pauses, start_ms, key=lambda pause: pause.end_ms)
        last = bisect_left(self.pauses, end_ms, key=lambda pause: pause.start_ms)
        shared = (min(end_ms, pause.end_ms) - max(start_ms, pause.start_ms) for pause in self.pauses[first:last])
        return end_ms - start_ms - sum(shared)


def listen(source: Path, samples: Path, stop: Stop = lambda: False) -> Listening:
    """Read a sound once; the samples' file is made whole or not at all."""
    noise = np.random.default_rng(_SEED)
    aside = samples.with_suffix(".part")
    meter = PauseMeter(RATE, 1)
    length = 0
    with open_sound(source) as sound, aside.open("wb") as out:
        for piece in _resampled(sound):
            if stop():
                raise StoppedError
            meter.take(Block(length, piece[:, None]))
            length += len(piece)
            murmur = noise.integers(-DITHER_STEPS, DITHER_STEPS, len(piece), dtype=np.int32, endpoint=True)
            out.write(np.clip(piece + murmur, -32768, 32767).astype("<i2").tobytes())
    os.replace(aside, samples)
    return Listening(samples, length * 1000 // RATE, meter.pauses(), meter.levels_db())


def samples_between(samples: Path, start_ms: int, end_ms: int) -> bytes:
    """A stretch of the samples' file."""
    with samples.open("rb") as file:
        file.seek(start_ms * RATE // 1000 * 2)
        return file.read((end_ms - start_ms) * RATE // 1000 * 2)


def _resampled(sound: Sound) -> Iterator[NDArray[np.int16]]:
    """The sound's channels as one, about a second at a time."""
    to_rate = AudioResampler(format="s16", layout="mono", rate=RATE)
    for block in sound.blocks():
        mixed = block.floats.mean(axis=1)
        mono = np.clip(np.rint(mixed * 32767), -32768, 32767).astype(np.int16)
        frame = AudioFrame.from_ndarray(mono[None, :], format="s16", layout="mono")
        frame.sample_rate = sound.rate
        yield from (piece.to_ndarray()[0] for piece in to_rate.resample(frame))
    yield from (piece.to_ndarray()[0] for piece in to_rate.resample(None))
