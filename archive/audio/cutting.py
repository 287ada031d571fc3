"""A stretch of a sound cut out at the sample, with short fades: for clips."""

from __future__ import annotations

import warnings
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from archive.audio.loudness import SPEECH_TARGET_LUFS, Loudness, LoudnessMeter, gain_to
from archive.audio.masking import Mask, With
from archive.audio.pouring import writers
from archive.audio.reading import SMALLEST_GAP_SECONDS, Block, Samples, Sound, open_sound
from archive.audio.waveform import LevelMeter
from archive.audio.writing import Form, access_form, lossless_form
from archive.errors import OutOfRange
from archive.values.timecode import Span, format_timecode

FADE_MS = 10
LONGEST_MS = 30 * 60 * 1000
# Decoders need a running start after a seek: Opus 80 ms, MP3 a few frames.
_RUN_UP_SECONDS = 0.5
_COPIES = {".webm": "webm", ".mp3": "mp3", ".m4a": "m4a"}
_WIDTHS = {"s16": 2, "s32": 4}
_KINDS = {"s16": np.int16, "s32": np.int32}


def cut(
    source: Path,
    target: Path,
    span: Span,
    *,
    closed: Iterable[Span] = (),
    with_: With = "silence",
    level_to: float | None = None,
) -> float:
    """Write a stretch of a sound as WAV, WebM, MP3 or M4A, by the target's name; closed ranges are masked first.

    With `level_to` its loudness is brought to so many LUFS, as far as its true peak allows; the gain in dB is given
    back. Only the stretch is read and decoded, so a clip at the end of a long master is as quick as one at its start.
    """
    if target.suffix not in (".wav", *_COPIES):
        raise OutOfRange(f"A clip is a .wav, {', '.join(_COPIES)} file, not '{target.name}'.")
    with open_sound(source) as sound:
        stretch = _masked(sound, span, closed, with_)
        held = replace(sound, held_as="s32" if sound.held_as == "s32" else "s16")
        gain = 0.0 if level_to is None else gain_to(level_to, _loudness(sound, stretch))
        faded = _faded(_as_held(stretch, gain, held.held_as), held)
        with writers(held, {target: _form(target, held)}) as (writer,):
            writer.take(Block(0, faded))
        return gain


def levels_of(source: Path, span: Span, *, step_ms: int = 10) -> tuple[int, ...]:
    """The peaks, 0 to 255, of every step of a stretch, as it is: for the bench at which boundaries are nudged."""
    if span.length_ms > LONGEST_MS:
        raise OutOfRange(f"A stretch lasts up to {LONGEST_MS // 60_000} minutes.")
    with open_sound(source) as sound:
        meter = LevelMeter(sound.rate, step_ms)
        meter.take(Block(0, _stretch(sound, span).samples))
        return meter.levels().peaks


def loudness_of(source: Path, span: Span, *, closed: Iterable[Span] = ()) -> Loudness:
    """How loud a stretch is, with what is closed silent."""
    with open_sound(source) as sound:
        return _loudness(sound, _masked(sound, span, closed, "silence"))


def shared_level(clips: Iterable[Loudness]) -> float:
    """The loudness in LUFS that all clips of a tour can reach: -23, or less where a clip's true peak stands against."""
    return min((SPEECH_TARGET_LUFS, *(_reachable(clip) for clip in clips if clip.integrated is not None)))


def _reachable(clip: Loudness) -> float:
    return (clip.integrated or 0.0) + gain_to(SPEECH_TARGET_LUFS, clip)


def _masked(sound: Sound, span: Span, closed: Iterable[Span], with_: With) -> Block:
    if span.length_ms > LONGEST_MS:
        raise OutOfRange(f"A clip lasts up to {LONGEST_MS // 60_000} minutes, not {format_timecode(span.length_ms)}.")
    return Mask.of(closed, sound.rate, with_).on(_stretch(sound, span))


def _loudness(sound: Sound, stretch: Block) -> Loudness:
    meter = LoudnessMeter(sound.rate, sound.channel_names)
    meter.take(Block(0, stretch.samples))
    return meter.loudness()


def _form(target: Path, sound: Sound) -> Form:
    if target.suffix == ".wav":
        return lossless_form(target, sound)
    return access_form(_COPIES[target.suffix], sound.channels)


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
    end = 0
    for frame in sound.frames():
        start = end if frame.time is None else round(sound.time_of(frame) * sound.rate)
        piece = Block(start, sound.samples_of(frame))
        end = piece.end
        if piece.end > first:
            yield piece


def _as_held(stretch: Block, gain_db: float, held_as: str) -> Samples:
    """In whole numbers, louder or softer; untouched where there is nothing to change."""
    samples, kind = stretch.samples, _KINDS[held_as]
    if samples.dtype == kind and gain_db == 0:
        return samples
    highest = 2 ** (8 * _WIDTHS[held_as] - 1) - 1
    wave = samples.astype(np.float64) if samples.dtype == kind else stretch.floats.astype(np.float64) * highest
    return np.asarray(np.rint(np.clip(wave * 10 ** (gain_db / 20), -highest, highest)), kind)


def _faded(samples: Samples, sound: Sound) -> Samples:
    """Faded in and out at its ends. Joined without pydub's usual crossfade, so that no sample moves."""
    edge = min(FADE_MS * sound.rate // 1000, len(samples) // 2)
    head, tail = _segment(samples[:edge], sound), _segment(samples[len(samples) - edge :], sound)
    body = _segment(samples[edge : len(samples) - edge], sound)
    joined = head.fade_in(len(head)).append(body, crossfade=0).append(tail.fade_out(len(tail)), crossfade=0)
    samples = np.frombuffer(joined.raw_data, samples.dtype)
    return samples.reshape(-1, sound.channels)


def _segment(samples: Samples, sound: Sound) -> Any:
    with warnings.catch_warnings():
        # On import pydub warns that it finds no ffmpeg; it is given raw samples and needs none.
        warnings.simplefilter("ignore")
        from pydub import AudioSegment
    data = np.ascontiguousarray(samples).tobytes()
    return AudioSegment(data=data, sample_width=_WIDTHS[sound.held_as], frame_rate=sound.rate, channels=sound.channels)
