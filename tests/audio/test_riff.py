"""What the chunks of WAV files say: broken ones first, then files that soundfile and FFmpeg wrote."""

from __future__ import annotations

import struct
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.facts import facts_of
from archive.audio.reading import open_sound
from archive.audio.riff import parse_bext, read_riff

# libsndfile's command to set the broadcast words, and its struct for them.
_SET_BROADCAST = 0x10F1
_STRUCT = struct.Struct("<256s32s32s10s8s2xIIh64s5h180sI256s")


def _with_broadcast(path: Path) -> Path:
    words = _STRUCT.pack(
        b"Nella Farrant, first session", b"Works archive", b"TY-REF-7", b"1984-05-03", b"10:11:12",
        5, 1, 2, bytes(range(64)), -2310, 740, -120, -1810, -2040, b"", 20, b"A=PCM,F=48000,W=24\r\n",
    )  # fmt: skip
    with soundfile.SoundFile(path, "w", 48_000, 1, "PCM_24", format="WAV") as file:
        buffer = soundfile._ffi.from_buffer(bytearray(words))
        done = soundfile._snd.sf_command(file._file, _SET_BROADCAST, buffer, len(words))
        assert done == 1, "libsndfile did not take the broadcast words"
        file.write(np.zeros(4800))
    return path


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"RIFF",
        b"RIFF\x24\x00\x00\x00WEBP",
        b"fLaC" + bytes(100),
    ],
)
def test_other_files_have_no_chunks(tmp_path: Path, content: bytes) -> None:
    """What is no WAV file has nothing to say here."""
    (tmp_path / "a.wav").write_bytes(content)
    assert read_riff(tmp_path / "a.wav") is None


@given(st.binary(max_size=400), st.sampled_from([b"RIFF", b"RF64", b"BW64"]))
def test_any_bytes_after_the_head_do_no_harm(
    tmp_path_factory: pytest.TempPathFactory, rest: bytes, form: bytes
) -> None:
    """Whatever follows the head, the reader comes to an end and never tells more sound than the file has bytes."""
    path = tmp_path_factory.getbasetemp() / "any.wav"
    path.write_bytes(form + b"\xff\xff\xff\xffWAVE" + rest)
    riff = read_riff(path)
    assert riff is not None
    assert 0 <= riff.there <= len(rest)


def test_chunks_that_lead_in_circles_end(tmp_path: Path) -> None:
    """A file of nothing but empty chunks is given up after a thousand of them."""
    (tmp_path / "a.wav").write_bytes(b"RIFF\xff\xff\xff\xffWAVE" + b"junk\x00\x00\x00\x00" * 100_000)
    riff = read_riff(tmp_path / "a.wav")
    assert riff is not None
    assert (riff.channels, riff.there, riff.broadcast) == (0, 0, None)


@given(st.binary(max_size=900))
def test_broadcast_words_of_any_bytes(content: bytes) -> None:
    """A chunk of any bytes gives fields or nothing, and no control letter gets through."""
    words = parse_bext(content)
    assert (words is None) == (len(content) < 602)
    if words is not None:
        assert all(letter.isprintable() or letter == "\n" for letter in words.description + words.coding_history)


def test_broadcast_words_as_soundfile_writes_them(tmp_path: Path) -> None:
    """Every field comes back as it was given to another program."""
    riff = read_riff(_with_broadcast(tmp_path / "a.wav"))
    assert riff is not None
    words = riff.broadcast
    assert words is not None
    assert words.description == "Nella Farrant, first session"
    assert (words.originator, words.originator_reference) == ("Works archive", "TY-REF-7")
    assert (words.origination_date, words.origination_time) == ("1984-05-03", "10:11:12")
    assert words.time_reference == 5 + (1 << 32)
    assert words.umid == bytes(range(64)).hex()
    assert (words.loudness, words.loudness_range, words.true_peak) == (-23.1, 7.4, -1.2)
    assert (words.momentary_max, words.short_term_max) == (-18.1, -20.4)
    assert "A=PCM,F=48000,W=24" in words.coding_history


@pytest.mark.parametrize(
    ("form", "subtype", "bits"), [("WAV", "PCM_16", 16), ("RF64", "PCM_24", 24), ("WAVEX", "PCM_32", 32)]
)
def test_format_and_lengths(tmp_path: Path, form: str, subtype: str, bits: int) -> None:
    """Channels, rate, depth and bytes of sound, of RIFF and of RF64 with its long sizes."""
    path = tmp_path / "a.wav"
    soundfile.write(path, np.zeros((4801, 2)), 44_100, subtype, format=form)
    riff = read_riff(path)
    assert riff is not None
    assert (riff.channels, riff.rate, riff.bits) == (2, 44_100, bits)
    assert riff.promised == riff.there == 4801 * 2 * bits // 8
    assert riff.form == ("RF64" if form == "RF64" else "RIFF")


def test_long_sizes_are_believed_over_short_ones(tmp_path: Path) -> None:
    """An RF64 file of five gigabytes, made of holes: its length comes from the ds64 chunk."""
    sound = 5 * 1024**3
    head = b"RF64\xff\xff\xff\xffWAVEds64" + struct.pack("<IQQQI", 28, sound + 72, sound, sound // 6, 0)
    head += b"fmt " + struct.pack("<IHHIIHH", 16, 1, 2, 48_000, 288_000, 6, 24) + b"data\xff\xff\xff\xff"
    path = tmp_path / "long.wav"
    with path.open("wb") as file:
        file.write(head)
        file.truncate(len(head) + sound)
    riff = read_riff(path)
    assert riff is not None
    assert riff.promised == riff.there == sound
    with open_sound(path) as opened:
        assert opened.stream.duration == sound // 6


def test_a_cut_off_file_has_less_than_it_promises(make_sound: Callable[..., Path], tmp_path: Path) -> None:
    """Half a file promises the whole."""
    whole = make_sound("whole-riff.wav", np.zeros(48_000)).read_bytes()
    (tmp_path / "half.wav").write_bytes(whole[: len(whole) // 2])
    riff = read_riff(tmp_path / "half.wav")
    assert riff is not None
    assert riff.promised == 96_000
    assert riff.there == pytest.approx(48_000, abs=100)


@pytest.mark.parametrize(
    ("name", "subtype", "wanted"),
    [
        ("a.wav", "PCM_16", ("wav", "pcm_s16le", 16)),
        ("b.wav", "PCM_24", ("wav", "pcm_s24le", 24)),
        ("c.wav", "FLOAT", ("wav", "pcm_f32le", 32)),
        ("d.wav", "PCM_U8", ("wav", "pcm_u8", 8)),
        ("e.flac", "PCM_24", ("flac", "flac", 24)),
        ("f.flac", "PCM_16", ("flac", "flac", 16)),
        ("g.mp3", None, ("mp3", "mp3", None)),
        ("h.webm", None, ("matroska", "opus", None)),
        ("i.m4a", None, ("mp4", "aac", None)),
    ],
)
def test_facts(
    make_sound: Callable[..., Path], name: str, subtype: str | None, wanted: tuple[str, str, int | None]
) -> None:
    """Container, codec and depth; a lossy codec has no depth, and none of these has pictures."""
    with open_sound(make_sound(f"fact-{name}", np.zeros(48_000), 48_000, subtype)) as sound:
        facts = facts_of(sound)
    assert (facts.container, facts.codec, facts.bits) == wanted
    assert (facts.rate, facts.channels, facts.pictures, facts.broadcast) == (48_000, 1, False, None)
