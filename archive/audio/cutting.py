"""A stretch of a sound cut out at the sample, with short fades: for clips.

It is poured through second by second, so that a long clip takes no more memory than a short one.
"""

from __future__ import annotations

import gc
import warnings
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from archive.audio.broadcast import with_broadcast
from archive.audio.loudness import SPEECH_TARGET_LUFS, Loudness, LoudnessMeter, gain_to
from archive.audio.masking import Mask, With
from archive.audio.pouring import pour, writers
from archive.audio.reading import SMALLEST_GAP_SECONDS, Block, Samples, Sound, open_sound
from archive.audio.waveform import LevelMeter
from archive.audio.writing import Form, access_form, lossless_form
from archive.errors import OutOfRange
from archive.values.timecode import Span, format_timecode

FADE_MS = 10
LONGEST_MS = 30 * 60 * 1000
# Decoders need a running start after a seek: Opus 80 ms, MP3 a few frames.
_RUN_UP_SECONDS = 0.5
_SECONDS_BETWEEN_SWEEPS = 60
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
    gain_db: float = 0.0,
    description: str = "",
) -> None:
    """Write a stretch of a sound as WAV, WebM, MP3 or M4A, by the target's name; closed ranges are masked first.

    A WAV says in its `bext` chunk where it starts in the master, and what it is: the times, where nothing is given. The
    other forms bear no words.
    Only the stretch is read and decoded, so a clip at the end of a long master is as quick as one at its start.
    """
    if target.suffix not in (".wav", *_COPIES):
        raise OutOfRange(f"A clip is a .wav, {', '.join(_COPIES)} file, not '{target.name}'.")
    with open_sound(source) as sound:
        held = replace(sound, held_as="s32" if sound.held_as == "s32" else "s16")
        masked = map(Mask.of(closed, sound.rate, with_).on, _stretch(sound, span))
        whole = (_as_held(block, gain_db, held.held_as) for block in masked)
        form = _form(target, held)
        if target.suffix == ".wav":
            says = description or f"From {format_timecode(span.start_ms)} to {format_timecode(span.end_ms)} of a master"
            form = with_broadcast(form, held, span.start_ms * sound.rate // 1000, says, gain_db)
        with writers(held, {target: form}) as copies:
            pour(_numbered(_faded(whole, held)), copies)


def levels_of(source: Path, span: Span, *, step_ms: int = 10) -> tuple[int, ...]:
    """The peaks, 0 to 255, of every step of a stretch, as it is: for the bench at which boundaries are nudged."""
    if span.length_ms > LONGEST_MS:
        raise OutOfRange(f"A stretch lasts up to {LONGEST_MS // 60_000} minutes.")
    with open_sound(source) as sound:
        meter = LevelMeter(sound.rate, step_ms)
        pour(_numbered(block.samples for block in _stretch(sound, span)), (meter,))
        return meter.levels().peaks


def loudness_of(source: Path, span: Span, *, closed: Iterable[Span] = ()) -> Loudness:
    """How loud a stretch is, with what is closed silent."""
    with open_sound(source) as sound:
        meter = LoudnessMeter(sound.rate, sound.channel_names)
        mask = Mask.of(closed, sound.rate)
        pour(_numbered(mask.on(block).samples for block in _stretch(sound, span)), (meter,))
        return meter.loudness()


def shared_level(clips: Iterable[Loudness]) -> float:
    """The loudness in LUFS that all clips of a tour can reach: -23, or less where a clip's true peak stands against."""
    return min((SPEECH_TARGET_LUFS, *(_reachable(clip) for clip in clips if clip.integrated is not None)))


def _reachable(clip: Loudness) -> float:
    return (clip.integrated or 0.0) + gain_to(SPEECH_TARGET_LUFS, clip)


def _form(target: Path, sound: Sound) -> Form:
    if target.suffix == ".wav":
        return lossless_form(target, sound)
    return access_form(_COPIES[target.suffix], sound.channels)


def _stretch(sound: Sound, span: Span) -> Iterator[Block]:
    """The samples from the span's start to before its end, in blocks of about a second that keep their numbers."""
    first, end = span.start_ms * sound.rate // 1000, span.end_ms * sound.rate // 1000
    at, pieces = first, list[Samples]()
    for piece in _filled(sound, first, end):
        pieces.append(piece)
        length = sum(map(len, pieces))
        if length >= sound.rate:
            yield Block(at, np.concatenate(pieces))
            at, pieces = at + length, []
            if (at - first) // sound.rate % _SECONDS_BETWEEN_SWEEPS == 0:
                # Frames hold each other in circles: without a sweep now and then they pile up.
                gc.collect()
    if pieces:
        yield Block(at, np.concatenate(pieces))
    if at == first and not pieces:
        raise OutOfRange(f"{sound.path.name} ends before {format_timecode(span.start_ms)}, where the clip starts.")


def _filled(sound: Sound, first: int, end: int) -> Iterator[Samples]:
    """The samples between two, with silence where the file's times leave a gap after the first of them."""
    at = first
    for piece in _pieces_from(sound, first):
        gap = min(piece.start, end) - at
        if at > first and gap > SMALLEST_GAP_SECONDS * sound.rate:
            yield sound.silence(gap, piece.samples)
            at += gap
        part = piece.samples[max(0, at - piece.start) : max(0, end - piece.start)]
        if len(part):
            yield part
        at += len(part)
        if piece.end >= end:
            break


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


def _numbered(runs: Iterable[Samples]) -> Iterator[Block]:
    """Runs of samples as blocks counted from nought."""
    at = 0
    for run in runs:
        yield Block(at, run)
        at += len(run)


def _as_held(block: Block, gain_db: float, held_as: str) -> Samples:
    """In whole numbers, louder or softer; untouched where there is nothing to change."""
    samples, kind = block.samples, _KINDS[held_as]
    if samples.dtype == kind and gain_db == 0:
        return samples
    highest = 2 ** (8 * _WIDTHS[held_as] - 1) - 1
    wave = samples.astype(np.float64) if samples.dtype == kind else block.floats.astype(np.float64) * highest
    return np.asarray(np.rint(np.clip(wave * 10 ** (gain_db / 20), -highest, highest)), kind)


def _faded(runs: Iterable[Samples], sound: Sound) -> Iterator[Samples]:
    """Faded in at the beginning and out at the end, wherever that is: a little is held back until more comes."""
    edge = FADE_MS * sound.rate // 1000
    waiting: Samples = np.empty((0, sound.channels), _KINDS[sound.held_as])
    begun = False
    for run in runs:
        waiting = np.concatenate([waiting, run])
        if not begun and len(waiting) >= 2 * edge:
            waiting, begun = _faded_in(waiting, edge, sound), True
        if begun:
            yield waiting[:-edge]
            waiting = waiting[-edge:]
    if not begun:
        # In whole milliseconds, since pydub knows no shorter ones.
        edge = min(FADE_MS, len(waiting) * 1000 // sound.rate // 2) * sound.rate // 1000
        waiting = _faded_in(waiting, edge, sound)
    yield _faded_out(waiting, edge, sound)


def _faded_in(samples: Samples, edge: int, sound: Sound) -> Samples:
    head = _segment(samples[:edge], sound)
    faded = head.fade_in(len(head)) if len(head) else head
    return np.concatenate([_samples_of(faded, samples), samples[edge:]])


def _faded_out(samples: Samples, edge: int, sound: Sound) -> Samples:
    body, tail = samples[: len(samples) - edge], _segment(samples[len(samples) - edge :], sound)
    faded = tail.fade_out(len(tail)) if len(tail) else tail
    return np.concatenate([body, _samples_of(faded, samples)])


def _samples_of(segment: Any, like: Samples) -> Samples:
    return np.frombuffer(segment.raw_data, like.dtype).reshape(-1, like.shape[1])


def _segment(samples: Samples, sound: Sound) -> Any:
    with warnings.catch_warnings():
        # On import pydub warns that it finds no ffmpeg; it is given raw samples and needs none.
        warnings.simplefilter("ignore")
        from pydub import AudioSegment
    data = np.ascontiguousarray(samples).tobytes()
    return AudioSegment(data=data, sample_width=_WIDTHS[sound.held_as], frame_rate=sound.rate, channels=sound.channels)
