"""A tiny valid collection folder for tests: two floors, three rooms, two interviews, a few records of each kind.

    write_small_collection(tmp_path / "small")                                        as it is
    write_small_collection(folder, **{"people.csv": swap("Ada Birch", "Ada Beech")})  with one text changed
    write_small_collection(folder, **{"terms.csv": None, "plan/ground.svg": "<svg/>"})

The texts lie in `tests/small-collection/`; sound and pictures are made here. A change is named by the file's path in
the folder. Its value is the new content (text or bytes), None to leave the file out, or a function from the old text
to the new.

Worth knowing: interview I-1 (narrator P-1) is open for all but the web, with a closure in recording I-1-a that with
its guard reaches from 0:08 to 0:12: the word "quatrefoil" is said in it and nowhere else. Interview I-2 (narrator P-2,
who is unnamed and called "A hand in the loft"; the kept name is "Zebedee Oakapple Quince") is allowed for research and
tour alone.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import numpy as np
import soundfile
from PIL import Image, ImageDraw

Content = str | bytes
Change = Content | None | Callable[[str], Content]

TEXTS = Path(__file__).parent / "small-collection"
UNNAMED = "Zebedee Oakapple Quince"
CLOSED_WORD = "quatrefoil"
RECORDING_SECONDS = 24


def write_small_collection(folder: Path, **changes: Change) -> Path:
    """Write the folder, with changes by file path; gives the folder back."""
    files: dict[str, Content] = small_collection_files()
    for name, change in changes.items():
        if change is None:
            del files[name]
        elif callable(change):
            old = files[name]
            files[name] = change(old if isinstance(old, str) else old.decode("latin-1"))
        else:
            files[name] = change
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    return folder


def swap(old: str, new: str) -> Callable[[str], str]:
    """A change that puts `new` for the first `old`, which must be there."""

    def change(text: str) -> str:
        assert old in text, f"the small collection has no {old!r} there"
        return text.replace(old, new, 1)

    return change


def append(more: str) -> Callable[[str], str]:
    """A change that adds text at the end."""
    return lambda text: text + more


def small_collection_files() -> dict[str, Content]:
    """Every file of the small collection by its path in the folder."""
    return {
        **_texts(),
        "pictures/SM.1.png": _picture("black"),
        "pictures/SM.2.png": _picture("saddlebrown"),
        "interviews/I-1/audio.flac": tone(220, RECORDING_SECONDS, "FLAC"),
        "interviews/I-1/audio.mp3": tone(220, RECORDING_SECONDS, "MP3"),
        "interviews/I-2/audio.flac": tone(330, RECORDING_SECONDS, "FLAC"),
    }


def _texts() -> dict[str, Content]:
    paths = sorted(path for path in TEXTS.rglob("*") if path.is_file())
    return {path.relative_to(TEXTS).as_posix(): path.read_text("utf-8") for path in paths}


@lru_cache
def tone(hertz: float, seconds: float, form: str = "FLAC", sample_rate: int = 16_000) -> bytes:
    """A sound file of one pure tone at half of full scale, as FLAC, WAV, MP3 or OGG."""
    times = np.arange(int(seconds * sample_rate)) / sample_rate
    buffer = io.BytesIO()
    soundfile.write(buffer, 0.5 * np.sin(2 * np.pi * hertz * times), sample_rate, format=form)
    return buffer.getvalue()


@lru_cache
def _picture(ink: str) -> bytes:
    image = Image.new("RGB", (60, 40), "white")
    ImageDraw.Draw(image).ellipse((10, 5, 50, 35), outline=ink, width=2)
    buffer = io.BytesIO()
    image.save(buffer, "PNG")
    return buffer.getvalue()
