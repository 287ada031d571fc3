"""How much of a sound was cut off at full scale when it was recorded."""

from __future__ import annotations

import numpy as np

from archive.audio.reading import Block

# A run of so many samples at the very edge is no accident; single ones occur in any loud recording.
_LEAST_RUN = 3
_EDGE = 0.9999


class ClippingMeter:
    """Counts, in each channel, the samples that stand at full scale in runs of three and more."""

    def __init__(self, channels: int) -> None:
        self._clipped, self._all = 0, 0
        self._run = np.zeros(channels, np.int64)

    def take(self, block: Block) -> None:
        """Note a block."""
        samples = block.floats
        self._all += samples.size
        if max(float(samples.max()), -float(samples.min())) < _EDGE:
            self._run[:] = 0
            return
        for channel in range(samples.shape[1]):
            self._take_channel(np.abs(samples[:, channel]) >= _EDGE, channel)

    def share(self) -> float:
        """The share of samples that are clipped, from 0 to 1."""
        return self._clipped / self._all if self._all else 0.0

    def _take_channel(self, at_edge: np.ndarray[tuple[int], np.dtype[np.bool_]], channel: int) -> None:
        changes = np.flatnonzero(np.diff(np.concatenate([[False], at_edge, [False]]).astype(np.int8)))
        before, self._run[channel] = int(self._run[channel]), 0
        for start, end in changes.reshape(-1, 2):
            carried = before if start == 0 else 0
            length = int(end - start) + carried
            if length >= _LEAST_RUN:
                # What was carried over counts now, if it was too short to count by itself.
                self._clipped += length - (carried if carried >= _LEAST_RUN else 0)
            if end == len(at_edge):
                self._run[channel] = length
