"""The whole way: a sound and a recogniser in, lines of a draft out, slice by slice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import nullcontext
from dataclasses import astuple, replace
from itertools import accumulate
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from archive.audio.aligning.listening import Listening, listen, samples_between
from archive.audio.aligning.model import Progress, Stop, StoppedError
from archive.audio.aligning.windows import windows_of
from archive.audio.drafting.lines import lines_of
from archive.audio.drafting.model import Draft, DraftLine, Recogniser, SaidWord
from archive.audio.kept_work import KeptWork
from archive.values.timecode import Span

# A model's memory grows with what it is given at once, and a kill loses no more than one slice's work.
SHORTEST_MS, LONGEST_MS = 120_000, 300_000
_SAMPLES = "samples"
# So much speech without a line is told to whoever mends the draft.
_UNTOLD_MS = 3_000
_READ = 0.03


def draft(
    source: Path,
    recogniser: Recogniser,
    *,
    told: Iterable[str] = (),
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
    folder: Path | None = None,
) -> Draft:
    """Write down what is said. With a folder, finished slices stay there and are not heard again after a kill.

    `told` is what the recogniser was told: with another model or other words, all is heard anew. Raises StoppedError
    when asked to stop. The folder holds what is said: keep it as closed as that, and throw it away afterwards.
    """
    with nullcontext(str(folder)) if folder else TemporaryDirectory() as place:
        work = KeptWork(Path(place), source, told)
        progress(0.0, "Reading the sound.")
        sound = listen(source, work.folder / _SAMPLES, stop)
        try:
            lines = lines_of(_hear(sound, work, recogniser, progress, stop))
            return Draft(lines, _untold(sound, lines))
        finally:
            sound.samples.unlink(missing_ok=True)


def _hear(sound: Listening, work: KeptWork, recogniser: Recogniser, progress: Progress, stop: Stop) -> list[SaidWord]:
    """The words of all slices in order; those that were heard before a kill are taken as they are."""
    slices = windows_of(sound, SHORTEST_MS, LONGEST_MS)
    done = {heard_in: [SaidWord(*word) for word in words] for heard_in, words in work.heard().items()}
    for each in slices:
        if each in done:
            continue
        words: list[SaidWord] = []
        for word in _said(sound, each, recogniser, stop):
            words.append(word)
            progress(_READ + (1 - _READ) * word.end_ms / sound.duration_ms, "Writing down what is said.")
        done[each] = words
        work.keep(each, map(astuple, words))
    return [word for each in slices for word in done[each]]


def _said(sound: Listening, heard_in: Span, recogniser: Recogniser, stop: Stop) -> Iterator[SaidWord]:
    """The words of one slice, timed from the start of the sound, in order and inside the slice."""
    raw = np.frombuffer(samples_between(sound.samples, heard_in.start_ms, heard_in.end_ms), "<i2")
    start_ms = heard_in.start_ms
    if stop():
        raise StoppedError
    for words in recogniser(raw.astype(np.float32) / np.float32(32_768)):
        if stop():
            raise StoppedError
        for word in words:
            first = min(max(start_ms, heard_in.start_ms + word.start_ms), heard_in.end_ms - 1)
            last = min(max(first + 1, heard_in.start_ms + word.end_ms), heard_in.end_ms)
            yield replace(word, start_ms=first, end_ms=last)
            start_ms = first


def _untold(sound: Listening, lines: Sequence[DraftLine]) -> list[Span]:
    """The stretches between lines in which somebody speaks for a while."""
    ends = [0, *accumulate((line.end_ms for line in lines), max)]
    starts = [*(line.start_ms for line in lines), sound.duration_ms]
    gaps = zip(ends, starts, strict=True)
    return [Span(end, start) for end, start in gaps if sound.speech_ms(end, start) >= _UNTOLD_MS]
