"""Steps of so many milliseconds through a sound: which sample each starts at, and how blocks fall into them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from archive.audio.reading import Block


@dataclass(frozen=True)
class Steps:
    """Steps of equal length from the start of a sound; each starts at its first whole sample."""

    rate: int
    step_ms: int

    def of(self, block: Block) -> tuple[int, NDArray[np.int64]]:
        """The number of the first step that a block touches, and where in the block each of its steps begins."""
        first, last = self.step_of(block.start), self.step_of(block.end - 1)
        return first, np.maximum(0, self.starts(last + 1, first) - block.start)

    def step_of(self, sample: int) -> int:
        """The step that a sample lies in."""
        return sample * 1000 // (self.rate * self.step_ms)

    def start_of(self, step: int) -> int:
        """The first sample of a step."""
        return -(-step * self.rate * self.step_ms // 1000)

    def whole_steps(self, length: int) -> int:
        """How many steps are full in a sound of so many samples."""
        steps = length * 1000 // (self.rate * self.step_ms)
        return steps if self.start_of(steps) <= length else steps - 1

    def starts(self, end: int, first: int = 0) -> NDArray[np.int64]:
        """The first samples of the steps from the first to before the end."""
        return -(-np.arange(first, end, dtype=np.int64) * self.rate * self.step_ms // 1000)


class Gathered:
    """One figure a step, put together as blocks pass by; a step that two blocks share is combined (added, maximum).

    Where seven digits are enough, half the memory keeps them: of ten hours at 10 ms there are 3.6 million.
    """

    def __init__(self, combine: np.ufunc, kept_as: type[np.floating[Any]] = np.float64) -> None:
        self._combine, self._kept_as = combine, kept_as
        self._parts: list[NDArray[np.floating[Any]]] = []
        self._length = 0

    def add(self, first: int, figures: NDArray[np.float64]) -> None:
        """The figures of a block's steps, from the first on; blocks come in order and leave no step out."""
        if first < self._length:
            self._parts[-1][-1] = self._combine(self._parts[-1][-1], figures[0])
            figures = figures[1:]
        if len(figures):
            self._parts.append(figures.astype(self._kept_as))
            self._length += len(figures)

    def figures(self) -> NDArray[np.float64]:
        """All so far."""
        return np.concatenate(self._parts, dtype=np.float64) if self._parts else np.zeros(0)

    def in_runs(self, most: int) -> Iterator[tuple[int, NDArray[np.float64]]]:
        """All so far, so many at once and the last ones, each run with the number of its first step."""
        run: list[NDArray[np.floating[Any]]] = []
        first = length = 0
        for part in self._parts:
            run.append(part)
            length += len(part)
            if length >= most:
                yield first, np.concatenate(run, dtype=np.float64)
                first, length, run = first + length, 0, []
        if run:
            yield first, np.concatenate(run, dtype=np.float64)
