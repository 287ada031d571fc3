"""A fingerprint that tells the same sound in another format, or cut a little differently, from another recording.

Each tenth of a second has 16 bits: whether the step from one band of pitch to the next is higher than it was 0.4 s
before. A codec, a gain or a shift of some milliseconds changes few of them; another recording agrees in half.
The idea of signs of energy differences is that of J. Haitsma and T. Kalker, "A highly robust audio fingerprinting
system", ISMIR 2002; the bands, the steps and the matching are our own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive.audio.reading import Block
from archive.errors import OutOfRange

STEP_MS = 100
# The share of agreeing bits from which two sounds are one; see tests/audio/test_same_sound.py for what was measured.
SAME_SHARE = 0.70
LEAST_SECONDS = 5

_BANDS = 17
_LOWEST_HZ, _HIGHEST_HZ = 200.0, 2000.0
_WORKING_HZ = 8000
_WINDOW_STEPS = 4
# Frames this far below the loudest tenth are room noise, which is another one in every copy.
_QUIET_DB = 40.0
# Shifts at which less of the shorter one is compared are left out: little agrees with anything by chance.
_LEAST_OVERLAP = 0.3
_VERSION = b"SAME1\0"

Bits = NDArray[np.uint16]


@dataclass(frozen=True)
class Fingerprint:
    """The bits of each tenth of a second, and which of those are loud enough to count."""

    bits: Bits
    heard: NDArray[np.bool_]

    def to_bytes(self) -> bytes:
        """As kept: the letters SAME1, a zero byte, then two bytes a step and one bit a step."""
        return (
            _VERSION
            + len(self.bits).to_bytes(4, "little")
            + self.bits.astype("<u2").tobytes()
            + np.packbits(self.heard).tobytes()
        )

    @classmethod
    def from_bytes(cls, content: bytes) -> Fingerprint:
        """As read back; raises OutOfRange for anything else."""
        count = int.from_bytes(content[6:10], "little")
        if content[:6] != _VERSION or len(content) != 10 + 2 * count + -(-count // 8):
            raise OutOfRange("This is no fingerprint of a sound; take the recording in again.")
        bits = np.frombuffer(content, "<u2", count, 10).astype(np.uint16)
        heard = np.unpackbits(np.frombuffer(content, np.uint8, offset=10 + 2 * count), count=count).astype(bool)
        return cls(bits, heard)


@dataclass(frozen=True)
class Likeness:
    """How alike two sounds are where they agree best: share of agreeing bits, and where the second one starts.

    `shift_ms` is the time in the first sound at which the second one begins; `seconds` is how much was compared.
    """

    share: float
    shift_ms: int
    seconds: float

    @property
    def same(self) -> bool:
        """Whether it is the same sound: enough of it agrees, and enough was compared."""
        return self.share >= SAME_SHARE and self.seconds >= LEAST_SECONDS


class FingerprintMeter:
    """Gathers the fingerprint while blocks of one sound pass by."""

    def __init__(self, rate: int, channels: int) -> None:
        self._share = np.full(channels, 1 / channels, np.float32)
        self._every = max(1, round(rate / _WORKING_HZ))
        self._rate = rate / self._every
        self._taps = _low_pass(self._every)
        self._raw: NDArray[np.float32] = np.zeros(0, np.float32)
        self._low: NDArray[np.float32] = np.zeros(0, np.float32)
        self._low_start = 0
        self._step = 0
        self._length = round(self._rate * STEP_MS / 1000 * _WINDOW_STEPS)
        self._shape = np.hanning(self._length).astype(np.float32)
        edges = np.geomspace(_LOWEST_HZ, _HIGHEST_HZ, _BANDS + 1) * self._length / self._rate
        self._edges = np.round(edges).astype(int)
        self._energies: list[NDArray[np.float32]] = []

    def take(self, block: Block) -> None:
        """Note a block."""
        mono = block.floats @ self._share
        self._raw = np.concatenate([self._raw, mono])
        if len(self._raw) >= len(self._taps):
            windows = np.lib.stride_tricks.sliding_window_view(self._raw, len(self._taps))[:: self._every]
            self._low = np.concatenate([self._low, windows @ self._taps])
            self._raw = self._raw[len(windows) * self._every :]
        self._take_windows()

    def fingerprint(self) -> Fingerprint:
        """The fingerprint of what has passed by."""
        if self._step <= _WINDOW_STEPS:
            return Fingerprint(np.zeros(0, np.uint16), np.zeros(0, bool))
        energies = np.concatenate(self._energies)
        energies += np.float32(1e-12)
        np.log10(energies, out=energies)
        steps = np.diff(energies, axis=1)
        rises = steps[_WINDOW_STEPS:] > steps[:-_WINDOW_STEPS]
        bits = np.zeros(len(rises), np.uint16)
        for band in range(_BANDS - 1):
            bits |= rises[:, band].astype(np.uint16) << band
        levels = 10 * energies.max(axis=1)
        loud = float(np.percentile(levels, 95))
        heard = (levels > max(loud - _QUIET_DB, -80.0))[_WINDOW_STEPS:]
        return Fingerprint(bits, heard)

    def _take_windows(self) -> None:
        """Note the bands of every window that is whole by now."""
        numbers = np.arange(self._step, self._step + 1 + len(self._low) * _WINDOW_STEPS // self._length)
        starts = self._start_of(numbers)
        starts = starts[starts + self._length <= len(self._low)]
        if len(starts):
            self._energies.append(
                self._bands(np.lib.stride_tricks.sliding_window_view(self._low, self._length)[starts])
            )
            self._step += len(starts)
            passed = int(self._start_of(np.array(self._step)))
            self._low, self._low_start = self._low[passed:], self._low_start + passed

    def _start_of(self, steps: NDArray[np.int64]) -> NDArray[np.int64]:
        starts: NDArray[np.int64] = np.round(steps * self._rate * STEP_MS / 1000).astype(np.int64) - self._low_start
        return starts

    def _bands(self, windows: NDArray[np.float32]) -> NDArray[np.float32]:
        if not windows.any():
            return np.zeros((len(windows), _BANDS), np.float32)
        power = np.square(np.abs(np.fft.rfft(windows * self._shape, axis=1)))
        sums = np.add.reduceat(power[:, : self._edges[-1]], self._edges[:-1], axis=1)
        return np.asarray(sums / self._length**2, np.float32)


def likeness(first: Fingerprint, second: Fingerprint) -> Likeness:
    """How alike two sounds are at the shift where they agree best."""
    shorter = min(len(first.bits), len(second.bits))
    if not shorter:
        return Likeness(0.0, 0, 0.0)
    agreeing, compared = _correlated(first, second)
    heard = min(int(first.heard.sum()), int(second.heard.sum()))
    least = max(1, min(LEAST_SECONDS * 1000 // STEP_MS, shorter // 2), round(_LEAST_OVERLAP * heard))
    share = np.where(compared >= least, (1 + agreeing / np.maximum(compared, 1) / (_BANDS - 1)) / 2, 0.0)
    best = int(share.argmax())
    return Likeness(float(share[best]), (best - len(second.bits) + 1) * STEP_MS, float(compared[best]) * STEP_MS / 1000)


def _correlated(first: Fingerprint, second: Fingerprint) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """At each shift, the sum of agreeing less disagreeing bits, and how many steps both were heard in."""
    length = len(first.bits) + len(second.bits) - 1
    size = 1 << (length - 1).bit_length()
    spectrum = np.zeros(size // 2 + 1, np.complex128)
    for band in range(_BANDS - 1):
        a, b = (_signs(each, band) for each in (first, second))
        spectrum += np.fft.rfft(a, size) * np.fft.rfft(b[::-1], size)
    heard = np.fft.rfft(first.heard.astype(float), size) * np.fft.rfft(second.heard[::-1].astype(float), size)
    return np.fft.irfft(spectrum, size)[:length], np.round(np.fft.irfft(heard, size)[:length])


def _signs(of: Fingerprint, band: int) -> NDArray[np.float64]:
    return np.where(of.heard, (of.bits >> band & 1) * 2.0 - 1.0, 0.0)


def _low_pass(every: int) -> NDArray[np.float32]:
    """Keeps what lies below the working rate's half: a windowed sinc over eight of the samples that are kept."""
    if every == 1:
        return np.ones(1, np.float32)
    at = np.arange(8 * every) - (8 * every - 1) / 2
    taps = np.sinc(at / every * 0.8) * np.hanning(len(at))
    return np.asarray(taps / taps.sum(), np.float32)
