"""Measuring the levels of a sound while it streams by, at one zoom or several."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from archive.audio.levels import Levels
from archive.audio.masking import Mask
from archive.audio.reading import Block, Samples, open_sound
from archive.audio.steps import Gathered, Steps
from archive.values.timecode import Span

STEP_MS = 100
# For a bench where boundaries are nudged by 10 ms, for a page, and for a whole interview at a glance.
ZOOMS_MS = (10, 100, 1000)
_AT_ONCE = 360_000


class LevelMeter:
    """Gathers the peaks while blocks of one sound pass by."""

    def __init__(self, rate: int, step_ms: int = STEP_MS) -> None:
        self._steps = Steps(rate, step_ms)
        self._peaks = Gathered(np.maximum, np.float32)

    def take(self, block: Block) -> None:
        """Note the peaks of a block."""
        first, bounds = self._steps.of(block)
        self._peaks.add(first, _loudest(block.samples, bounds))

    def levels(self, closed: Iterable[Span] = (), step_ms: int = 0) -> Levels:
        """The levels so far, flat in every step that a closed span touches; at a coarser zoom if one is given."""
        own = self._steps.step_ms
        wanted = step_ms or own
        runs = [np.minimum(255, np.ceil(run * 255)).astype(np.uint8) for _first, run in self._peaks.in_runs(_AT_ONCE)]
        levels = _coarser(np.concatenate(runs) if runs else np.zeros(0, np.uint8), wanted // own)
        for span in closed:
            levels[span.start_ms // wanted : -(-span.end_ms // wanted)] = 0
        return Levels(wanted, tuple(levels.tobytes()))


def measure_levels(source: Path, closed: Iterable[Span] = ()) -> Levels:
    """The levels of a sound file, read through once."""
    spans = tuple(closed)
    with open_sound(source) as sound:
        meter, mask = LevelMeter(sound.rate), Mask.of(spans, sound.rate)
        for block in sound.blocks():
            meter.take(mask.on(block))
        return meter.levels(spans)


def _coarser(levels: NDArray[np.uint8], times: int) -> NDArray[np.uint8]:
    if times == 1 or not len(levels):
        return levels
    highest: NDArray[np.uint8] = np.maximum.reduceat(levels, np.arange(0, len(levels), times))
    return highest


def _loudest(samples: Samples, bounds: NDArray[np.int64]) -> NDArray[np.float64]:
    """How far each stretch goes from silence, from 0 to 1, the loudest channel counting."""
    scale = 1.0 if samples.dtype.kind == "f" else -float(np.iinfo(samples.dtype).min)
    highest = np.maximum.reduceat(samples, bounds, axis=0).astype(np.float64)
    lowest = np.minimum.reduceat(samples, bounds, axis=0).astype(np.float64)
    furthest: NDArray[np.float64] = np.nan_to_num(np.maximum(highest, -lowest).max(axis=1)) / scale
    return furthest
