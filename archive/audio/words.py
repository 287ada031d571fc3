"""Words that a sound file carries beside its sound (titles, remarks, a cover picture), and copies without them.

A file that came fit for browsers is passed on as it is, so a name in its tags would reach every listener.
"""

from __future__ import annotations

from pathlib import Path

import av
from av.container import OutputContainer

from archive.audio.kinds import container_of
from archive.audio.reading import Sound, open_sound

# What programs write of themselves, and what says nothing of people.
_HARMLESS = frozenset({"encoder", "duration", "language"})

_PLAYED = {("matroska", "opus"): "webm", ("matroska", "vorbis"): "webm", ("mp3", "mp3"): "mp3"}


def bears_words(path: Path) -> bool:
    """Whether a sound file has tags, chapters, pictures or attachments."""
    with open_sound(path) as sound:
        container = sound.container
        tags = {key.lower() for key in (*container.metadata, *sound.stream.metadata)}
        return bool(tags - _HARMLESS) or len(container.streams) > 1 or bool(container.chapters())


def browser_form(path: Path) -> str:
    """The form ("webm" or "mp3") in which the file's own packets play in every browser; "" when there is none."""
    with open_sound(path) as sound:
        codec = sound.stream.codec_context.codec.canonical_name
    return _PLAYED.get((container_of(path), codec), "")


def copy_without_words(source: Path, target: Path, form: str) -> None:
    """The same sound, packet for packet and not encoded again, in a file (WebM or MP3) that carries nothing else."""
    exact = {"fflags": "+bitexact"}
    with open_sound(source) as sound, av.open(f"file:{target}", "w", format=form, options=exact) as container:
        _copy_packets(sound, container)


def _copy_packets(sound: Sound, container: OutputContainer) -> None:
    stream = container.add_stream_from_template(sound.stream)
    for packet in sound.packets():
        if packet.dts is not None:
            packet.stream = stream
            container.mux(packet)
