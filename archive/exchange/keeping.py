"""The files of a draft taken into a home's kept files, before any record names them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

from archive.audio.words import bears_words, copy_without_words
from archive.exchange.draft_voices import CollectionDraft, SoundDraft
from archive.pictures.preparing import prepare
from archive.store.files import FileStore

Progress = Callable[[str, int, int], None]

SOUND_TYPES = {
    "webm": "audio/webm",
    "mp3": "audio/mpeg",
    "wav": "audio/wav",
    "flac": "audio/flac",
    "ogg": "audio/ogg",
    "opus": "audio/ogg",
    "m4a": "audio/mp4",
    "aiff": "audio/aiff",
    "aif": "audio/aiff",
    "oga": "audio/ogg",
    "mka": "audio/x-matroska",
    "aac": "audio/aac",
    "amr": "audio/amr",
    "au": "audio/basic",
    "bwf": "audio/wav",
    "caf": "audio/x-caf",
    "rf64": "audio/wav",
    "w64": "audio/x-w64",
    "wma": "audio/x-ms-wma",
    "wv": "audio/x-wavpack",
    "asf": "video/x-ms-asf",
    "avi": "video/x-msvideo",
    "flv": "video/x-flv",
    "m4v": "video/mp4",
    "mkv": "video/x-matroska",
    "mov": "video/quicktime",
    "mp4": "video/mp4",
    "mpeg": "video/mpeg",
    "mpg": "video/mpeg",
    "ts": "video/mp2t",
}


@dataclass(frozen=True)
class KeptPicture:
    """A picture as it is kept."""

    sha256: str
    width: int
    height: int


@dataclass(frozen=True)
class FileFacts:
    """What the database says of a kept file."""

    sha256: str
    size: int
    media_type: str
    name: str


@dataclass
class KeptFiles:
    """Checksums by the path that a file came from, and the facts of each."""

    pictures: dict[Path, KeptPicture] = field(default_factory=dict)
    sounds: dict[Path, str] = field(default_factory=dict)
    facts: dict[str, FileFacts] = field(default_factory=dict)
    new: set[str] = field(default_factory=set)


def keep_files(files: FileStore, draft: CollectionDraft, kept: KeptFiles, on_progress: Progress) -> None:
    """Keep every sound and picture. It does no harm if the records never follow: the files are swept."""
    pictures = [picture.path for thing in draft.objects for picture in thing.pictures]
    sounds = [
        sound
        for interview in draft.interviews
        for recording in interview.recordings
        for sound in (recording.master, *recording.also)
    ]
    copies = {sound.path for each in draft.interviews for recording in each.recordings for sound in recording.also}
    total = len(pictures) + len(sounds)
    for number, path in enumerate(pictures):
        on_progress("Keeping files", number, total)
        picture = prepare(path)
        sha256, size = files.keep_bytes(picture.content)
        kept.pictures[path] = KeptPicture(sha256, picture.width, picture.height)
        kept.facts[sha256] = FileFacts(sha256, size, picture.media_type, path.name)
    for number, sound in enumerate(sounds, len(pictures)):
        on_progress("Keeping files", number, total)
        sha256, size = _keep_copy(files, sound) if sound.path in copies else files.keep(sound.path)
        kept.sounds[sound.path] = sha256
        # What a master is called says little: whether it holds sound was found out by reading it.
        media_type = SOUND_TYPES.get(sound.name.lower().rpartition(".")[2], "application/octet-stream")
        kept.facts[sha256] = FileFacts(sha256, size, media_type, sound.name)
    on_progress("Keeping files", total, total)


def _keep_copy(files: FileStore, sound: SoundDraft) -> tuple[str, int]:
    """A copy to listen to is served from the moment its record stands, so the words in its tags stay behind now."""
    if not bears_words(sound.path):
        return files.keep(sound.path)
    form = sound.name.lower().rpartition(".")[2]
    return files.keep_made(partial(copy_without_words, sound.path, form=form))
