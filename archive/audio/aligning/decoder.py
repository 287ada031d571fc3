"""A process that makes out words: it reads what to do from its input, a line each, and ends when its parent does.

Run as `python -m archive.audio.aligning.decoder FOLDER`. The folder holds the samples, the dictionary and the language
model. A line asks either to hear a stretch, or to lay given words on it.
"""

from __future__ import annotations

import json
import sys
from functools import cache
from pathlib import Path
from typing import Any

from archive.audio.aligning.listening import samples_between

SAMPLES, DICTIONARY, MODEL = "sound.s16", "words.dict", "words.lm"
FRAME_MS = 10
# The narrower beam is tried first; the wider one takes longer, and finds a way where the words fit badly.
_BEAMS = ((1e-80, 1e-60), (1e-130, 1e-100))


class Hearing:
    """The decoders of one folder, made when they are first needed."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def hear(self, start_ms: int, end_ms: int) -> list[list[Any]]:
        """The words that the text's language model makes out in a stretch."""
        return self._decode(self._listener(), start_ms, end_ms) or []

    def lay(self, start_ms: int, end_ms: int, words: list[str]) -> list[list[Any]] | None:
        """The given words laid on a stretch, each with its time; None where they cannot be."""
        for beam, word_beam in _BEAMS:
            decoder = self._layer(beam, word_beam)
            try:
                decoder.set_align_text(" ".join(words))
                found = self._decode(decoder, start_ms, end_ms)
            except RuntimeError:
                continue
            if found and [word for word, _start, _end in found] == words:
                return found
        return None

    @cache  # noqa: B019 - there is one for the life of the process
    def _listener(self) -> Any:
        return self._made(lm=str(self._folder / MODEL))

    @cache  # noqa: B019
    def _layer(self, beam: float, word_beam: float) -> Any:
        return self._made(lm=None, beam=beam, pbeam=beam, wbeam=word_beam, fillprob=1e-2)

    def _made(self, **settings: Any) -> Any:
        from pocketsphinx import Decoder

        return Decoder(dict=str(self._folder / DICTIONARY), cmn="batch", loglevel="FATAL", **settings)

    def _decode(self, decoder: Any, start_ms: int, end_ms: int) -> list[list[Any]] | None:
        decoder.start_utt()
        try:
            decoder.process_raw(samples_between(self._folder / SAMPLES, start_ms, end_ms), full_utt=True)
        finally:
            decoder.end_utt()
        if decoder.hyp() is None:
            return None
        return [
            [word, start_ms + each.start_frame * FRAME_MS, start_ms + (each.end_frame + 1) * FRAME_MS]
            for each in decoder.seg()
            if (word := each.word.partition("(")[0]) and word[0] not in "<[" and word != "sil"
        ]


def main() -> None:
    """Answer line by line until the input ends."""
    hearing = Hearing(Path(sys.argv[1]))
    for line in sys.stdin:
        asked = json.loads(line)
        span = asked["start_ms"], asked["end_ms"]
        words = hearing.lay(*span, asked["words"]) if "words" in asked else hearing.hear(*span)
        print(json.dumps({"key": asked["key"], "words": words}), flush=True)


if __name__ == "__main__":
    main()
