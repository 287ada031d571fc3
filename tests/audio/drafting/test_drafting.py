"""The whole way with a recogniser that stands in for a model, and what a model's folder lacks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from archive.audio.aligning.listening import RATE
from archive.audio.aligning.model import StoppedError
from archive.audio.drafting import drafting, speech_model
from archive.audio.drafting.drafting import draft
from archive.audio.drafting.model import Draft, SaidWord
from archive.audio.drafting.speech_model import NEEDED, look_at, need_model, recogniser_of
from archive.errors import CannotRead, NotReady
from archive.values.timecode import Span
from tests.audio.conftest import MakeSound, noise, tone

LENGTH_S = 22
RATE_GIVEN = 4_000


@pytest.fixture
def long_sound(make_sound: MakeSound, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Noise with a pause of half a second every two seconds, and slices of ten seconds at most."""
    monkeypatch.setattr(drafting, "SHORTEST_MS", 4_000)
    monkeypatch.setattr(drafting, "LONGEST_MS", 10_000)
    sound = noise(LENGTH_S, RATE_GIVEN)[:, 0]
    for start in range(2 * RATE_GIVEN, len(sound), 2 * RATE_GIVEN):
        sound[start : start + RATE_GIVEN // 2] = 0
    return make_sound("long.flac", sound, RATE_GIVEN)


class StandIn:
    """Hears one word a slice, far longer than the slice, and remembers how much it was given."""

    def __init__(self) -> None:
        self.given: list[float] = []

    def __call__(self, samples: NDArray[np.float32]) -> Iterator[Sequence[SaidWord]]:
        self.given.append(len(samples) / RATE)
        assert samples.dtype == np.float32
        yield [SaidWord(f" slice{len(self.given)}.", 2_000, 900_000, 0.8)]


def test_a_long_sound_is_heard_in_slices(long_sound: Path) -> None:
    """None longer than they may be, cut in pauses; words stay inside their slice."""
    ear, shares = StandIn(), list[float]()
    lines = draft(long_sound, ear, progress=lambda share, _says: shares.append(share)).lines
    assert max(ear.given) * 1000 <= drafting.LONGEST_MS
    assert sum(ear.given) == pytest.approx(LENGTH_S, abs=0.1)
    assert [line.text for line in lines] == [f"slice{number}." for number in range(1, len(ear.given) + 1)]
    cuts = [line.end_ms for line in lines][:-1]
    assert all(0 <= cut % 2_000 <= 500 for cut in cuts), cuts
    assert shares[-1] == pytest.approx(1.0)


def test_stopped_it_goes_on_from_there(long_sound: Path, tmp_path: Path) -> None:
    """Finished slices are not heard again; with a recogniser that was told other words, all are."""
    first = StandIn()
    with pytest.raises(StoppedError):
        draft(long_sound, first, told=["lemel"], folder=tmp_path, stop=lambda: len(first.given) > 1)
    assert len(first.given) == 2
    assert not list(tmp_path.glob("samples*"))
    second, third = StandIn(), StandIn()
    lines = draft(long_sound, second, told=["lemel"], folder=tmp_path).lines
    assert len(lines) == len(second.given) + 1
    draft(long_sound, third, told=["other"], folder=tmp_path)
    assert len(third.given) == len(lines)


def test_silence_is_not_given_to_the_model(make_sound: MakeSound) -> None:
    """A model writes something down whatever it is given."""
    ear = StandIn()
    assert draft(make_sound("silent.flac", tone(3, 8_000, level=0.0), 8_000), ear) == Draft([], [])
    assert ear.given == []


def test_speech_that_no_line_tells_is_told(long_sound: Path) -> None:
    """A stretch of three seconds and more in which somebody speaks, before and after the only line."""

    def one_word(samples: NDArray[np.float32]) -> Iterator[Sequence[SaidWord]]:
        if len(samples) / RATE > 9:
            yield [SaidWord(" Chasing.", 4_000, 5_000, 0.9)]

    found = draft(long_sound, one_word)
    (line,) = found.lines
    assert found.untold[0] == Span(0, line.start_ms)
    assert all(not span.overlaps(Span(line.start_ms, line.end_ms)) for span in found.untold)


@pytest.fixture
def packages(monkeypatch: pytest.MonkeyPatch) -> None:
    """A computer on which the packages are installed."""
    monkeypatch.setattr(speech_model, "PACKAGES", ("numpy",))


def a_model(folder: Path) -> Path:
    """A folder with all the files of a model, none of which holds one."""
    folder.mkdir()
    for name in (*NEEDED, "vocabulary.txt"):
        (folder / name).write_text("{}")
    return folder


def test_what_is_missing_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, packages: None) -> None:
    """The folder, the files in it, the packages: each in words."""
    with pytest.raises(NotReady, match="no speech model in"):
        need_model(tmp_path / "none")
    folder = a_model(tmp_path / "model")
    need_model(folder)
    (folder / "tokenizer.json").unlink()
    (folder / "model.bin").write_bytes(b"")
    assert look_at(folder).lacking == ("model.bin", "tokenizer.json")
    with pytest.raises(NotReady, match=r"lacks model\.bin, tokenizer\.json"):
        recogniser_of(folder, "en")
    monkeypatch.setattr(speech_model, "PACKAGES", ("no_such_package",))
    with pytest.raises(NotReady, match=r"lemel\[draft\]"):
        need_model(folder)


@pytest.mark.parametrize("content", ["{", "[]"])
def test_a_damaged_folder_is_told(tmp_path: Path, content: str, packages: None) -> None:
    """Which file cannot be read."""
    folder = a_model(tmp_path / "model")
    (folder / "tokenizer.json").write_text(content)
    with pytest.raises(CannotRead, match=r"tokenizer\.json: it is damaged"):
        recogniser_of(folder, "en")
