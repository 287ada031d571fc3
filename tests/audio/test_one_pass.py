"""A master taken in: what is found in it, the copies that come of it, and what happens when it is stopped or broken."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pyloudnorm
import pytest

from archive.audio.one_pass import TakenIn, take_in
from archive.audio.probe import probe
from archive.audio.same_sound import likeness
from archive.audio.waveform import ZOOMS_MS, measure_levels
from archive.errors import CannotRead, OutOfRange
from archive.values.timecode import Span
from tests.audio.test_same_sound import spoken

MakeSound = Callable[..., Path]


def _taken(path: Path, **copies: Path) -> TakenIn:
    found = take_in(path, copies)
    assert found is not None
    return found


@pytest.fixture(scope="module")
def speech(make_sound: MakeSound) -> Path:
    """Twenty seconds of two microphones, the second one clipped for a while, with a second of silence."""
    both = np.stack([spoken(20, 1), 0.5 * spoken(20, 2)], axis=1)
    both[48_000 * 5 : 48_000 * 6] = 0
    # A square wave of 250 Hz: every sample stands at full scale, on one side or the other.
    both[48_000 * 12 : 48_000 * 13, 1] = np.where(np.arange(48_000) // 96 % 2, 1.0, -1.0)
    return make_sound("speech.wav", both, 48_000, "PCM_24")


def test_refuses_what_is_no_sound_and_leaves_nothing(tmp_path: Path) -> None:
    """Text is refused, and so is a form that is none; no copy is left behind, whole or in part."""
    source = tmp_path / "a.wav"
    source.write_text("not sound")
    with pytest.raises(CannotRead, match="it is text"):
        take_in(source, {"webm": tmp_path / "a.webm"})
    assert list(tmp_path.iterdir()) == [source]


def test_refuses_an_unknown_form(speech: Path, tmp_path: Path) -> None:
    """A copy is one of the forms that there are."""
    with pytest.raises(OutOfRange, match="webm, mp3, m4a"):
        take_in(speech, {"wma": tmp_path / "a.wma"})
    assert not list(tmp_path.iterdir())


def test_everything_in_one_pass(speech: Path, tmp_path: Path) -> None:
    """Checksum, facts, levels, loudness, shares, pauses and fingerprint, each against another way of finding it."""
    found = _taken(speech, webm=tmp_path / "a.webm", mp3=tmp_path / "a.mp3")
    content = speech.read_bytes()
    assert (found.sha256, found.size) == (hashlib.sha256(content).hexdigest(), len(content))
    assert (found.facts.codec, found.facts.bits, found.facts.channels) == ("pcm_s24le", 24, 2)
    assert (found.duration_ms, found.breaks) == (20_000, ())
    assert {zoom: len(levels.peaks) for zoom, levels in found.levels.items()} == {10: 2000, 100: 200, 1000: 20}
    assert found.levels[100] == measure_levels(speech)
    with av.open(str(speech)) as container:
        samples = np.concatenate([frame.to_ndarray().reshape(-1, 2) for frame in container.decode(audio=0)]) / 2**31
    theirs = pyloudnorm.Meter(48_000, filter_class="DeMan").integrated_loudness(samples)
    assert found.loudness.integrated == pytest.approx(theirs, abs=0.02)
    assert found.gain_db == pytest.approx(min(-23 - theirs, -1 - (found.loudness.true_peak or 0)), abs=0.02)
    assert found.clipping_share == pytest.approx(1 / 40, abs=0.0005)
    assert found.silence_share == pytest.approx(1 / 20, abs=0.06)
    assert any(pause.start_ms <= 5010 and pause.end_ms >= 5990 for pause in found.pauses)
    assert likeness(found.fingerprint, _taken(tmp_path / "a.mp3").fingerprint).same
    assert {path.name for path in tmp_path.iterdir()} == {"a.webm", "a.mp3"}


@pytest.mark.parametrize("form", ["webm", "mp3", "m4a"])
def test_copies_are_whole_and_as_loud(make_sound: MakeSound, tmp_path: Path, form: str) -> None:
    """A copy keeps both microphones and the length, and its loudness: the gain is told and not applied."""
    target = tmp_path / f"a.{form}"
    plain = make_sound("plain-speech.wav", np.stack([spoken(20, 1), 0.5 * spoken(20, 2)], axis=1))
    found = _taken(plain, **{form: target})
    facts = probe(target)
    assert facts.channels == 2
    assert facts.duration_ms == pytest.approx(20_000, abs=50)
    copied = _taken(target).loudness.integrated
    assert found.loudness.integrated is not None
    # The MP3 encoder takes half a decibel off by itself, the AAC encoder puts a little on.
    assert copied == pytest.approx(found.loudness.integrated, abs=1.0)


def test_the_same_bytes_each_time(speech: Path, tmp_path: Path) -> None:
    """Encoders in threads give the same copies as ever."""
    made = []
    for name in ("one", "two"):
        copies = {form: tmp_path / f"{name}.{form}" for form in ("webm", "mp3", "m4a")}
        _taken(speech, **copies)
        made.append([path.read_bytes() for path in copies.values()])
    assert made[0] == made[1]


def test_progress_rises_to_the_end(speech: Path) -> None:
    """Shares rise and words are said."""
    told: list[tuple[float, str]] = []
    take_in(speech, {}, progress=lambda share, says: told.append((share, says)))
    shares = [share for share, _ in told]
    assert shares == sorted(shares)
    assert shares[0] < 0.1
    assert shares[-1] == pytest.approx(0.99)
    assert all(says for _, says in told)


def test_stopping_leaves_nothing(speech: Path, tmp_path: Path) -> None:
    """Asked to stop half-way, the pass gives nothing back and leaves no file, and an older copy as it was."""
    (tmp_path / "a.mp3").write_bytes(b"older")
    asked: list[int] = []

    def stop() -> bool:
        asked.append(1)
        return len(asked) > 8

    assert take_in(speech, {"webm": tmp_path / "a.webm", "mp3": tmp_path / "a.mp3"}, stop=stop) is None
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("a.mp3", b"older")]


def test_an_error_while_writing_is_told(speech: Path, tmp_path: Path) -> None:
    """Where a copy cannot be written, the pass ends with an error and does not hang."""
    with pytest.raises((OSError, av.FFmpegError)):
        take_in(speech, {"webm": tmp_path / "nowhere" / "a.webm"})


def test_an_error_of_whoever_watches_ends_it(speech: Path, tmp_path: Path) -> None:
    """What a progress call raises comes through, and nothing is left."""

    def broken(share: float, says: str) -> None:
        raise KeyError(says)

    with pytest.raises(KeyError):
        take_in(speech, {"mp3": tmp_path / "a.mp3"}, progress=broken)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".aiff", ".mp3", ".ogg", ".opus", ".webm", ".m4a"])
def test_a_whole_file_has_no_breaks(make_sound: MakeSound, suffix: str) -> None:
    """Nothing is called damaged that is not, whatever padding its container has."""
    assert _taken(make_sound(f"sound-of-body{suffix}", spoken(7.3, 3))).breaks == ()


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".webm", ".mp3", ".ogg", ".opus", ".aiff"])
def test_a_cut_off_file_is_taken_as_far_as_it_goes(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """Half a file gives half the sound, a copy of it, and a break at its end."""
    whole = make_sound(f"cut-off{suffix}", spoken(20, 3)).read_bytes()
    half = tmp_path / f"half{suffix}"
    half.write_bytes(whole[: len(whole) // 2])
    found = _taken(half, mp3=tmp_path / "a.mp3")
    assert 7000 < found.duration_ms < 12_500
    assert found.breaks[-1].at_ms == pytest.approx(found.duration_ms, abs=500)
    assert "cut off" in found.breaks[-1].found
    assert probe(tmp_path / "a.mp3").duration_ms == pytest.approx(found.duration_ms, abs=50)


@pytest.mark.parametrize("suffix", [".flac", ".webm", ".ogg"])
def test_damage_in_the_middle_is_told_and_passed_over(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """Where the middle is overwritten, what stands before and after it is taken, at its own time."""
    content = bytearray(make_sound(f"hurt{suffix}", spoken(30, 4)).read_bytes())
    middle = len(content) // 2
    content[middle : middle + len(content) // 10] = bytes(len(content) // 10)
    (tmp_path / f"hurt{suffix}").write_bytes(content)
    found = _taken(tmp_path / f"hurt{suffix}")
    assert found.duration_ms == pytest.approx(30_000, abs=300)
    assert found.breaks
    assert all(11_000 < each.at_ms < 19_500 for each in found.breaks)


def test_memory_stays_bounded(make_sound: MakeSound, tmp_path: Path) -> None:
    """Five minutes of FLAC (115 MB of samples) with both copies take less than 300 MB, in a process of its own."""
    path = make_sound("long.flac", np.tile(np.stack([spoken(20, 5)] * 2, axis=1), (15, 1)))
    code = (
        "import sys, json; from pathlib import Path; from archive.audio.one_pass import take_in\n"
        "take_in(Path(sys.argv[1]), {'webm': Path(sys.argv[2]), 'mp3': Path(sys.argv[3])})\n"
        "print(json.dumps(Path('/proc/self/status').read_text()))"
    )
    command = [sys.executable, "-c", code, str(path), str(tmp_path / "a.webm"), str(tmp_path / "a.mp3")]
    answer = subprocess.run(command, capture_output=True, text=True, check=True, timeout=300)
    peak = re.search(r"VmHWM:\s+(\d+)", json.loads(answer.stdout))
    assert peak is not None
    assert int(peak[1]) < 300 * 1024


def test_the_sound_of_a_video(tmp_path: Path) -> None:
    """A video file's sound is taken and its pictures are told."""
    path = tmp_path / "film.mp4"
    with av.open(str(path), "w") as container:
        pictures = container.add_stream("mpeg4", rate=10)
        pictures.width, pictures.height = 64, 64
        sound = container.add_stream("aac", rate=48_000)
        sound.layout = "mono"
        for number in range(50):
            picture = av.VideoFrame.from_ndarray(np.full((64, 64, 3), number, np.uint8), "rgb24")
            container.mux(pictures.encode(picture))
        samples = (spoken(5, 6) * 32_000).astype(np.int16)
        frame = av.AudioFrame.from_ndarray(samples[None, :], "s16", "mono")
        frame.sample_rate = 48_000
        container.mux(sound.encode(frame))
        container.mux(pictures.encode(None))
        container.mux(sound.encode(None))
    found = _taken(path, webm=tmp_path / "a.webm")
    assert (found.facts.pictures, found.facts.codec, found.facts.container) == (True, "aac", "mp4")
    assert found.duration_ms == pytest.approx(5000, abs=50)
    assert not found.breaks
    assert os.path.getsize(tmp_path / "a.webm") > 5000


@pytest.mark.parametrize(
    ("form", "codec", "kind"), [("asf", "wmav2", "asf"), ("avi", "pcm_s16le", "avi"), ("mpegts", "mp2", "mpegts")]
)
def test_forms_of_old_recorders(tmp_path: Path, form: str, codec: str, kind: str) -> None:
    """WMA, AVI and transport streams are read as what they are."""
    path = tmp_path / "a.bin"
    with av.open(str(path), "w", format=form) as container:
        sound = container.add_stream(codec, rate=44_100)
        sound.bit_rate = 64_000
        sound.layout = "mono"
        frame = av.AudioFrame.from_ndarray((spoken(5, 6, 44_100) * 32_000).astype(np.int16)[None, :], "s16", "mono")
        frame.sample_rate = 44_100
        container.mux(sound.encode(frame))
        container.mux(sound.encode(None))
    found = _taken(path)
    assert (found.facts.container, found.facts.codec.replace("mp3", "mp2")) == (kind, codec)
    assert found.duration_ms == pytest.approx(5000, abs=150)


def test_zooms_agree(speech: Path) -> None:
    """A coarser zoom is the highest of the finer ones."""
    levels = _taken(speech).levels
    fine, coarse = levels[ZOOMS_MS[0]].peaks, levels[ZOOMS_MS[2]].peaks
    assert [max(fine[at : at + 100]) for at in range(0, len(fine), 100)] == list(coarse)


def test_pauses_lie_inside(speech: Path) -> None:
    """Every pause lies within the recording and none overlaps the next."""
    found = _taken(speech)
    edges = [time for pause in found.pauses for time in (pause.start_ms, pause.end_ms)]
    assert edges == sorted(edges)
    assert Span(0, found.duration_ms).end_ms >= edges[-1]
