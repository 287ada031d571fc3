"""A speech model in a folder of this computer: what it lacks, and the recogniser that it makes. Nothing is fetched."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from archive.audio.drafting.model import Recogniser, SaidWord
from archive.errors import CannotRead, Conflict, NotReady

PACKAGES = ("faster_whisper", "ctranslate2")
# Without its own tokenizer.json the library would look for one in the network.
NEEDED = ("model.bin", "config.json", "tokenizer.json")
_VOCABULARIES = ("vocabulary.json", "vocabulary.txt")
_ALLOWED = "Give the folder of a Whisper model made for CTranslate2, whole as it was published"
_BEAM = 5
_MOST_THREADS = 4


@dataclass(frozen=True)
class SpeechModel:
    """Where the model should lie, and what is not there yet."""

    folder: Path
    packages: bool
    there: bool
    lacking: tuple[str, ...]

    @property
    def ready(self) -> bool:
        """Whether a draft can be made."""
        return self.packages and self.there and not self.lacking


def look_at(folder: Path) -> SpeechModel:
    """What a folder and this computer have of all that a draft needs."""
    lacking = [name for name in NEEDED if not _holds(folder / name)]
    if not any(_holds(folder / name) for name in _VOCABULARIES):
        lacking.append(_VOCABULARIES[0])
    packages = all(find_spec(name) is not None for name in PACKAGES)
    return SpeechModel(folder, packages, folder.is_dir(), tuple(lacking))


def _holds(path: Path) -> bool:
    return path.is_file() and path.stat().st_size > 0


def need_model(folder: Path) -> None:
    """NotReady in words unless the packages and a whole model are there."""
    found = look_at(folder)
    if not found.packages:
        raise NotReady("Drafts need two more packages. Install lemel[draft] beside Lemel, then start it again.")
    if not found.there:
        raise NotReady(f"There is no speech model in {folder}. {_ALLOWED}, or set LEMEL_SPEECH_MODEL to its folder.")
    if found.lacking:
        raise NotReady(f"The speech model in {folder} lacks {', '.join(found.lacking)}. {_ALLOWED}.")


def recogniser_of(folder: Path, language: str, hot_words: str = "") -> Recogniser:
    """A recogniser of a language by the model in a folder; it is told the hot words beforehand.

    NotReady when something is missing, CannotRead when the model is damaged, Conflict when it does not know the
    language.
    """
    need_model(folder)
    for name in ("config.json", "tokenizer.json"):
        _look_through(folder / name)
    model = _loaded(folder)
    spoken = language.split("-")[0].casefold()
    if spoken not in model.supported_languages:
        known = ", ".join(sorted(model.supported_languages)[:12])
        raise Conflict(f"The speech model in {folder} does not know the language '{language}'. It knows: {known}.")

    def hear(samples: NDArray[np.float32]) -> Iterator[Sequence[SaidWord]]:
        parts, _about = model.transcribe(
            samples,
            language=spoken,
            beam_size=_BEAM,
            word_timestamps=True,
            # What went wrong once is not carried on, and each half minute is told the hot words anew.
            condition_on_previous_text=False,
            hotwords=hot_words or None,
        )
        for part in parts:
            yield [_word(word) for word in part.words or ()]

    return hear


def _word(word: Any) -> SaidWord:
    start_ms, end_ms = int(word.start * 1000 + 0.5), int(word.end * 1000 + 0.5)
    return SaidWord(word.word, start_ms, end_ms, float(word.probability))


def _look_through(path: Path) -> None:
    try:
        told = json.loads(path.read_bytes())
    except ValueError as problem:
        raise CannotRead(path.name, 0, "it is damaged", _ALLOWED) from problem
    if not isinstance(told, dict):
        raise CannotRead(path.name, 0, "it is damaged", _ALLOWED)


def _loaded(folder: Path) -> Any:
    # Read when the library is first imported: it must not even ask whether there is something newer.
    os.environ["HF_HUB_OFFLINE"] = "1"
    from faster_whisper import WhisperModel

    threads = min(_MOST_THREADS, os.cpu_count() or 1)
    try:
        return WhisperModel(str(folder), device="cpu", compute_type="int8", cpu_threads=threads, local_files_only=True)
    except (RuntimeError, ValueError) as problem:
        raise CannotRead(f"The speech model in {folder}", 0, "it is damaged", _ALLOWED) from problem
