"""Broadcast WAV: the words of a cut as others read them, and files of others, built here byte by byte, as we do."""

from __future__ import annotations

import struct
from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile

from archive.audio.cutting import FADE_MS, cut
from archive.audio.one_pass import take_in
from archive.audio.riff import Broadcast, read_riff
from archive.audio.words import bears_words
from archive.values.timecode import Span

MakeSound = Callable[..., Path]
RATE = 48_000
SPAN = Span(1500, 2600)


def _words(path: Path) -> Broadcast:
    riff = read_riff(path)
    assert riff is not None
    assert riff.broadcast is not None
    return riff.broadcast


def _bext_of_tech_3285(path: Path) -> dict[str, bytes]:
    """The fields by their places in the standard's own table, read by nothing of ours."""
    content = path.read_bytes()
    at = content.index(b"bext")
    (length,) = struct.unpack_from("<I", content, at + 4)
    chunk = content[at + 8 : at + 8 + length]
    places = {"description": (0, 256), "originator": (256, 288), "date": (320, 330), "time": (330, 338)}
    fields = {name: chunk[start:end].rstrip(b"\0") for name, (start, end) in places.items()}
    return fields | {"reference": chunk[338:346], "history": chunk[602:].rstrip(b"\0"), "reserved": chunk[422:602]}


@pytest.mark.parametrize("suffix", [".webm", ".mp3", ".m4a"])
def test_cuts_for_listeners_bear_no_words(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """What is described for a sound editor reaches no visitor's file."""
    target = tmp_path / f"a{suffix}"
    cut(make_sound("bext-master.wav", np.zeros(RATE * 4)), target, SPAN, description="Nella Farrant")
    # MP4 always has tags of its own kind.
    assert suffix == ".m4a" or not bears_words(target)
    assert b"Farrant" not in target.read_bytes()


@pytest.mark.parametrize("description", ["x" * 300, "Zoë at the\npress \N{SNOWMAN}", ""], ids=["long", "odd", "none"])
def test_a_description_of_any_letters_fits_the_field(make_sound: MakeSound, tmp_path: Path, description: str) -> None:
    """The field is ASCII and has 256 places; what follows it stays where it belongs."""
    cut(make_sound("bext-master.wav", np.zeros(RATE * 4)), tmp_path / "a.wav", SPAN, description=description)
    told = _bext_of_tech_3285(tmp_path / "a.wav")
    wanted = {"x": "x" * 256, "Z": "Zoe at the press ?", "": "From 0:01.500 to 0:02.600 of a master"}[description[:1]]
    assert told["description"].decode("ascii") == wanted
    assert told["originator"] == b"Lemel"


@pytest.mark.parametrize(("subtype", "bits"), [("PCM_16", 16), ("PCM_24", 24)])
def test_a_cut_says_where_it_starts(make_sound: MakeSound, tmp_path: Path, subtype: str, bits: int) -> None:
    """Every field at the place that the standard gives it, the same samples for soundfile, the tags for FFmpeg."""
    noise = np.random.default_rng(3).uniform(-0.5, 0.5, (RATE * 4, 2))
    master, target = make_sound(f"bext-{bits}.wav", noise, RATE, subtype), tmp_path / "a.wav"
    cut(master, target, SPAN, description="C-4, the press")
    told = _bext_of_tech_3285(target)
    assert (told["description"], told["originator"]) == (b"C-4, the press", b"Lemel")
    assert struct.unpack("<Q", told["reference"]) == (72_000,)
    assert told["history"] == f"A=PCM,F=48000,W={bits},M=stereo,T=Lemel, cut from a master\r\n".encode()
    assert (told["date"], told["time"]) == (b"", b"")
    assert not any(told["reserved"])
    samples, rate = soundfile.read(target, dtype="int32")
    whole, _ = soundfile.read(master, dtype="int32")
    edge = FADE_MS * RATE // 1000
    assert rate == RATE
    assert np.array_equal(samples[edge:-edge], whole[72_000 : 72_000 + 52_800][edge:-edge])
    with av.open(str(target)) as container:
        assert container.metadata["time_reference"] == "72000"
        assert container.metadata["coding_history"].startswith("A=PCM,F=48000")
    assert (_words(target).time_reference, _words(target).originator) == (72_000, "Lemel")


def test_a_gain_is_told_and_the_same_cut_is_the_same_file(make_sound: MakeSound, tmp_path: Path) -> None:
    """The history says by how much a cut was made louder; no date makes one file differ from the next."""
    master = make_sound("bext-master.wav", np.zeros(RATE * 4))
    for name in ("a.wav", "b.wav"):
        cut(master, tmp_path / name, SPAN, gain_db=-3.25)
    assert "gain -3.2 dB" in _words(tmp_path / "a.wav").coding_history
    assert (tmp_path / "a.wav").read_bytes() == (tmp_path / "b.wav").read_bytes()


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + struct.pack("<I", len(content)) + content + b"\0" * (len(content) % 2)


@pytest.mark.parametrize("version", [0, 1, 2])
@pytest.mark.parametrize("after", [False, True])
def test_a_broadcast_wave_of_another_recorder_is_taken_in(tmp_path: Path, version: int, after: bool) -> None:
    """Of each version of the standard, the chunk before or after the sound, an odd length, other chunks about it."""
    umid = bytes(range(64)) if version else bytes(64)
    loudness = struct.pack("<5h", -2310, 740, -120, 0x7FFF, -2040) if version == 2 else bytes(10)
    words = b"Farrant, first reel".ljust(256, b"\0") + b"Works archive".ljust(32, b"\0") + b"GBWKS0007".ljust(32, b"\0")
    words += b"1984-05-03" + b"10:11:12" + struct.pack("<QH", 5_000_000_001, version) + umid + loudness + bytes(180)
    bext = _chunk(b"bext", words + b"A=ANALOGUE,M=mono,T=reel\r\nA=PCM,F=8000\r\n\0")
    sound = np.random.default_rng(1).integers(-9000, 9000, 8001, np.int16).tobytes()
    form = _chunk(b"fmt ", struct.pack("<HHIIHH", 1, 1, 8000, 16_000, 2, 16))
    parts = [_chunk(b"JUNK", bytes(27)), form, _chunk(b"data", sound), _chunk(b"iXML", b"<BWFXML/>")]
    parts.insert(3 if after else 1, bext)
    content = b"WAVE" + b"".join(parts)
    (tmp_path / "a.wav").write_bytes(b"RIFF" + struct.pack("<I", len(content)) + content)
    taken = take_in(tmp_path / "a.wav", {})
    assert taken is not None
    told = taken.facts.broadcast
    assert told is not None
    assert (told.description, told.originator, told.originator_reference) == (
        "Farrant, first reel", "Works archive", "GBWKS0007",
    )  # fmt: skip
    assert (told.origination_date, told.origination_time) == ("1984-05-03", "10:11:12")
    assert (told.time_reference, told.version) == (5_000_000_001, version)
    assert told.umid == (umid.hex() if version else "")
    wanted = (-23.1, 7.4, -1.2, None, -20.4) if version == 2 else (None,) * 5
    assert (
        told.loudness, told.loudness_range, told.true_peak, told.momentary_max, told.short_term_max,
    ) == wanted  # fmt: skip
    assert told.coding_history.splitlines() == ["A=ANALOGUE,M=mono,T=reel", "A=PCM,F=8000"]
    assert (taken.duration_ms, taken.breaks) == (1000, ())


@pytest.mark.parametrize("form", ["RF64", "WAVEX", "W64"])
def test_long_and_many_channelled_forms_give_the_same_samples(tmp_path: Path, form: str) -> None:
    """RF64, extensible WAV and Wave64 as soundfile writes them; a cut of each holds its very samples."""
    noise = np.random.default_rng(5).integers(-(2**23), 2**23, (RATE * 2, 2)) * 256
    soundfile.write(tmp_path / "a.wav", noise.astype(np.int32), RATE, "PCM_24", format=form)
    cut(tmp_path / "a.wav", tmp_path / "b.wav", Span(250, 1250))
    samples, _ = soundfile.read(tmp_path / "b.wav", dtype="int32")
    edge = FADE_MS * RATE // 1000
    assert np.array_equal(samples[edge:-edge], noise[12_000:60_000][edge:-edge])


def test_a_cut_beyond_four_gigabytes(tmp_path: Path) -> None:
    """An RF64 master of five gigabytes, made of holes with a click in it: found at its sample, its place told."""
    frames, click = 5 * 1024**3 // 6, 4_600_000_000 // 6
    sound = frames * 6
    head = b"RF64\xff\xff\xff\xffWAVEds64" + struct.pack("<IQQQI", 28, sound + 72, sound, frames, 0)
    head += b"fmt " + struct.pack("<IHHIIHH", 16, 1, 2, RATE, 288_000, 6, 24) + b"data\xff\xff\xff\xff"
    path = tmp_path / "long.wav"
    with path.open("wb") as file:
        file.write(head)
        file.truncate(len(head) + sound)
        file.seek(len(head) + click * 6)
        file.write(b"\x00\x00\x40\x00\x00\x20")
    start_ms = click * 1000 // RATE - 500
    cut(path, tmp_path / "a.wav", Span(start_ms, start_ms + 1000))
    samples, _ = soundfile.read(tmp_path / "a.wav")
    first = start_ms * RATE // 1000
    assert np.flatnonzero(samples[:, 0]).tolist() == [click - first]
    assert samples[click - first].tolist() == [0.5, 0.25]
    assert _words(tmp_path / "a.wav").time_reference == first
