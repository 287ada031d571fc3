"""What a file is told to be: the refusals first, then lengths to the millisecond."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pytest

from archive.audio.kinds import container_of
from archive.audio.probe import SoundFacts, probe
from archive.audio.reading import open_sound
from archive.errors import CannotRead

PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)
SVG = b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>'
HOSTILE = {
    "nothing.webm": (b"", "it is empty"),
    "one-byte.mp3": (b"\xff", "no sound file that is known"),
    "list.mp3": (b"#EXTM3U\n#EXTINF:10,\n/etc/passwd\n", "playlist"),
    "list-with-mark.wav": (b"\xef\xbb\xbf#EXTM3U\nhttp://nowhere.invalid/a.ts\n", "playlist"),
    "joined.wav": (b"ffconcat version 1.0\nfile '/etc/passwd'\n", "playlist"),
    "joined-short.wav": (b"file '/etc/passwd'\n", "playlist"),
    "list.flac": (b"[playlist]\nFile1=/etc/passwd\n", "playlist"),
    "dash.webm": (b'<MPD xmlns="urn:mpeg:dash:schema:mpd:2011"/>', "playlist"),
    "letter.ogg": (b"Dear Miss Farrant, the recording is in the post.\n", "it is text"),
    "drawing.wav": (PNG, "picture"),
    "drawing.mp3": (SVG, "picture"),
    "photo.flac": (b"\xff\xd8\xff\xe0" + bytes(60), "picture"),
    "small-picture.wav": (b"RIFF\x24\x00\x00\x00WEBPVP8 " + bytes(40), "picture"),
    "film.wav": (b"RIFF\x24\x00\x00\x00AVI LIST" + bytes(40), "beginning|no sound"),
    "packed.wav": (b"PK\x03\x04" + bytes(60), "no sound file that is known"),
    "head-alone.wav": (b"RIFF\x24\x00\x00\x00WAVE", "beginning|no sound"),
    "head-alone.flac": (b"fLaC", "beginning|no sound"),
    "head-alone.ogg": (b"OggS" + bytes(40), "beginning|no sound"),
    "head-alone.webm": (b"\x1aE\xdf\xa3" + bytes(40), "beginning|no sound"),
    "head-alone.m4a": (b"\x00\x00\x00\x18ftypM4A " + bytes(40), "beginning|no sound"),
    "tag-alone.mp3": (b"ID3\x04\x00\x00\x00\x00\x00\x0a" + bytes(10), "beginning|no sound"),
    "tag-too-long.mp3": (b"ID3\x04\x00\x00\x7f\x7f\x7f\x7f", "beginning|no sound"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_is_not_sound_is_refused_by_name(tmp_path: Path, name: str) -> None:
    """Each file that is not sound is refused with its name, what it is and what may be given."""
    content, words = HOSTILE[name]
    (tmp_path / name).write_bytes(content)
    with pytest.raises(CannotRead, match=words) as refusal:
        probe(tmp_path / name)
    assert name in str(refusal.value)
    assert "Give a WAV" in str(refusal.value)


def test_a_playlist_behind_a_sound_name_opens_nothing(tmp_path: Path, make_sound: Callable[..., Path]) -> None:
    """A list that points to a real sound file is refused, even though FFmpeg alone would follow it."""
    real = make_sound("pointed-to.wav", np.zeros(4800))
    listing = tmp_path / "pointing.wav"
    listing.write_text(f"ffconcat version 1.0\nfile '{real}'\n")
    with av.open(str(listing), options={"safe": "0"}) as followed:
        assert followed.streams.audio, "FFmpeg no longer follows such lists: this test holds nothing"
    with pytest.raises(CannotRead, match="playlist"):
        probe(listing)


@pytest.mark.parametrize("channels", [33, 200])
def test_too_many_channels_are_refused(make_sound: Callable[..., Path], channels: int) -> None:
    """A file of 200 channels is no interview."""
    path = make_sound(f"{channels}.wav", np.zeros((480, channels)))
    with pytest.raises(CannotRead, match=f"{channels} channels|no sound"):
        probe(path)


@pytest.mark.parametrize("rate", [1_000, 1_000_000])
def test_a_rate_beyond_sense_is_refused(make_sound: Callable[..., Path], rate: int) -> None:
    """A rate that no recorder has is refused with the rates that can be taken."""
    path = make_sound(f"rate-{rate}.wav", np.zeros(4800), rate)
    with pytest.raises(CannotRead, match=f"{rate} samples a second"):
        probe(path)


def test_a_jump_in_time_is_not_filled_without_end(make_sound: Callable[..., Path], tmp_path: Path) -> None:
    """A file whose times jump by hours is refused, since the gap would be filled with silence."""
    whole, jumping = make_sound("jump.webm", np.zeros(48_000)), tmp_path / "jumping.webm"
    with av.open(str(whole)) as source, av.open(str(jumping), "w") as target:
        stream = target.add_stream_from_template(source.streams.audio[0])
        for number, packet in enumerate(source.demux(audio=0)):
            if packet.pts is not None:
                late = 7_200_000 if number > 20 else 0
                packet.pts, packet.dts, packet.stream = packet.pts + late, packet.pts + late, stream
                target.mux(packet)
    with pytest.raises(CannotRead, match="times jump"), open_sound(jumping) as sound:
        list(sound.blocks())


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".aiff", ".mp3", ".ogg", ".opus", ".webm", ".m4a"])
@pytest.mark.parametrize("ms", [1500, 12_345])
def test_length_to_the_millisecond(
    make_sound: Callable[..., Path], wave: Callable[..., object], suffix: str, ms: int
) -> None:
    """The length is that of the samples that went in, whatever the container and its padding."""
    path = make_sound(f"long-{ms}{suffix}", wave(ms / 1000, level=0.5))
    padding = 1000 * 1024 / 48_000 if suffix == ".m4a" else 0
    assert probe(path).duration_ms == pytest.approx(ms, abs=1 + padding)


def test_all_facts(make_sound: Callable[..., Path], hiss: Callable[..., object]) -> None:
    """Codec, rate and channels are told as FFmpeg names them."""
    assert probe(make_sound("facts.flac", hiss(2, 44_100, channels=2), 44_100)) == SoundFacts(2000, "flac", 44_100, 2)
    assert probe(make_sound("facts.opus", hiss(2))) == SoundFacts(2000, "opus", 48_000, 1)


def test_a_file_that_breaks_off_is_as_long_as_what_is_there(
    make_sound: Callable[..., Path], wave: Callable[..., object], tmp_path: Path
) -> None:
    """Half a file has about half the length (Ogg pages are long), although its head still promises the whole."""
    for suffix in (".wav", ".flac", ".mp3", ".ogg", ".webm"):
        whole = make_sound(f"whole{suffix}", wave(10, level=0.4)).read_bytes()
        half = tmp_path / f"half{suffix}"
        half.write_bytes(whole[: len(whole) // 2])
        assert 1500 < probe(half).duration_ms < 7000, suffix


def test_the_name_does_not_matter(make_sound: Callable[..., Path], tmp_path: Path) -> None:
    """A FLAC file that is called .mp3 is read as what it is."""
    flac = make_sound("named.flac", np.zeros(48_000))
    wrong = tmp_path / "named.mp3"
    wrong.write_bytes(flac.read_bytes())
    assert container_of(wrong) == "flac"
    assert probe(wrong).codec == "flac"


def test_percent_signs_in_a_name_are_no_pattern(tmp_path: Path, make_sound: Callable[..., Path]) -> None:
    """FFmpeg reads %d as a pattern of names in places; here a name is a name."""
    odd = tmp_path / "take %d?#.wav"
    odd.write_bytes(make_sound("plain.wav", np.zeros(48_000)).read_bytes())
    assert probe(odd).duration_ms == 1000
