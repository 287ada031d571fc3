"""The technical facts of a master: what it is held in, how finely, and what its maker wrote into it."""

from __future__ import annotations

from dataclasses import dataclass

from archive.audio.reading import Sound
from archive.audio.riff import Broadcast, read_riff

_FLAC_STREAMINFO_BYTES = 34
_KIND_WORDS = {"mov": "mp4"}


@dataclass(frozen=True)
class MasterFacts:
    """`bits` is the depth of a sample, None where the codec keeps no samples; `pictures` tells a video file."""

    container: str
    codec: str
    rate: int
    bits: int | None
    channels: int
    layout: str
    pictures: bool
    broadcast: Broadcast | None


def facts_of(sound: Sound) -> MasterFacts:
    """The facts of an opened sound, from its heads alone."""
    riff = read_riff(sound.path)
    form = riff.form.lower() if riff and riff.form != "RIFF" else _KIND_WORDS.get(sound.kind, sound.kind)
    return MasterFacts(
        container=form,
        codec=sound.stream.codec_context.codec.canonical_name,
        rate=sound.rate,
        bits=_bits(sound),
        channels=sound.channels,
        layout=sound.layout,
        pictures=bool(sound.container.streams.video) and sound.kind not in ("flac", "mp3"),
        broadcast=riff.broadcast if riff else None,
    )


def _bits(sound: Sound) -> int | None:
    """Only codecs that keep every sample have a depth."""
    context = sound.stream.codec_context
    name = context.codec.canonical_name
    if name.startswith("pcm_"):
        digits = "".join(letter for letter in name if letter.isdigit())
        return int(digits[:2]) if len(digits) > 1 else 8
    extra = context.extradata
    if name == "flac" and extra and len(extra) >= _FLAC_STREAMINFO_BYTES:
        return ((extra[12] & 1) << 4 | extra[13] >> 4) + 1
    return 16 if context.format and context.format.name.startswith("s16") and name in ("alac", "wavpack") else None
