"""How loud a sound is, measured while it streams by: integrated, range, momentary, short-term and true peak.

Sources: ITU-R BS.1770-4 (K-weighting, channel weights, gates, true peak); EBU R 128 with EBU Tech 3341 (momentary
400 ms, short-term 3 s) and EBU Tech 3342 (range). The filters for any sample rate follow B. De Man, "Evaluation of
implementations of the EBU R128 loudness measurement", Audio Engineering Society Convention 145, 2018.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive.audio.reading import Block
from archive.audio.steps import Gathered, Steps
from archive.audio.true_peak import TruePeakMeter

SPEECH_TARGET_LUFS = -23.0
HIGHEST_TRUE_PEAK_DBTP = -1.0

# The highest momentary loudness is looked for this finely: a window a tenth of a second off misses half a unit of it.
_STEP_MS = 20
_MOMENTARY_STEPS, _SHORT_TERM_STEPS = 20, 150
# The gated figures have a new window each tenth of a second.
_HOP = 5
_OFFSET = -0.691
_ABSOLUTE_GATE, _RELATIVE_GATE, _RANGE_GATE = -70.0, -10.0, -20.0
_QUIETEST_PERCENT, _LOUDEST_PERCENT = 10, 95
_SURROUND_WEIGHT = 1.41

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Loudness:
    """Loudness in LUFS, range in LU, true peak in dBTP. None where there is nothing above the gates, or too little."""

    integrated: float | None
    range: float | None
    true_peak: float | None
    momentary_max: float | None
    short_term_max: float | None


def gain_to(target_lufs: float, loudness: Loudness, *, highest_true_peak: float = HIGHEST_TRUE_PEAK_DBTP) -> float:
    """The gain in dB that brings a sound to a loudness, less where its true peak would go too high. 0 for silence."""
    if loudness.integrated is None:
        return 0.0
    wanted = target_lufs - loudness.integrated
    room = math.inf if loudness.true_peak is None else highest_true_peak - loudness.true_peak
    return min(wanted, room)


class LoudnessMeter:
    """Gathers the energy of each 20 ms while blocks of one sound pass by."""

    def __init__(self, rate: int, channels: Sequence[str]) -> None:
        """The channels by name, as FFmpeg calls them; unnamed ones count as the usual order of their number."""
        # Half a second to import, which whoever measures no loudness need not wait for.
        from scipy.signal import sosfilt

        self._filtered = sosfilt
        self._filter = k_weighting(rate)
        self._weights = channel_weights(channels)
        self._state = np.zeros((len(self._filter), 2, len(channels)))
        self._steps = Steps(rate, _STEP_MS)
        self._energies = Gathered(np.add)
        self._peak = TruePeakMeter(rate, len(channels))
        self._end = 0

    def take(self, block: Block) -> None:
        """Note the energies and the peak of a block."""
        self._peak.take(block)
        first, bounds = self._steps.of(block)
        self._end = block.end
        if not self._state.any() and not block.floats.any():
            self._energies.add(first, np.zeros(len(bounds)))
            return
        weighted, self._state = self._filtered(self._filter, block.floats, axis=0, zi=self._state)
        # What is far below hearing is nothing: without this, denormal numbers slow long silences down.
        self._state[np.abs(self._state) < 1e-20] = 0
        energies = np.square(weighted) @ self._weights
        self._energies.add(first, np.add.reduceat(energies, bounds))

    def loudness(self) -> Loudness:
        """The loudness of what has passed by. What is not a full step at the end does not count."""
        steps = self._steps.whole_steps(self._end)
        energies = self._energies.figures()[:steps]
        starts = self._steps.starts(steps + 1)
        momentary = _mean_over(energies, starts, _MOMENTARY_STEPS)
        short_term = _mean_over(energies, starts, _SHORT_TERM_STEPS)
        return Loudness(
            _integrated(momentary[::_HOP]),
            _range(short_term[::_HOP]),
            self._peak.decibels(),
            _highest(momentary),
            _highest(short_term),
        )


def k_weighting(rate: int) -> Floats:
    """The two second-order sections of BS.1770-4's K-weighting, for any sample rate (De Man 2018, as above)."""
    shelf_hz, shelf_db, shelf_q = 1681.9744509555319, 3.99984385397, 0.7071752369554193
    pass_hz, pass_q = 38.13547087613982, 0.5003270373253953
    k = math.tan(math.pi * shelf_hz / rate)
    high = 10 ** (shelf_db / 20)
    band = high**0.499666774155
    scale = 1 + k / shelf_q + k * k
    shelf = [
        (high + band * k / shelf_q + k * k) / scale,
        2 * (k * k - high) / scale,
        (high - band * k / shelf_q + k * k) / scale,
        1.0,
        2 * (k * k - 1) / scale,
        (1 - k / shelf_q + k * k) / scale,
    ]
    k = math.tan(math.pi * pass_hz / rate)
    scale = 1 + k / pass_q + k * k
    high_pass = [1.0, -2.0, 1.0, 1.0, 2 * (k * k - 1) / scale, (1 - k / pass_q + k * k) / scale]
    return np.array([shelf, high_pass])


_USUAL = {
    3: ("FL", "FR", "FC"),
    4: ("FL", "FR", "SL", "SR"),
    5: ("FL", "FR", "FC", "SL", "SR"),
    6: ("FL", "FR", "FC", "LFE", "SL", "SR"),
}


def channel_weights(channels: Sequence[str]) -> Floats:
    """BS.1770-4, table 3: 1 for the front, 1.41 for the surrounds, nothing for low-frequency effects.

    Where a layout has both side and back channels, only the side ones stand between 60 and 120 degrees.
    """
    if set(channels) <= {"NONE"}:
        channels = _USUAL.get(len(channels), channels)
    sides = {"SL", "SR"} & set(channels)
    surrounds = {"SL", "SR"} if sides else {"BL", "BR"}
    weights = {"LFE": 0.0, "LFE2": 0.0, **dict.fromkeys(surrounds, _SURROUND_WEIGHT)}
    return np.array([weights.get(name, 1.0) for name in channels])


def _mean_over(energies: Floats, starts: NDArray[np.int64], steps: int) -> Floats:
    """The mean square of each window of so many steps, a new window at each step."""
    if len(energies) < steps:
        return np.zeros(0)
    means: Floats = np.lib.stride_tricks.sliding_window_view(energies, steps).sum(axis=1)
    means /= starts[steps:] - starts[:-steps]
    return means


def _lufs(mean_square: Floats) -> Floats:
    with np.errstate(divide="ignore"):
        levels: Floats = _OFFSET + 10 * np.log10(mean_square)
    return levels


def _gated(means: Floats, relative_gate: float) -> Floats:
    """What lies above the absolute gate, and above the relative gate below the mean of that."""
    above = means[_lufs(means) >= _ABSOLUTE_GATE]
    if not len(above):
        return above
    return above[_lufs(above) >= float(_lufs(above.mean())) + relative_gate]


def _integrated(momentary: Floats) -> float | None:
    gated = _gated(momentary, _RELATIVE_GATE)
    return float(_lufs(gated.mean())) if len(gated) else None


def _range(short_term: Floats) -> float | None:
    """Tech 3342: from the 10th to the 95th percentile of the short-term loudness above the gates."""
    levels = np.sort(_lufs(_gated(short_term, _RANGE_GATE)))
    if not len(levels):
        return None
    low, high = (levels[round((len(levels) - 1) * percent / 100)] for percent in (_QUIETEST_PERCENT, _LOUDEST_PERCENT))
    return float(high - low)


def _highest(means: Floats) -> float | None:
    highest = float(means.max(initial=0.0))
    return float(_lufs(np.array(highest))) if highest > 0 else None
