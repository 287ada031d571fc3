"""Access copies: small files that every browser plays, made from the master with closed ranges masked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from archive.audio.levels import Levels
from archive.audio.masking import Mask, With
from archive.audio.pouring import pour, writers
from archive.audio.reading import open_sound
from archive.audio.waveform import LevelMeter
from archive.audio.writing import access_form
from archive.values.timecode import Span


def make_copies(
    source: Path, targets: Mapping[str, Path], *, closed: Iterable[Span] = (), with_: With = "silence"
) -> Levels:
    """Write an access copy for each form ("webm", "mp3") and give the levels, all in one pass over the source.

    What is closed is replaced before it reaches an encoder, so no codec can smear it out of its range.
    """
    spans = tuple(closed)
    with open_sound(source) as sound:
        mask, meter = Mask.of(spans, sound.rate, with_), LevelMeter(sound.rate)
        forms = {path: access_form(form, sound.channels) for form, path in targets.items()}
        with writers(sound, forms) as copies:
            pour(map(mask.on, sound.blocks()), (meter, *copies))
        return meter.levels(spans)
