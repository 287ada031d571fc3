"""Mel-frequency cepstra: how a voice is coloured, every 10 ms, whatever it says and however loudly.

Source: S. B. Davis and P. Mermelstein, "Comparison of parametric representations for monosyllabic word recognition in
continuously spoken sentences", IEEE Transactions on Acoustics, Speech, and Signal Processing 28 (1980), 357-366; the
mel as 2595 log10(1 + f/700) after D. O'Shaughnessy, "Speech communication: human and machine" (1987). From memory.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.fft import dct

RATE = 16_000
STEP = RATE // 100
COUNT = 16

_WINDOW = RATE // 40
_POINTS = 512
_FILTERS = 26
# Old recorders carry little above 6 kHz, and hum below 100 Hz.
_LOWEST_HZ, _HIGHEST_HZ = 100.0, 6_000.0
_EMPHASIS = 0.97
_AT_ONCE = 6_000

Floats = NDArray[np.float64]


def cepstra(samples: NDArray[np.float32]) -> tuple[Floats, Floats]:
    """The coefficients 1 to 16 of every 10 ms, a row each, and the level of each in dB."""
    count = max(0, 1 + (len(samples) - _WINDOW) // STEP)
    rows, levels = np.empty((count, COUNT)), np.empty(count)
    raised = np.append(samples[:1], samples[1:] - np.float32(_EMPHASIS) * samples[:-1])
    window = np.hamming(_WINDOW)
    for first in range(0, count, _AT_ONCE):
        last = min(count, first + _AT_ONCE)
        starts = np.arange(first, last)[:, None] * STEP + np.arange(_WINDOW)
        power = np.abs(np.fft.rfft(raised[starts] * window, _POINTS)) ** 2
        bands = np.log(power @ _filters().T + 1e-10)
        rows[first:last] = dct(bands, type=2, norm="ortho", axis=1)[:, 1 : COUNT + 1]
        levels[first:last] = 10 * np.log10(np.mean(np.square(samples[starts]), axis=1) + 1e-10)
    return rows, levels


@cache
def _filters() -> Floats:
    """Triangles, evenly spaced in mel."""
    mels = np.linspace(_mel(_LOWEST_HZ), _mel(_HIGHEST_HZ), _FILTERS + 2)
    edges = 700 * (10 ** (mels / 2595) - 1)
    hertz = np.arange(_POINTS // 2 + 1) * RATE / _POINTS
    left, middle, right = edges[:-2, None], edges[1:-1, None], edges[2:, None]
    rising, falling = (hertz - left) / (middle - left), (right - hertz) / (right - middle)
    triangles: Floats = np.maximum(0, np.minimum(rising, falling))
    return triangles


def _mel(hertz: float) -> float:
    return float(2595 * np.log10(1 + hertz / 700))
