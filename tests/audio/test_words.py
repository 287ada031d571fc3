"""What a sound file says beside its sound."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pytest

from archive.audio.probe import probe
from archive.audio.words import bears_words, browser_form, copy_without_words
from archive.errors import CannotRead

MakeSound = Callable[..., Path]


def _tagged(plain: Path, target: Path) -> Path:
    with av.open(str(plain)) as source, av.open(str(target), "w") as container:
        container.metadata["title"] = "Abel Secret, second session"
        stream = container.add_stream_from_template(source.streams.audio[0])
        for packet in source.demux(audio=0):
            if packet.dts is not None:
                packet.stream = stream
                container.mux(packet)
    assert b"Abel Secret" in target.read_bytes()
    return target


def test_refuses_what_is_not_sound(tmp_path: Path) -> None:
    """Text carries words, but is not asked."""
    (tmp_path / "a.mp3").write_text("Abel Secret")
    with pytest.raises(CannotRead):
        bears_words(tmp_path / "a.mp3")


@pytest.mark.parametrize("form", ["webm", "mp3"])
def test_words_are_found_and_left_out(
    make_sound: MakeSound,
    wave: Callable[..., np.ndarray],
    read_back: Callable[[Path], np.ndarray],
    tmp_path: Path,
    form: str,
) -> None:
    """The copy has the same sound, sample for sample, and nothing of the title."""
    plain = make_sound(f"words.{form}", wave(3.3, level=0.5))
    tagged, bare = _tagged(plain, tmp_path / f"tagged.{form}"), tmp_path / f"bare.{form}"
    assert not bears_words(plain)
    assert bears_words(tagged)
    copy_without_words(tagged, bare, form)
    assert not bears_words(bare)
    assert b"Abel" not in bare.read_bytes()
    assert probe(bare) == probe(tagged)
    assert np.array_equal(read_back(bare), read_back(tagged))


@pytest.mark.parametrize(
    ("name", "form"),
    [("a.webm", "webm"), ("a.mp3", "mp3"), ("a.wav", ""), ("a.flac", ""), ("a.opus", ""), ("a.m4a", "")],
)
def test_which_files_browsers_play_as_they_are(make_sound: MakeSound, name: str, form: str) -> None:
    """Opus in WebM and MP3; anything else is encoded anew."""
    assert browser_form(make_sound(f"played-{name}", np.zeros(48_000))) == form
