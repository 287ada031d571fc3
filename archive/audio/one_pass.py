"""A master read once from end to end: its checksum, its facts, all that is measured of it, and its access copies."""

from __future__ import annotations

import hashlib
import threading
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from archive.audio.clipping import ClippingMeter
from archive.audio.facts import MasterFacts, facts_of
from archive.audio.levels import Levels
from archive.audio.loudness import SPEECH_TARGET_LUFS, Loudness, LoudnessMeter, gain_to
from archive.audio.pauses import PauseMeter
from archive.audio.pouring import Taker, pour, writers
from archive.audio.reading import Block, Break, Sound, open_sound
from archive.audio.same_sound import Fingerprint, FingerprintMeter
from archive.audio.waveform import ZOOMS_MS, LevelMeter
from archive.audio.writing import access_form
from archive.errors import CannotRead
from archive.values.timecode import Span

_READ_BYTES = 1 << 20
# The last hundredth is for flushing, renaming and whoever stores what was found.
_MOST_SHARE = 0.99
# A small file can unpack to weeks of silence; no interview is longer than a day, and what is measured must fit.
_LONGEST_HOURS = 24

Progress = Callable[[float, str], object]
Stop = Callable[[], bool]


@dataclass(frozen=True)
class TakenIn:
    """What one pass found in a master.

    `levels` by zoom in milliseconds; `gain_db` is what a player applies to reach -23 LUFS, never past -1 dBTP, and is
    not applied in the copies; `breaks` says where the file is damaged or cut off, empty for a sound one.
    """

    sha256: str
    size: int
    facts: MasterFacts
    duration_ms: int
    levels: Mapping[int, Levels]
    loudness: Loudness
    gain_db: float
    clipping_share: float
    silence_share: float
    pauses: tuple[Span, ...]
    fingerprint: Fingerprint
    breaks: tuple[Break, ...]


def take_in(
    source: Path,
    copies: Mapping[str, Path],
    *,
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
) -> TakenIn | None:
    """Read a master through once, and write an access copy for each form ("webm", "mp3", "m4a").

    None when `stop` said so; then, as after an error, no copy is left behind. Raises CannotRead for what is no sound,
    or holds none that can be decoded; of a damaged file what can be read is taken, and `breaks` tells the rest.
    Run it in a process of its own: another busy thread of Python slows the decoder down many times.
    """
    with open_sound(source) as sound, _Hashing(source) as hashing:
        facts, meters = facts_of(sound), _Meters(sound)
        forms = {path: access_form(form, sound.channels) for form, path in copies.items()}
        try:
            with writers(sound, forms) as encoders:
                watched = _watched(sound, _as_far_as_it_goes(sound), progress, stop)
                pour(watched, (*meters.all(), *encoders))
                progress(_MOST_SHARE, "Reading the file's checksum")
                return meters.taken_in(sound, facts, *hashing.result())
        except _StoppedError:
            return None


class _StoppedError(Exception):
    """Raised inside the pass alone, so that everything opened is closed on the way out."""


class _Meters:
    """Everything that measures a sound while it passes by."""

    def __init__(self, sound: Sound) -> None:
        self._levels = LevelMeter(sound.rate, ZOOMS_MS[0])
        self._loudness = LoudnessMeter(sound.rate, sound.channel_names)
        self._clipping = ClippingMeter(sound.channels)
        self._pauses = PauseMeter(sound.rate, sound.channels)
        self._fingerprint = FingerprintMeter(sound.rate, sound.channels)
        self._length = _Length()

    def all(self) -> tuple[Taker, ...]:
        """In the order in which they take a block."""
        return self._levels, self._loudness, self._clipping, self._pauses, self._fingerprint, self._length

    def taken_in(self, sound: Sound, facts: MasterFacts, sha256: str, size: int) -> TakenIn:
        """All that was found, at the end."""
        loudness = self._loudness.loudness()
        return TakenIn(
            sha256=sha256,
            size=size,
            facts=facts,
            duration_ms=max(1, round(self._length.samples * 1000 / sound.rate)),
            loudness=loudness,
            gain_db=gain_to(SPEECH_TARGET_LUFS, loudness),
            clipping_share=self._clipping.share(),
            silence_share=self._pauses.silence_share(),
            pauses=self._pauses.pauses(),
            fingerprint=self._fingerprint.fingerprint(),
            breaks=tuple(sound.breaks),
            # Last, since of ten hours they are thirty megabytes, for which there is no room while all else is found.
            levels={zoom: self._levels.levels(step_ms=zoom) for zoom in ZOOMS_MS},
        )


class _Length:
    """How many samples have passed by."""

    samples = 0

    def take(self, block: Block) -> None:
        """Note a block."""
        self.samples = block.end


def _as_far_as_it_goes(sound: Sound) -> Iterator[Block]:
    """The blocks of a sound, up to where it cannot be read on; CannotRead only if that is at its very start."""
    seconds = 0.0
    try:
        for block in sound.blocks():
            seconds = block.end / sound.rate
            yield block
            if seconds >= _LONGEST_HOURS * 3600:
                sound.note(seconds, f"the rest is not read: it is longer than {_LONGEST_HOURS} hours")
                return
    except CannotRead as problem:
        if not seconds:
            raise
        sound.note(seconds, f"the rest is not read: {problem.faults[0].found}")


def _watched(sound: Sound, blocks: Iterator[Block], progress: Progress, stop: Stop) -> Iterator[Block]:
    """The blocks, telling how far they are and ending where the caller asks for it."""
    total = sound.seconds_told
    for block in blocks:
        if stop():
            raise _StoppedError
        seconds = block.end / sound.rate
        progress(min(_MOST_SHARE, seconds / total) if total else 0.0, "Reading the recording")
        yield block


class _Hashing:
    """The checksum of a file's bytes, worked out in a thread beside the decoder."""

    def __init__(self, path: Path) -> None:
        self._thread = ThreadPoolExecutor(1, "checksum")
        self._given_up = threading.Event()
        self._found = self._thread.submit(self._read, path)

    def __enter__(self) -> _Hashing:
        return self

    def __exit__(self, *_: object) -> None:
        self._given_up.set()
        self._thread.shutdown()

    def result(self) -> tuple[str, int]:
        """The checksum and how many bytes it covers; waits for the rest of the file."""
        return self._found.result()

    def _read(self, path: Path) -> tuple[str, int]:
        checksum, size = hashlib.sha256(), 0
        with path.open("rb", buffering=0) as file:
            while (part := file.read(_READ_BYTES)) and not self._given_up.is_set():
                checksum.update(part)
                size += len(part)
        return checksum.hexdigest(), size
