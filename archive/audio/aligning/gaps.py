"""Between anchors: text that the sound has no room for, and speech that the text has no words for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from archive.audio.aligning.anchoring import Anchors
from archive.audio.aligning.listening import Listening
from archive.audio.aligning.text import Text
from archive.values.timecode import Span

_USUAL_WORD_MS = 300
_FEWEST_FOR_PACE = 20
# How much more speech than the words need is no longer a hesitation.
_UNTOLD_MS, _UNTOLD_TIMES = 3_000, 1.7
# How much more text than the sound has room for is no longer quick speech.
_UNHEARD_MS, _UNHEARD_TIMES = 600, 1.7
_FEWEST_WORDS = 3
_MOST_OF_A_LINE = 0.7


@dataclass(frozen=True)
class Gap:
    """Words [first, after) of the text between two anchored words, the stretch between those, and the speech in it."""

    first: int
    after: int
    start_ms: int
    end_ms: int
    speech_ms: int

    @property
    def words(self) -> int:
        """How many words of text lie in it."""
        return self.after - self.first


def gaps_between(text: Text, anchors: Anchors, sound: Listening) -> list[Gap]:
    """Every stretch between words that were heard next to each other in the text, the ends of the sound included."""
    places = sorted(anchors)
    befores = [(0, 0), *((at + 1, anchors[at].end_ms) for at in places)]
    afters = [*((at, anchors[at].start_ms) for at in places), (len(text.words), sound.duration_ms)]
    return [
        Gap(first, after, start, end, sound.speech_ms(start, end))
        for (first, start), (after, end) in zip(befores, afters, strict=True)
        if start < end
    ]


def pace_ms(anchors: Anchors) -> float:
    """How long a word takes, pauses apart."""
    lengths = [each.end_ms - each.start_ms for each in anchors.values()]
    return median(lengths) * 1.1 if len(lengths) >= _FEWEST_FOR_PACE else _USUAL_WORD_MS


def untold_gaps(gaps: Sequence[Gap], pace: float) -> list[Gap]:
    """The gaps with far more speech than their words need."""
    return [gap for gap in gaps if gap.speech_ms > _UNTOLD_TIMES * gap.words * pace + _UNTOLD_MS]


def unheard_lines(text: Text, gaps: Sequence[Gap], pace: float) -> list[int]:
    """The lines most words of which lie in gaps without room for them."""
    cramped: set[int] = set()
    for gap in gaps:
        needs = gap.words * pace
        if gap.words >= _FEWEST_WORDS and needs > _UNHEARD_TIMES * gap.speech_ms + _UNHEARD_MS:
            cramped.update(range(gap.first, gap.after))
    found = []
    for at, line in enumerate(text.lines):
        mine = range(text.bounds[at], text.bounds[at + 1])
        if line and sum(word in cramped for word in mine) >= _MOST_OF_A_LINE * len(line):
            found.append(at)
    return found


def untold_spans(gaps: Sequence[Gap], sound: Listening) -> list[Span]:
    """The stretches of gaps with nothing told, without the pauses at their ends."""
    found = []
    for gap in gaps:
        start, end = gap.start_ms, gap.end_ms
        for pause in sound.pauses:
            start = pause.end_ms if pause.start_ms <= start + 100 < pause.end_ms else start
            end = pause.start_ms if pause.start_ms < end - 100 <= pause.end_ms else end
        if start < end:
            found.append(Span(start, end))
    return found
