"""Words joined to lines that a person can read and mend: a sentence each, or less. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from archive.audio.drafting.model import DraftLine, SaidWord

_ENDS = (".", "?", "!", "…")
_SMALL_ENDS = (",", ";", ":")
# A silence this long ends a line whatever the words. Past a full stop a line runs on while it is shorter than this
# many words, or while no breath is drawn and it is shorter than this.
_GAP_MS = 1_500
_FEWEST = 3
_BREATH_MS = 400
_SHORT_MS = 4_000
# Longer than this, a line is cut at its longest silence, by preference after a comma.
LONGEST_MS = 12_000
_COMMA_WORTH_MS = 300


def lines_of(words: Iterable[SaidWord]) -> list[DraftLine]:
    """The lines of words that stand in order."""
    sentences: list[list[SaidWord]] = []
    for word in words:
        if not word.word.strip():
            continue
        if not sentences or _ends(sentences[-1], word):
            sentences.append([])
        sentences[-1].append(word)
    return [_line(part) for sentence in sentences for part in _short_enough(sentence)]


def _ends(line: Sequence[SaidWord], following: SaidWord) -> bool:
    gap, lasts = following.start_ms - line[-1].end_ms, line[-1].end_ms - line[0].start_ms
    sentence = line[-1].word.rstrip("\"'”’").endswith(_ENDS)
    enough = len(line) >= _FEWEST and (gap >= _BREATH_MS or lasts >= _SHORT_MS)
    return gap >= _GAP_MS or (sentence and enough)


def _short_enough(words: Sequence[SaidWord]) -> list[Sequence[SaidWord]]:
    """The words, cut in two as often as they need it."""
    parts: list[Sequence[SaidWord]] = []
    left = [words]
    while left:
        part = left.pop()
        if len(part) < 2 or part[-1].end_ms - part[0].start_ms <= LONGEST_MS:
            parts.append(part)
        else:
            at = max(range(1, len(part)), key=lambda at, part=part: _worth(part, at))  # type: ignore[misc]
            left += [part[at:], part[:at]]
    return parts


def _worth(words: Sequence[SaidWord], at: int) -> float:
    """How good a place it is to cut before a word; the nearer the middle, the better."""
    before, after = words[at - 1], words[at]
    comma = _COMMA_WORTH_MS if before.word.endswith(_SMALL_ENDS) else 0
    middle = (words[0].start_ms + words[-1].end_ms) / 2
    off = abs(after.start_ms - middle) / (words[-1].end_ms - words[0].start_ms)
    return (after.start_ms - before.end_ms + comma + 1) * (1 - off)


def _line(words: Sequence[SaidWord]) -> DraftLine:
    start = words[0].start_ms
    said = " ".join("".join(word.word for word in words).split())
    sure = sum(word.probability for word in words) / len(words)
    return DraftLine(start, max(start + 1, words[-1].end_ms), said, round(min(max(sure, 0.0), 1.0), 3))
