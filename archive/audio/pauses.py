"""Pauses in speech, found by energy against a noise floor that is followed through the recording."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from archive.audio.reading import Block
from archive.audio.steps import Gathered, Steps
from archive.values.timecode import Span

SILENCE_DBFS = -60.0

_STEP_MS = 10
_SHORTEST_MS = 250
# A click or a breath this short does not end a pause; a dip this short inside a word is none.
_CLICK_MS = 40
_LOWEST_DB = -100.0
_FLOOR_WINDOW_STEPS = 3000
_FLOOR_PERCENT, _SPEECH_PERCENT = 5, 90
# The threshold lies this share of the way from the floor up to speech, and between these distances from the floor.
_SHARE, _LEAST_DB, _MOST_DB = 0.35, 4.0, 20.0
# Where speech stands no further than this above the floor, there is nothing to tell apart.
_TOO_EVEN_DB = 9.0

# What is worked out for an hour at a time takes no more memory for ten hours.
_AT_ONCE_STEPS = 360_000

Floats = NDArray[np.float32]


class PauseMeter:
    """Gathers the energy of each 10 ms while blocks of one sound pass by."""

    def __init__(self, rate: int, channels: int) -> None:
        self._share = np.full(channels, 1 / channels, np.float32)
        self._steps = Steps(rate, _STEP_MS)
        self._energies = Gathered(np.add, np.float32)
        self._end = 0

    def take(self, block: Block) -> None:
        """Note the energies of a block."""
        first, bounds = self._steps.of(block)
        # By a product of matrices: the mean along so short an axis takes ten times as long.
        mean_square = np.square(block.floats) @ self._share
        self._energies.add(first, np.add.reduceat(mean_square, bounds, dtype=np.float64))
        self._end = block.end

    def levels_db(self) -> Floats:
        """The level of each 10 ms, in dB of full scale, -100 at the lowest."""
        runs = [self._levels(first, energies) for first, energies in self._energies.in_runs(_AT_ONCE_STEPS)]
        return np.concatenate(runs) if runs else np.zeros(0, np.float32)

    def _levels(self, first: int, energies: NDArray[np.float64]) -> Floats:
        starts = np.minimum(self._steps.starts(first + len(energies) + 1, first), self._end)
        mean = energies / np.maximum(1, np.diff(starts))
        return (10 * np.log10(np.maximum(mean, 10 ** (_LOWEST_DB / 10)))).astype(np.float32)

    def silence_share(self) -> float:
        """The share of the time below -60 dBFS, where no recorder in a room ever is."""
        levels = self.levels_db()
        return float((levels < SILENCE_DBFS).mean()) if len(levels) else 0.0

    def pauses(self) -> tuple[Span, ...]:
        """Every stretch of a quarter of a second and more without speech."""
        quiet = quiet_steps(self.levels_db())
        # A bit more than the end's own rounding, so that a pause never reaches past the sound.
        last_ms = self._end * 1000 // self._steps.rate
        found = []
        for start, end in _runs(quiet):
            start_ms, end_ms = start * _STEP_MS, min(end * _STEP_MS, last_ms)
            if end_ms - start_ms >= _SHORTEST_MS:
                found.append(Span(start_ms, end_ms))
        return tuple(found)


def quiet_steps(levels_db: Floats) -> NDArray[np.bool_]:
    """Which steps lie below the threshold, clicks passed over."""
    if not len(levels_db):
        return np.zeros(0, bool)
    middles, floors = _floor(levels_db)
    heard = levels_db[levels_db > SILENCE_DBFS - 15]
    speech = float(np.percentile(heard, _SPEECH_PERCENT)) if len(heard) else _LOWEST_DB
    quiet = np.zeros(len(levels_db), bool)
    for first in range(0, len(levels_db), _AT_ONCE_STEPS):
        levels = levels_db[first : first + _AT_ONCE_STEPS]
        floor = np.interp(np.arange(first, first + len(levels)), middles, floors)
        height = np.clip((speech - floor) * _SHARE, _LEAST_DB, _MOST_DB)
        below = (levels < floor + height) & ((speech - floor) >= _TOO_EVEN_DB)
        quiet[first : first + len(levels)] = below | (levels <= max(SILENCE_DBFS, _LOWEST_DB + 1))
    for start, end in _runs(~quiet):
        if (end - start) * _STEP_MS <= _CLICK_MS:
            quiet[start:end] = True
    return quiet


def _floor(levels_db: Floats) -> tuple[list[int], list[float]]:
    """Steps and the noise floor at each: a low percentile of the half minute around; between them it is a line."""
    edges = range(0, len(levels_db), _FLOOR_WINDOW_STEPS // 2)
    middles, floors = [], []
    for start in edges:
        window = levels_db[max(0, start - _FLOOR_WINDOW_STEPS // 2) : start + _FLOOR_WINDOW_STEPS // 2]
        middles.append(start)
        floors.append(float(np.percentile(window, _FLOOR_PERCENT)))
    return middles, floors


def _runs(of: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Where the flags are true: from the first to before the second."""
    changes = np.flatnonzero(np.diff(np.concatenate([[False], of, [False]]).astype(np.int8)))
    return [(int(start), int(end)) for start, end in changes.reshape(-1, 2)]
