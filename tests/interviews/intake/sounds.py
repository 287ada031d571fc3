"""Sounds and files for the tests of taking in."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray

RATE = 16_000


def murmur(seconds: float = 8, seed: int = 1) -> NDArray[np.float64]:
    """Something as changeable as speech, another for each seed."""
    random = np.random.default_rng(seed)
    at = np.arange(round(seconds * RATE)) / RATE
    steps = np.repeat(random.uniform(150, 1500, (4, round(seconds * 5) + 1)), RATE // 5, axis=1)[:, : len(at)]
    return sum(np.sin(2 * np.pi * np.cumsum(hertz) / RATE) for hertz in steps) * 0.1 + random.normal(0, 0.002, len(at))


def write(path: Path, seconds: float = 8, seed: int = 1, subtype: str | None = None) -> Path:
    """A file of such a sound, in the form that its name ends in."""
    soundfile.write(path, murmur(seconds, seed), RATE, subtype=subtype)
    return path
