"""How loud a sound file is, moment by moment, as a decoder of its own hears it."""

from __future__ import annotations

import io

import av
import numpy as np
from numpy.typing import NDArray


def loudness(content: bytes, start_ms: int, end_ms: int) -> float:
    """The highest sample from a time to a time, 0 to 1."""
    samples, rate = decoded(content)
    part = samples[start_ms * rate // 1000 : end_ms * rate // 1000]
    assert len(part), f"the sound ends before {start_ms} ms"
    return float(np.abs(part).max())


def decoded(content: bytes) -> tuple[NDArray[np.float32], int]:
    """The samples of a sound file in mono, each at its own time, and their rate."""
    with av.open(io.BytesIO(content)) as container:
        stream = container.streams.audio[0]
        resampler = av.AudioResampler("flt", "mono", stream.rate)
        frames = [*container.decode(stream), None]
        parts = [part.to_ndarray()[0] for frame in frames for part in resampler.resample(frame)]
        return np.concatenate(parts), stream.rate
