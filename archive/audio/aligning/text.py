"""The text of an alignment as one row of words, each knowing its line; and sections between the times that it gives."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from archive.audio.aligning.model import GivenLine
from archive.audio.aligning.words import words_of

# Typists note times by a counter, and are as quick as they are.
GIVEN_SLACK_MS = 5_000


@dataclass(frozen=True)
class Section:
    """Words [first, after) that are said from one given time until the next."""

    first: int
    after: int
    from_ms: int
    until_ms: int

    @property
    def start_ms(self) -> int:
        """From when on they may be heard: a little earlier."""
        return max(0, self.from_ms - GIVEN_SLACK_MS)

    @property
    def end_ms(self) -> int:
        """Until when they may be heard: a little later."""
        return self.until_ms + GIVEN_SLACK_MS


@dataclass(frozen=True)
class Text:
    """Lines said out. `bounds` has the first word of each line, and the number of all words at its end."""

    given: tuple[GivenLine, ...]
    lines: tuple[tuple[str, ...], ...]

    @cached_property
    def words(self) -> tuple[str, ...]:
        """All words in order."""
        return tuple(word for line in self.lines for word in line)

    @cached_property
    def bounds(self) -> tuple[int, ...]:
        """Where each line begins among the words, and the end."""
        ends = [0]
        for line in self.lines:
            ends.append(ends[-1] + len(line))
        return tuple(ends)

    def sections(self, duration_ms: int) -> list[Section]:
        """The words from each given time to the next."""
        timed = [(at, line.start_ms) for at, line in enumerate(self.given) if line.start_ms is not None]
        starts = [(0, 0), *((self.bounds[at], ms) for at, ms in timed if ms < duration_ms)]
        ends = [*starts[1:], (self.bounds[-1], duration_ms)]
        return [
            Section(first, after, start, end)
            for (first, start), (after, end) in zip(starts, ends, strict=True)
            if first < after and start <= end
        ]


def text_of(lines: Sequence[GivenLine], known: frozenset[str]) -> Text:
    """The lines with their words said out."""
    return Text(tuple(lines), tuple(tuple(words_of(line.text, known)) for line in lines))
