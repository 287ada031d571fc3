"""Measuring the levels of a sound while it streams by."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from archive.audio.levels import Levels
from archive.audio.masking import Mask
from archive.audio.reading import Block, Samples, open_sound
from archive.values.timecode import Span

STEP_MS = 100


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
        loudest = _loudest(block.samples, bounds)
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


def _loudest(samples: Samples, bounds: list[int]) -> NDArray[np.float64]:
    """How far each stretch goes from silence, from 0 to 1, the loudest channel counting."""
    scale = 1.0 if samples.dtype.kind == "f" else -float(np.iinfo(samples.dtype).min)
    highest = np.maximum.reduceat(samples, bounds, axis=0).astype(np.float64)
    lowest = np.minimum.reduceat(samples, bounds, axis=0).astype(np.float64)
    furthest: NDArray[np.float64] = np.nan_to_num(np.maximum(highest, -lowest).max(axis=1)) / scale
    return furthest
