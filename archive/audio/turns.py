"""Voices told apart: which lines of a transcript the same voice says, though nobody knows yet whose it is.

Each line's cepstra are taken as one cloud; the two clouds that are likeliest one voice are joined, again and again.
Then every line goes to the voice that it is likeliest of, until none moves. Source: S. S. Chen and P. S.
Gopalakrishnan, "Speaker, environment and channel change detection and clustering via the Bayesian information
criterion", DARPA Broadcast News Workshop (1998); from memory. That criterion alone finds too many voices, since 10 ms
are much like the 10 ms before. So one voice more is believed only where each line, left out, is told better by the
other lines of its voice: M. Stone, "Cross-validatory choice and assessment of statistical predictions", Journal of the
Royal Statistical Society B 36 (1974), 111-147; from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from numpy.typing import NDArray

from archive.audio.aligning.listening import listen, samples_between
from archive.audio.aligning.model import Progress, Stop, StoppedError
from archive.audio.cepstra import COUNT, RATE, STEP, Floats, cepstra
from archive.audio.clouds import IMPOSSIBLE, Clouds, joined
from archive.values.timecode import Span

MOST_VOICES = 4
# Below this a person should listen before believing it.
UNSURE_BELOW = 0.25

# The quieter share of a line is room and breath, which sounds alike behind every voice.
_QUIET_SHARE = 0.35
# So many 10 ms of voice a line needs to found a voice, and so many to be told apart by itself.
_TO_FOUND, _TO_TELL = 60, 30
_MOST_FOUNDERS = 200
# A voice with less speech than this in all is taken for the one next like it.
_LEAST_VOICE = 200
_ROUNDS = 10
# By so much more, in nats for each 10 ms, must left-out lines be told by one voice more.
_WORTH_A_VOICE = 0.05
_AT_ONCE_MS = 60_000


@dataclass(frozen=True)
class Told:
    """Which voice says a line, counted from 0 in order of first speaking, and how sure that is, 0 to 1."""

    voice: int
    sure: float


@dataclass(frozen=True)
class Turns:
    """How many voices there seem to be, and the lines told apart for each number of voices there might be."""

    count: int
    ways: Mapping[int, tuple[Told, ...]]


def tell_apart(
    source: Path,
    spans: Sequence[Span],
    *,
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
) -> Turns:
    """The voices of a sound's lines. Raises StoppedError when asked to stop."""
    with TemporaryDirectory() as folder:
        progress(0.0, "Reading the sound.")
        sound = listen(source, Path(folder) / "samples", stop)
        rows, levels = [], []
        for start in range(0, sound.duration_ms, _AT_ONCE_MS):
            if stop():
                raise StoppedError
            # A window reaches a little past its step.
            raw = samples_between(sound.samples, start, min(start + _AT_ONCE_MS + 20, sound.duration_ms))
            some, loud = cepstra(np.frombuffer(raw, "<i2").astype(np.float32) / np.float32(32_768))
            rows.append(some[: _AT_ONCE_MS * RATE // 1000 // STEP])
            levels.append(loud[: _AT_ONCE_MS * RATE // 1000 // STEP])
            progress(0.3 + 0.6 * start / sound.duration_ms, "Listening to the voices.")
    if not rows:
        return Turns(1, {1: tuple(Told(0, 0.0) for _span in spans)})
    progress(0.9, "Telling the voices apart.")
    return turns_of(np.concatenate(rows), np.concatenate(levels), spans)


def turns_of(rows: Floats, levels: Floats, spans: Sequence[Span]) -> Turns:
    """The voices of lines, from the cepstra and the level of each 10 ms."""
    clouds = Clouds.of([_voiced(rows, levels, span) for span in spans])
    ways = {1: tuple(Told(0, 1.0) for _span in spans)}
    count, before = 1, 0.0
    for number, groups in sorted(_parted(clouds).items()):
        voices, likely = _settled(clouds, groups)
        told = tuple(_told(clouds.counts, likely, voices))
        if len({each.voice for each in told}) < number:
            continue
        ways[number] = told
        gain = _gain(clouds, voices)
        if count == number - 1 and gain >= before + _WORTH_A_VOICE:
            count, before = number, gain
    return Turns(count, ways)


def _voiced(rows: Floats, levels: Floats, span: Span) -> Floats:
    """The louder part of a line."""
    stretch = slice(span.start_ms // 10, max(span.start_ms // 10, span.end_ms // 10))
    loud = levels[stretch]
    return rows[stretch][loud > np.quantile(loud, _QUIET_SHARE)] if len(loud) else np.empty((0, COUNT))


def _parted(clouds: Clouds) -> dict[int, list[list[int]]]:
    """The longest lines in two groups, in three, and so on."""
    founders = np.flatnonzero(clouds.counts >= _TO_FOUND)
    founders = founders[np.argsort(-clouds.counts[founders], kind="stable")[:_MOST_FOUNDERS]]
    return {
        len(groups): [[int(founders[at]) for at in group] for group in groups]
        for groups in joined(clouds.some(founders))
        if len(groups) <= MOST_VOICES
    }


def _settled(clouds: Clouds, groups: Sequence[Sequence[int]]) -> tuple[NDArray[np.intp], Floats]:
    """Every line at the voice that it is likeliest of, and how likely it is of each."""
    voices = np.full(len(clouds.counts), -1, np.intp)
    for number, group in enumerate(groups):
        voices[list(group)] = number
    likely = np.zeros((len(groups), len(voices)))
    for _round in range(_ROUNDS):
        before = voices
        likely = np.stack([_likely(clouds, voices == number) for number in range(len(groups))])
        voices = likely.argmax(axis=0)
        if np.array_equal(before, voices):
            break
    return voices, likely


def _gain(clouds: Clouds, voices: NDArray[np.intp]) -> float:
    """How much better lines are told by the others of their voice than by all others, for each 10 ms."""
    apart, together = clouds.likely_of_others(voices), clouds.likely_of_others(np.zeros_like(voices))
    return float((apart - together).sum() / clouds.counts.sum())


def _likely(clouds: Clouds, of: NDArray[np.bool_]) -> Floats:
    """How likely each line is of the voice of some of them; of a voice with hardly any speech, not at all."""
    if clouds.counts[of].sum() < _LEAST_VOICE:
        return np.full(len(clouds.counts), IMPOSSIBLE)
    return clouds.likely_of(of)


def _told(counts: Floats, likely: Floats, voices: NDArray[np.intp]) -> Iterator[Told]:
    """The voices in order of first speaking."""
    order: dict[int, int] = {}
    last = 0
    for at, voice in enumerate(voices):
        if counts[at] < _TO_TELL:
            # Too short to be told by itself: whoever speaks goes on speaking.
            yield Told(last, 0.0)
            continue
        best, second = np.sort(likely[:, at])[::-1][:2]
        last = order.setdefault(int(voice), len(order))
        yield Told(last, round(float(np.tanh((best - second) / counts[at])), 3))
