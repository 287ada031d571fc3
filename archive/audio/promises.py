"""What a sound file promises of its own length, against which a cut-off one is known."""

from __future__ import annotations

from pathlib import Path

import av
from av.audio.stream import AudioStream
from av.container import InputContainer

from archive.audio.riff import read_riff

# Of other kinds, FFmpeg guesses the length from the file's size or its last page.
_PROMISING = frozenset({"w64", "aiff", "flac", "matroska", "mov", "caf", "au", "avi", "asf"})
_OGG_PAGE, _OGG_LAST = b"OggS", 4
_OGG_LONGEST_PAGE = 65_307
_MP3_COUNTS = (b"Xing", b"Info", b"VBRI")
_MP3_HEAD = 1 << 16


def promised_seconds(path: Path, kind: str, container: InputContainer, stream: AudioStream) -> float | None:
    """How long the file's head says that its sound is; None where it says nothing, or what is read is a guess."""
    if kind == "wav":
        # FFmpeg makes the length of a WAV file fit what is there.
        riff = read_riff(path)
        return riff.promised / riff.byte_rate if riff and riff.promised and riff.byte_rate else None
    if kind not in _PROMISING and not (kind == "mp3" and _counts_its_frames(path)):
        return None
    if stream.duration and stream.time_base:
        return float(stream.duration * stream.time_base)
    alone = len(container.streams) == 1
    return container.duration / av.time_base if alone and container.duration else None


def misses_its_end(path: Path, kind: str) -> bool:
    """Whether an Ogg file's last page is not marked as the last."""
    if kind != "ogg":
        return False
    with path.open("rb") as file:
        file.seek(max(0, path.stat().st_size - _OGG_LONGEST_PAGE))
        tail = file.read()
    at = tail.rfind(_OGG_PAGE)
    return at < 0 or len(tail) < at + 6 or not tail[at + 5] & _OGG_LAST


def _counts_its_frames(path: Path) -> bool:
    """Whether an MP3 file says at its head how many frames it has."""
    with path.open("rb") as file:
        head = file.read(_MP3_HEAD)
    return any(word in head for word in _MP3_COUNTS)
