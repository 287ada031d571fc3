"""Opening one sound file, and nothing that it points to, and reading its samples block by block."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import av
import numpy as np
from av.audio.codeccontext import AudioCodecContext
from av.audio.frame import AudioFrame
from av.audio.resampler import AudioResampler
from av.audio.stream import AudioStream
from av.container import InputContainer
from av.packet import Packet
from numpy.typing import NDArray

from archive.audio.kinds import SOUND_ALLOWED, container_of
from archive.audio.promises import misses_its_end, promised_seconds
from archive.errors import CannotRead

MOST_CHANNELS = 32
LOWEST_RATE, HIGHEST_RATE = 4_000, 768_000
# Samples are held as they are where numpy and the encoders can both hold them, else in the next wider form.
_HELD_AS = {"s16": "s16", "s32": "s32", "flt": "flt", "u8": "s16", "dbl": "flt", "s64": "s32"}
_LOUDEST_FLOAT = 16.0
_BLOCK_SECONDS = 1
_BLOCK_SAMPLES = 32_768
# Of many channels at a high rate a block is shorter than a second, lest its copies fill the memory.
_MOST_IN_A_BLOCK = 1 << 21
# A WAV file comes in pieces of a few hundred bytes otherwise, each of which costs its own call.
_WAV_PIECE_BYTES = "65536"
# Sweeping what is young is quick; the little that grew old meanwhile is swept more rarely.
_BLOCKS_BETWEEN_SWEEPS, _BLOCKS_BETWEEN_WHOLE_SWEEPS = 60, 1200
_YOUNG, _ALL = 1, 2
_LARGEST_GAP_SECONDS = 600
SMALLEST_GAP_SECONDS = 0.05
MOST_BREAKS = 200
_BREAKS_APART_MS = 1000
# How much shorter than promised a sound may be, by the padding of its container.
_CUT_OFF_SECONDS = 0.25

Samples = NDArray[Any]


@dataclass(frozen=True)
class Block:
    """A run of samples: the number of the first, counted from the start of the sound, then rows of channels."""

    start: int
    samples: Samples

    @property
    def end(self) -> int:
        """The number of the sample after the last."""
        return self.start + len(self.samples)

    @cached_property
    def floats(self) -> NDArray[np.float32]:
        """The samples from -1 to 1, for measuring."""
        if self.samples.dtype.kind == "f":
            return np.asarray(self.samples, np.float32)
        scale = np.float32(-1 / np.iinfo(self.samples.dtype).min)
        return np.multiply(self.samples, scale, dtype=np.float32)


@dataclass(frozen=True)
class Break:
    """A place where a sound file is damaged: where in the sound, and what was found there."""

    at_ms: int
    found: str


@dataclass(frozen=True)
class Sound:
    """An opened sound file, with the facts that do not change while it is read.

    `held_as` is the packed sample format of its blocks, `bits` how many bits of each sample carry sound.
    """

    path: Path
    container: InputContainer
    stream: AudioStream
    rate: int
    channels: int
    layout: str
    held_as: str
    bits: int
    kind: str
    breaks: list[Break] = field(default_factory=list)

    @property
    def seconds_told(self) -> float:
        """How long its head says that it is, or FFmpeg guesses; 0 where neither knows."""
        duration = self.container.duration
        return duration / av.time_base if duration and duration > 0 else 0.0

    @property
    def channel_names(self) -> list[str]:
        """The channels as FFmpeg names them; NONE each where the file does not say."""
        return [channel.name for channel in self.stream.codec_context.layout.channels]

    def packets(self) -> Iterator[Packet[AudioStream]]:
        """The packets of the sound stream; a file that breaks off ends where it breaks off."""
        packets = self.container.demux(self.stream)
        while True:
            try:
                packet = next(packets, None)
            except av.FFmpegError:
                return
            if packet is None:
                return
            yield packet

    def decoded(self, packet: Packet[AudioStream]) -> list[AudioFrame]:
        """The frames of a packet; none of a damaged one, which is noted as a break."""
        try:
            return [frame for frame in packet.decode() if frame.samples]
        except av.FFmpegError:
            at = packet.pts * packet.time_base if packet.pts is not None and packet.time_base else 0
            self.note(float(at), "a part that cannot be decoded")
            return []

    def note(self, seconds: float, found: str) -> None:
        """Note a break; those within a second of the last are one, and after so many it is clear enough."""
        at_ms = max(0, round(seconds * 1000))
        last = self.breaks[-1] if self.breaks else None
        near = last is not None and last.found == found and abs(at_ms - last.at_ms) < _BREAKS_APART_MS
        if not near and len(self.breaks) < MOST_BREAKS:
            self.breaks.append(Break(at_ms, found))

    def frames(self) -> Iterator[AudioFrame]:
        """The decoded frames; a damaged packet is passed over, as players do."""
        for packet in self.packets():
            yield from self.decoded(packet)

    def blocks(self) -> Iterator[Block]:
        """All samples in blocks of about a second; a gap in the file's times is filled with silence."""
        start = 0
        for number, pieces in enumerate(self._seconds(), start=1):
            gathered = np.concatenate(pieces)
            yield Block(start, gathered)
            start += len(gathered)
            if number % _BLOCKS_BETWEEN_SWEEPS == 0:
                # Frames hold each other in circles: without a sweep now and then they pile up.
                gc.collect(_YOUNG if number % _BLOCKS_BETWEEN_WHOLE_SWEEPS else _ALL)
        if not start:
            raise CannotRead(self.path.name, 0, "it holds no sound that can be decoded", SOUND_ALLOWED)

    def _seconds(self) -> Iterator[list[Samples]]:
        enough = max(min(_BLOCK_SECONDS * self.rate, _MOST_IN_A_BLOCK // self.channels), _BLOCK_SAMPLES)
        pieces: list[Samples] = []
        length = 0
        for piece in self._pieces():
            pieces.append(piece)
            length += len(piece)
            if length >= enough:
                yield pieces
                pieces, length = [], 0
        if pieces:
            yield pieces

    def _pieces(self) -> Iterator[Samples]:
        """Frame by frame, with silence put where the file's own times leave a gap."""
        count = 0
        for frame in self.frames():
            piece = self.samples_of(frame)
            # After damage, frames may have lost their time; they follow on what came before.
            gap = 0 if frame.time is None else round(self.time_of(frame) * self.rate) - count
            if gap > SMALLEST_GAP_SECONDS * self.rate:
                yield self.silence(gap, piece)
                self.note(count / self.rate, f"{gap / self.rate:.1f} s are missing")
                count += gap
            count += len(piece)
            yield piece
        self._note_early_end(count / self.rate)

    def _note_early_end(self, seconds: float) -> None:
        promised = promised_seconds(self.path, self.kind, self.container, self.stream)
        if promised is not None and promised - seconds > _CUT_OFF_SECONDS:
            self.note(seconds, f"it is cut off: its head promises {promised:.1f} s")
        elif misses_its_end(self.path, self.kind):
            self.note(seconds, "it is cut off: its last page is missing")

    def seek(self, seconds: float) -> None:
        """Go on from a little before a time; before the start means the start."""
        base = self.stream.time_base
        if base and seconds > 0:
            self.container.seek(int(seconds / base) + (self.stream.start_time or 0), stream=self.stream)

    def time_of(self, frame: AudioFrame) -> float:
        """Seconds from the start of the sound; some containers start their clock later than at 0."""
        if frame.time is None:
            raise CannotRead(self.path.name, 0, "its sound has no times", SOUND_ALLOWED)
        start = self.stream.start_time
        return frame.time - (float(start * self.stream.time_base) if start and self.stream.time_base else 0.0)

    def silence(self, length: int, like: Samples) -> Samples:
        """So many silent samples; CannotRead when they would fill more than the largest gap."""
        if length > _LARGEST_GAP_SECONDS * self.rate:
            found = f"its times jump by {length // self.rate} seconds"
            raise CannotRead(self.path.name, 0, found, "A gap may last 10 minutes; make the file again")
        return np.zeros((length, self.channels), like.dtype)

    def samples_of(self, frame: AudioFrame) -> Samples:
        """Rows of channels; a frame that differs from the first ones is brought to their shape."""
        alike = frame.format.packed.name == self.held_as and frame.sample_rate == self.rate
        if not alike or len(frame.layout.channels) != self.channels:
            frame = AudioResampler(format=self.held_as, layout=self.layout, rate=self.rate).resample(frame)[0]
        array = frame.to_ndarray()
        samples = array.T if frame.format.is_planar else array.reshape(-1, self.channels)
        return samples if samples.dtype.kind == "i" else _sound_numbers(samples)


def _sound_numbers(samples: Samples) -> Samples:
    """Floats as they are, unless some are no numbers or far beyond full scale, which encoders refuse."""
    if samples.min(initial=0) >= -_LOUDEST_FLOAT and samples.max(initial=0) <= _LOUDEST_FLOAT:
        return samples
    cleaned: Samples = np.clip(np.nan_to_num(samples), -_LOUDEST_FLOAT, _LOUDEST_FLOAT)
    return cleaned


@contextmanager
def open_sound(path: Path) -> Iterator[Sound]:
    """The sound file, opened as what its first bytes say and with no leave to open anything else."""
    kind = container_of(path)
    options = {"protocol_whitelist": "file", "format_whitelist": _names_of(kind)}
    if kind == "wav":
        options["max_size"] = _WAV_PIECE_BYTES
    try:
        # Old programs wrote tags in other alphabets than UTF-8.
        container = av.open(f"file:{path}", format=kind, container_options=options, metadata_errors="replace")
    except av.FFmpegError as problem:
        raise CannotRead(path.name, 0, "it is broken at its beginning", SOUND_ALLOWED) from problem
    with container:
        if not container.streams.audio:
            raise CannotRead(path.name, 0, "it holds no sound", SOUND_ALLOWED)
        yield _sound(path, container, kind)


def _names_of(kind: str) -> str:
    return av.ContainerFormat(kind, "r").name


def _sound(path: Path, container: InputContainer, kind: str) -> Sound:
    stream = container.streams.audio[0]
    # None where FFmpeg knows no decoder, whatever its types say.
    context: AudioCodecContext | None = stream.codec_context
    if context is None:
        raise CannotRead(path.name, 0, "its sound is in a codec that is not known", SOUND_ALLOWED)
    if not 1 <= context.channels <= MOST_CHANNELS:
        raise CannotRead(path.name, 0, f"it has {context.channels} channels", f"Up to {MOST_CHANNELS} can be taken")
    if not LOWEST_RATE <= context.sample_rate <= HIGHEST_RATE:
        allowed = f"From {LOWEST_RATE} to {HIGHEST_RATE} can be taken"
        raise CannotRead(path.name, 0, f"it has {context.sample_rate} samples a second", allowed)
    if context.format is None or context.format.packed.name not in _HELD_AS:
        raise CannotRead(path.name, 0, "its samples are of a kind that is not known", SOUND_ALLOWED)
    held_as = _HELD_AS[context.format.packed.name]
    return Sound(
        path=path,
        container=container,
        stream=stream,
        rate=context.sample_rate,
        channels=context.channels,
        layout=context.layout.name,
        held_as=held_as,
        bits=_bits(context),
        kind=kind,
    )


def _bits(context: AudioCodecContext) -> int:
    """FLAC and 24-bit WAV are both held in 32 bits; only the codec's name tells the narrower WAV."""
    return 24 if "24" in context.codec.name else 32
