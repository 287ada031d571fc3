"""A stretch of a sound cut out at the sample, with short fades: for clips."""

from __future__ import annotations

import warnings
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from archive.audio.masking import Mask, With
from archive.audio.reading import SMALLEST_GAP_SECONDS, Block, Samples, Sound, open_sound
from archive.audio.writing import ACCESS_FORMS, Form, writing
from archive.errors import OutOfRange
from archive.values.timecode import Span, format_timecode

FADE_MS = 10
LONGEST_MS = 30 * 60 * 1000
# Decoders need a running start after a seek: Opus 80 ms, MP3 a few frames.
_RUN_UP_SECONDS = 0.5
_FORMS = {".wav": Form("wav", "pcm_s16le"), ".webm": ACCESS_FORMS["webm"], ".mp3": ACCESS_FORMS["mp3"]}


def cut(source: Path, target: Path, span: Span, *, closed: Iterable[Span] = (), with_: With = "silence") -> None:
    """Write a stretch of a sound as WAV, WebM or MP3, by the target's name; closed ranges are masked first.

    Only the stretch is read and decoded, so a clip at the end of a long master is as quick as one at its start.
    """
    form = _FORMS.get(target.suffix)
    if form is None:
        raise OutOfRange(f"A clip is a {', '.join(_FORMS)} file, not '{target.name}'.")
    if span.length_ms > LONGEST_MS:
        raise OutOfRange(f"A clip lasts up to {LONGEST_MS // 60_000} minutes, not {format_timecode(span.length_ms)}.")
    with open_sound(source) as sound:
        stretch = Mask.of(closed, sound.rate, with_).on(_stretch(sound, span))
        faded = _faded(_as_int16(stretch.samples), sound)
        with writing(target, form, replace(sound, held_as="s16")) as writer:
            writer.put(Block(0, faded))


def _stretch(sound: Sound, span: Span) -> Block:
    """The samples from the span's start to before its end, with silence where the file's times leave a gap."""
    first, end = span.start_ms * sound.rate // 1000, span.end_ms * sound.rate // 1000
    pieces: list[Samples] = []
    at = first
    for piece in _pieces_from(sound, first):
        if pieces and piece.start - at > SMALLEST_GAP_SECONDS * sound.rate:
            pieces.append(sound.silence(min(piece.start, end) - at, piece.samples))
            at = piece.start
        part = piece.samples[max(0, at - piece.start) : max(0, end - piece.start)]
        pieces.append(part)
        at += len(part)
        if piece.end >= end:
            break
    if not at > first:
        raise OutOfRange(f"{sound.path.name} ends before {format_timecode(span.start_ms)}, where the clip starts.")
    return Block(first, np.concatenate(pieces))


def _pieces_from(sound: Sound, first: int) -> Iterator[Block]:
    """Decoded pieces that reach past a sample, each at the place that the file's own times give it."""
    sound.seek(first / sound.rate - _RUN_UP_SECONDS)
    for frame in sound.frames():
        piece = Block(round(sound.time_of(frame) * sound.rate), sound.samples_of(frame))
        if piece.end > first:
            yield piece


def _as_int16(samples: Samples) -> Samples:
    if samples.dtype == np.int16:
        return samples
    wider = samples >> 16 if samples.dtype == np.int32 else np.rint(np.clip(samples, -1, 1) * 32_767)
    return np.asarray(wider, np.int16)


def _faded(samples: Samples, sound: Sound) -> Samples:
    """Faded in and out at its ends. Joined without pydub's usual crossfade, so that no sample moves."""
    edge = min(FADE_MS * sound.rate // 1000, len(samples) // 2)
    head, tail = _segment(samples[:edge], sound), _segment(samples[len(samples) - edge :], sound)
    body = _segment(samples[edge : len(samples) - edge], sound)
    joined = head.fade_in(len(head)).append(body, crossfade=0).append(tail.fade_out(len(tail)), crossfade=0)
    samples = np.frombuffer(joined.raw_data, np.int16)
    return samples.reshape(-1, sound.channels)


def _segment(samples: Samples, sound: Sound) -> Any:
    with warnings.catch_warnings():
        # On import pydub warns that it finds no ffmpeg; it is given raw samples and needs none.
        warnings.simplefilter("ignore")
        from pydub import AudioSegment
    data = np.ascontiguousarray(samples).tobytes()
    return AudioSegment(data=data, sample_width=2, frame_rate=sound.rate, channels=sound.channels)
