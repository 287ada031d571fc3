"""Sound files being made: the forms of access copies, lossless forms, and the writer that fills one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

import av
from av.audio.frame import AudioFrame
from av.audio.stream import AudioStream
from av.codec.context import Flags
from av.container import OutputContainer

from archive.audio.reading import Block, Sound
from archive.errors import OutOfRange


@dataclass(frozen=True)
class Form:
    """How a sound file is written. Rate and layout are the source's own where they are empty; `words` are its tags."""

    container: str
    codec: str
    rate: int = 0
    layout: str = ""
    bit_rate: int = 0
    codec_options: Mapping[str, str] = field(default_factory=dict)
    container_options: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)


# Speech in mono: Opus carries it at 32 kb/s, MP3 needs 48. MP3 at 24 kHz plays in every browser. Opus' speech mode
# falls silent within 20 ms of a cut; its music mode hums on for 150 ms. AAC is for old players. The quicker MP3 level
# halves the time and gives up little: at these rates the 12 kHz of room, not the shaping of noise, decide.
_MONO = {
    "webm": Form("webm", "libopus", 48_000, "mono", 32_000, {"application": "voip"}),
    "mp3": Form("mp3", "libmp3lame", 24_000, "mono", 48_000, {"compression_level": "7"}),
    "m4a": Form("mp4", "aac", 48_000, "mono", 64_000, container_options={"movflags": "+faststart"}),
}
_STEREO_BIT_RATES = {"webm": 48_000, "mp3": 64_000, "m4a": 96_000}


def access_form(name: str, channels: int) -> Form:
    """The form of an access copy ("webm", "mp3", "m4a"): mono stays mono, and everything else becomes stereo."""
    if name not in _MONO:
        raise OutOfRange(f"An access copy is one of {', '.join(_MONO)}, not '{name}'.")
    if channels == 1:
        return _MONO[name]
    return replace(_MONO[name], layout="stereo", bit_rate=_STEREO_BIT_RATES[name])


def lossless_form(target: Path, sound: Sound) -> Form:
    """The WAV or FLAC form, by the target's name, that holds every bit of the source that it can."""
    if target.suffix == ".flac":
        return Form("flac", "flac", sound.rate, sound.layout)
    if target.suffix == ".wav":
        codec = {"s16": "pcm_s16le", "flt": "pcm_f32le", "s32": f"pcm_s{sound.bits}le"}[sound.held_as]
        return Form("wav", codec, sound.rate, sound.layout, container_options={"rf64": "auto"})
    raise OutOfRange(f"A lossless copy is a .wav or .flac file, not '{target.name}'.")


@dataclass
class Writer:
    """One sound file being written; blocks are put in order and the rest is flushed at the end."""

    container: OutputContainer
    stream: AudioStream
    sound: Sound

    def take(self, block: Block) -> None:
        """Append a block."""
        packed = block.samples.reshape(1, -1)
        frame = AudioFrame.from_ndarray(packed, format=self.sound.held_as, layout=self.sound.layout)
        frame.sample_rate = self.sound.rate
        frame.time_base = Fraction(1, self.sound.rate)
        frame.pts = block.start
        self._encode(frame)

    def finish(self) -> None:
        """Flush what the resampler and the encoder still hold."""
        self._encode(None)

    def _encode(self, frame: AudioFrame | None) -> None:
        for packet in self.stream.encode(frame):
            self.container.mux(packet)


@contextmanager
def writing(target: Path, form: Form, sound: Sound) -> Iterator[Writer]:
    """A writer of one file in one form, fed with blocks of the sound. Of dates and tags only the form's go in."""
    exact = {"fflags": "+bitexact"}
    container = av.open(
        f"file:{target}", "w", format=form.container, options=exact, container_options=dict(form.container_options)
    )
    with container:
        container.metadata.update(form.words)
        stream = _stream(container, form, sound)
        writer = Writer(container, stream, sound)
        yield writer
        writer.finish()


def _stream(container: OutputContainer, form: Form, sound: Sound) -> AudioStream:
    stream = container.add_stream(form.codec, rate=form.rate or sound.rate, options=dict(form.codec_options))
    assert isinstance(stream, AudioStream), "the forms name sound codecs only"
    context = stream.codec_context
    context.layout = form.layout or sound.layout
    context.flags |= Flags.bitexact
    if form.bit_rate:
        context.bit_rate = form.bit_rate
    if form.codec == "flac":
        context.format = "s16" if sound.held_as == "s16" else "s32"
    return stream
