"""What a sound file is: how long, in which codec, at which rate, in how many channels."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from pathlib import Path

from av.audio.frame import AudioFrame
from av.audio.stream import AudioStream
from av.packet import Packet

from archive.audio.kinds import SOUND_ALLOWED
from archive.audio.reading import Sound, open_sound
from archive.errors import CannotRead

# Enough packets for a decoder that leans on earlier ones (MP3's bit reservoir, Opus' pre-roll).
_TAIL = 16


@dataclass(frozen=True)
class SoundFacts:
    """The facts of one sound file, as found by reading it through."""

    duration_ms: int
    codec: str
    sample_rate: int
    channels: int


def probe(path: Path) -> SoundFacts:
    """The facts of a sound file; raises CannotRead for anything else.

    The length is what can be heard: from the start of the sound to the last decoded sample, whatever the container
    claims. All packets are read, but only the first and last few are decoded. WebM's own clock ticks in milliseconds.
    """
    with open_sound(path) as sound:
        last = _last_frame(sound)
        seconds = sound.time_of(last) + last.samples / sound.rate
        codec = sound.stream.codec_context.codec.canonical_name
        return SoundFacts(max(1, round(seconds * 1000)), codec, sound.rate, sound.channels)


def _last_frame(sound: Sound) -> AudioFrame:
    """The last frame that can be decoded; the first is decoded too, since short files have no other."""
    last: AudioFrame | None = None
    tail: deque[Packet[AudioStream]] = deque(maxlen=_TAIL)
    for packet in sound.packets():
        if last is None:
            last = next(iter(sound.decoded(packet)), None)
        else:
            tail.append(packet)
    for packet in tail:
        last = next(reversed(sound.decoded(packet)), last)
    if last is None:
        raise CannotRead(sound.path.name, 0, "it holds no sound that can be decoded", SOUND_ALLOWED)
    return last
