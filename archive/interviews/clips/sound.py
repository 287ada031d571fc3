"""What a clip's own sound is made from, and how loud it is made. Pure.

The rule of levels. Speech of one kind is to be equally loud, after EBU R 128: a clip by itself is brought to -23 LUFS,
the one level of the whole collection, so that a visitor who goes from voice to voice never reaches for the volume. It
is raised no further than until its true peak stands at -1 dBTP; one with a sharp knock in it stays softer. On a tour,
where clips are heard one after the other, all are brought to the level that every one of them can reach, in steps of
half a unit, but none lower than 6 units under -23 for the sake of one: that one stays softer by itself. A WAV is for a
sound editor, who levels for himself, and keeps the level and every sample of the master between its fades.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable
from dataclasses import dataclass

from archive.audio.cutting import FADE_MS, shared_level
from archive.audio.loudness import SPEECH_TARGET_LUFS, Loudness, gain_to
from archive.errors import OutOfRange
from archive.interviews.closing import masked_spans
from archive.interviews.model import Clip
from archive.values.timecode import Span

# The best first: Opus for every browser of today, MP3 and AAC for old players, WAV for a sound editor.
MEDIA_TYPES = {"webm": "audio/webm", "mp3": "audio/mpeg", "m4a": "audio/mp4", "wav": "audio/wav"}
MEASURED = "loudness"

ALONE_LUFS = SPEECH_TARGET_LUFS
_LOWEST_LUFS = ALONE_LUFS - 6
_STEP_LU = 0.5
# To be raised whenever the same recipe comes to make another sound.
_WAY = 1


@dataclass(frozen=True)
class Stretch:
    """Where a clip's sound lies: in which master, from when to when, and what is masked of the recording."""

    master_sha256: str
    span: Span
    masked: tuple[Span, ...]

    @property
    def mark(self) -> str:
        """Half a fingerprint: another one as soon as master, span or closures are."""
        return _half((self.master_sha256, self.span, self.masked, FADE_MS, _WAY))


@dataclass(frozen=True)
class Recipe:
    """All that decides the bytes of a cut: the stretch, the form, and the level in LUFS, None for the master's own."""

    stretch: Stretch
    form: str
    level: float | None

    @property
    def made_from(self) -> str:
        """The fingerprint. Its first half is the stretch's mark, so that what is stale is known whatever the level."""
        return self.stretch.mark + _half((self.form, self.level))


def stretch_of(clip: Clip) -> Stretch:
    """The stretch of a clip, as its recording is closed now."""
    return Stretch(clip.recording.master_sha256, clip.span, masked_spans(clip.recording))


def recipe(clip: Clip, form: str, level: float) -> Recipe:
    """How a clip's sound is made in a form; OutOfRange where there is no such form."""
    if form not in MEDIA_TYPES:
        raise OutOfRange(f"A clip is one of {', '.join(MEDIA_TYPES)}, not '{form[:20]}'.")
    return Recipe(stretch_of(clip), form, None if form == "wav" else level)


def level_of(clips: Iterable[Loudness]) -> float:
    """The level in LUFS of clips that are heard one after the other."""
    shared = math.floor(shared_level(clips) / _STEP_LU) * _STEP_LU
    return max(_LOWEST_LUFS, shared)


def gain_of(made: Recipe, loudness: Loudness) -> float:
    """The gain in dB, for a recipe that asks for a level."""
    return 0.0 if made.level is None else gain_to(made.level, loudness)


def _half(told: object) -> str:
    return hashlib.sha256(repr(told).encode()).hexdigest()[:32]
