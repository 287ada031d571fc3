"""What goes into a draft and what comes out of it. Times are whole milliseconds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive.values.timecode import Span

# Below this mean probability of its words, a person should look at a line first. On three of the demo's voices and a
# small model, these were a fifth of the lines, and in them stood nearly half of the wrong words.
DOUBTFUL_BELOW = 0.85
# Whoever speaks says more than this; where a line says less, words were most likely not understood.
_FEWEST_A_SECOND = 0.5
_LONG_MS = 4_000


@dataclass(frozen=True)
class SaidWord:
    """A word as the model writes it, with its punctuation; when it is said, and how probable the model finds it."""

    word: str
    start_ms: int
    end_ms: int
    probability: float


@dataclass(frozen=True)
class DraftLine:
    """A line of a draft; `confidence`, 0 to 1, is the mean probability of its words."""

    start_ms: int
    end_ms: int
    text: str
    confidence: float

    @property
    def doubtful(self) -> bool:
        """Whether a person should look at it first."""
        length_ms = self.end_ms - self.start_ms
        slow = length_ms >= _LONG_MS and len(self.text.split()) * 1_000 < _FEWEST_A_SECOND * length_ms
        return slow or self.confidence < DOUBTFUL_BELOW


@dataclass(frozen=True)
class Draft:
    """What was written down, and the stretches of speech of which nothing was."""

    lines: Sequence[DraftLine]
    untold: Sequence[Span] = ()


# Gets samples, 16,000 a second, from -1 to 1, and gives words with times from their start, some at a time.
Recogniser = Callable[[NDArray[np.float32]], Iterator[Sequence[SaidWord]]]
