"""Closed ranges made silent, or a tone, at the sample; everything else stays as it was."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from archive.audio.reading import Block, Samples, open_sound
from archive.audio.writing import lossless_form, writing
from archive.values.timecode import Span

With = Literal["silence", "tone"]

# The fades lie outside the closed range, so that nothing closed is heard however softly.
RAMP_MS = 5
TONE_HZ = 1000
TONE_LEVEL = 0.05
_TONE_RAMP_MS = 10


@dataclass(frozen=True)
class Mask:
    """The closed ranges of one sound, as numbers of samples: from the first to before the second."""

    ranges: tuple[tuple[int, int], ...]
    rate: int
    with_: With = "silence"

    @classmethod
    def of(cls, spans: Iterable[Span], rate: int, with_: With = "silence") -> Mask:
        """The mask of spans in milliseconds: every sample that a span touches is closed."""
        merged: list[tuple[int, int]] = []
        for span in sorted(spans):
            start, end = span.start_ms * rate // 1000, -(-span.end_ms * rate // 1000)
            if merged and start <= merged[-1][1]:
                merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
            else:
                merged.append((start, end))
        return cls(tuple(merged), rate, with_)

    @property
    def _ramp(self) -> int:
        return max(1, RAMP_MS * self.rate // 1000)

    def on(self, block: Block) -> Block:
        """The block with its closed samples replaced; the same block where none is near."""
        near = [r for r in self.ranges if r[0] - self._ramp < block.end and block.start < r[1] + self._ramp]
        if not near:
            return block
        samples = block.samples.copy()
        for start, end in near:
            self._fade(Block(block.start, samples), start, end)
        for start, end in near:
            self._close(Block(block.start, samples), start, end)
        return Block(block.start, samples)

    def _fade(self, block: Block, start: int, end: int) -> None:
        """Fade out before the closed range and in after it, sample by sample."""
        steps = np.arange(1, self._ramp + 1) / (self._ramp + 1)
        _scale(block, start - self._ramp, steps[::-1])
        _scale(block, end, steps)

    def _close(self, block: Block, start: int, end: int) -> None:
        first, last = max(start, block.start), min(end, block.end)
        if first >= last:
            return
        closed = block.samples[first - block.start : last - block.start]
        closed[:] = 0
        if self.with_ == "tone":
            closed += _as_held(self._tone(np.arange(first, last), start, end), closed)[:, None]

    def _tone(self, at: NDArray[np.int64], start: int, end: int) -> NDArray[np.float64]:
        """A soft tone with its own fades, all inside the closed range."""
        ramp = _TONE_RAMP_MS * self.rate / 1000
        inside = np.minimum(at - start, end - 1 - at) / ramp
        wave: NDArray[np.float64] = np.sin(2 * np.pi * TONE_HZ * (at - start) / self.rate)
        return TONE_LEVEL * np.clip(inside, 0, 1) * wave


def mask(source: Path, target: Path, spans: Iterable[Span], with_: With = "silence") -> None:
    """A lossless copy (WAV or FLAC, by the target's name) whose samples outside the closed ranges are the source's own.

    Bit-identical outside the closed ranges and the 5 ms beside them, where the target holds what the source does:
    16, 24 or 32 bits in WAV, 16 or 24 bits in FLAC.
    """
    with open_sound(source) as sound, writing(target, lossless_form(target, sound), sound) as writer:
        closed = Mask.of(spans, sound.rate, with_)
        for block in sound.blocks():
            writer.take(closed.on(block))


def _scale(block: Block, at: int, gains: NDArray[np.float64]) -> None:
    first, last = max(at, block.start), min(at + len(gains), block.end)
    if first < last:
        part = block.samples[first - block.start : last - block.start]
        scaled = part * gains[first - at : last - at, None]
        part[:] = np.rint(scaled) if part.dtype.kind == "i" else scaled


def _as_held(wave: NDArray[np.float64], like: Samples) -> Samples:
    """A wave from -1 to 1 in the sample format of `like`."""
    if like.dtype.kind == "i":
        wave = np.rint(wave * np.iinfo(like.dtype).max)
    return wave.astype(like.dtype)
