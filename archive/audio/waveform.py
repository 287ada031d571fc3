"""The levels of a sound for drawing it: one peak for every tenth of a second.

As bytes (version 1): the letters `LEVELS`, the version (1 byte), a zero byte, the step in milliseconds and the
number of peaks (4 bytes each, least significant first), then one byte a peak: 0 for silence to 255 for full scale.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from archive.audio.masking import Mask
from archive.audio.reading import Block, open_sound
from archive.errors import CannotRead
from archive.values.timecode import Span

STEP_MS = 100
_HEAD = struct.Struct("<6sBBII")
_NAME, _VERSION = b"LEVELS", 1


@dataclass(frozen=True)
class Levels:
    """Peaks from 0 to 255, one for each step; a peak is 0 in every step that a closed range touches."""

    step_ms: int
    peaks: tuple[int, ...]

    def to_bytes(self) -> bytes:
        """As kept in a file."""
        return _HEAD.pack(_NAME, _VERSION, 0, self.step_ms, len(self.peaks)) + bytes(self.peaks)

    @classmethod
    def from_bytes(cls, content: bytes, name: str = "levels") -> Levels:
        """As read back; raises CannotRead for anything else."""
        if len(content) >= _HEAD.size:
            word, version, _, step_ms, count = _HEAD.unpack_from(content)
            if (word, version) == (_NAME, _VERSION) and len(content) == _HEAD.size + count:
                return cls(step_ms, tuple(content[_HEAD.size :]))
        raise CannotRead(name, 0, "it does not hold levels of version 1", "Make it again with: lemel renditions")


@dataclass
class LevelMeter:
    """Gathers the peaks while blocks of one sound pass by."""

    rate: int
    peaks: NDArray[np.float64] = field(default_factory=lambda: np.zeros(0))

    def take(self, block: Block) -> None:
        """Note the peaks of a block."""
        first = self._step_of(block.start)
        last = self._step_of(block.end - 1)
        bounds = [max(0, self._start_of(step) - block.start) for step in range(first, last + 1)]
        loudest = np.maximum.reduceat(_strength(block), bounds)
        if len(self.peaks) <= last:
            self.peaks = np.concatenate([self.peaks, np.zeros(last + 1 - len(self.peaks))])
        self.peaks[first : last + 1] = np.maximum(self.peaks[first : last + 1], loudest)

    def levels(self, closed: Iterable[Span] = ()) -> Levels:
        """The levels so far, flat in every step that a closed span touches."""
        peaks = np.minimum(255, np.ceil(self.peaks * 255)).astype(np.uint8)
        for span in closed:
            peaks[span.start_ms // STEP_MS : -(-span.end_ms // STEP_MS)] = 0
        return Levels(STEP_MS, tuple(peaks.tolist()))

    def _step_of(self, sample: int) -> int:
        return sample * 1000 // (self.rate * STEP_MS)

    def _start_of(self, step: int) -> int:
        return -(-step * self.rate * STEP_MS // 1000)


def measure_levels(source: Path, closed: Iterable[Span] = ()) -> Levels:
    """The levels of a sound file, read through once."""
    spans = tuple(closed)
    with open_sound(source) as sound:
        meter, mask = LevelMeter(sound.rate), Mask.of(spans, sound.rate)
        for block in sound.blocks():
            meter.take(mask.on(block))
        return meter.levels(spans)


def _strength(block: Block) -> NDArray[np.float64]:
    """How far each sample is from silence, from 0 to 1, the loudest channel counting."""
    samples = block.samples
    scale = 1.0 if samples.dtype.kind == "f" else -float(np.iinfo(samples.dtype).min)
    furthest = np.maximum(samples.max(axis=1), -samples.min(axis=1).astype(np.float64))
    strength: NDArray[np.float64] = np.nan_to_num(furthest) / scale
    return strength
