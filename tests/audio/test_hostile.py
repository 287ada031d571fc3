"""Files that mean harm, or were harmed: refused or taken with a clear word, quickly, and nothing else is opened.

What points elsewhere is given a listener that would hear a connection, and a pipe that a reader would hang on.
"""

from __future__ import annotations

import os
import socket
import struct
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
import soundfile

from archive.audio.one_pass import take_in
from archive.audio.reading import open_sound
from archive.errors import CannotRead
from tests.audio.test_same_sound import spoken

MakeSound = Callable[..., Path]


class Listener:
    """An open port, and whether anybody came."""

    def __init__(self) -> None:
        self._socket = socket.create_server(("127.0.0.1", 0))
        self._socket.setblocking(False)
        self.address = f"127.0.0.1:{self._socket.getsockname()[1]}"

    def heard_anybody(self) -> bool:
        """Whether a connection waits."""
        try:
            self._socket.accept()[0].close()
        except BlockingIOError:
            return False
        return True

    def close(self) -> None:
        """Stop listening."""
        self._socket.close()


@pytest.fixture
def listener() -> Iterator[Listener]:
    """A port that nobody should come to; that it hears is shown first."""
    opened = Listener()
    host, _, port = opened.address.partition(":")
    with socket.create_connection((host, int(port))):
        assert opened.heard_anybody()
    yield opened
    opened.close()


POINTING = {
    "list.m3u8": "#EXTM3U\n#EXT-X-VERSION:3\n#EXTINF:10,\nhttp://{there}/a.ts\n#EXTINF:9,\n{pipe}\n#EXT-X-ENDLIST\n",
    "concat.txt": "ffconcat version 1.0\nfile 'http://{there}/a.wav'\nfile '{pipe}'\n",
    "short.txt": "file '{pipe}'\nfile 'http://{there}/a.wav'\n",
    "session.sdp": "v=0\no=- 0 0 IN IP4 127.0.0.1\nc=IN IP4 127.0.0.1\nt=0 0\nm=audio 5004 RTP/AVP 0\n",
    "dash.mpd": '<?xml version="1.0"?>\n<MPD xmlns="urn:mpeg:dash:schema:mpd:2011"><BaseURL>http://{there}/</BaseURL></MPD>',
    "list.pls": "[playlist]\nFile1=http://{there}/a.mp3\nNumberOfEntries=1\n",
    "list.asx": '<asx version="3.0"><entry><ref href="http://{there}/a.wma"/></entry></asx>',
    "list.wma": "[Reference]\nRef1=http://{there}/a.wma\n",
    "master.mp4.txt": ";FFMETADATA1\ntitle=a\n[STREAM]\nurl=http://{there}/a.wav\nfile={pipe}\n",
    "list.smil": '<smil><body><audio src="http://{there}/a.wav"/></body></smil>',
    "list.wpl": '<?wpl version="1.0"?><smil><body><seq><media src="{pipe}"/></seq></body></smil>',
    "bom.m3u8": "\N{BYTE ORDER MARK}#EXTM3U\nhttp://{there}/a.ts\n",
    "list.xspf": '<?xml version="1.0"?><playlist><trackList><location>{pipe}</location></trackList></playlist>',
}


@pytest.mark.parametrize("ending", ["", ".wav", ".mp3"])
@pytest.mark.parametrize("name", POINTING)
def test_what_points_elsewhere_is_refused_and_not_followed(
    tmp_path: Path, listener: Listener, name: str, ending: str
) -> None:
    """Playlists of every kind, under their own names and under a sound's, are refused as such; nobody is called."""
    pipe = tmp_path / "pipe.wav"
    os.mkfifo(pipe)
    path = tmp_path / f"{name}{ending}"
    path.write_text(POINTING[name].format(there=listener.address, pipe=pipe))
    with pytest.raises(CannotRead, match="playlist|it is text"):
        take_in(path, {"webm": tmp_path / "a.webm"})
    assert not listener.heard_anybody()
    assert not (tmp_path / "a.webm").exists()


def test_a_film_that_keeps_its_sound_elsewhere_is_not_followed(
    make_sound: MakeSound, tmp_path: Path, listener: Listener
) -> None:
    """An M4A whose sample table names another place for its data reads its own bytes, or nothing."""
    content = bytearray(make_sound("own.m4a", spoken(2, 1)).read_bytes())
    at = content.index(b"dref")
    # The flag that says "in this file" goes; the box's short form then has no address, which must not be guessed.
    own = content.index(b"url ", at)
    assert content[own + 4 : own + 8] == b"\0\0\0\1"
    content[own + 4 : own + 8] = bytes(4)
    (tmp_path / "elsewhere.m4a").write_bytes(content)
    taken = take_in(tmp_path / "elsewhere.m4a", {})
    assert taken is None or taken.duration_ms == pytest.approx(2000, abs=60)
    assert not listener.heard_anybody()


NAMES = [
    "-i.wav", "%03d.wav", "concat:a|b.wav", "http:--x.wav", "a\nb.wav", "file:a.wav", "?#&;$(id).wav", "é \udcff.wav",
    " .wav", "'\".wav", "pipe:0", "x" * 240 + ".wav",
]  # fmt: skip


@pytest.mark.parametrize("name", NAMES, ids=range(len(NAMES)))
def test_names_are_names_and_nothing_else(make_sound: MakeSound, tmp_path: Path, name: str, listener: Listener) -> None:
    """Names that FFmpeg, a shell or a pattern could take for something else: the file of that name is read."""
    content = make_sound("named.wav", spoken(1, 1)).read_bytes()
    path = tmp_path / name
    path.write_bytes(content)
    taken = take_in(path, {"webm": tmp_path / f"{name[:200]}.webm"})
    assert taken is not None
    assert (taken.duration_ms, taken.size) == (1000, len(content))
    assert not listener.heard_anybody()
    path.write_text("no sound")
    with pytest.raises(CannotRead, match="it is text"):
        take_in(path, {})


def test_a_playlist_inside_a_sound_file_leads_nowhere(
    make_sound: MakeSound, tmp_path: Path, listener: Listener
) -> None:
    """Lists of addresses behind a tag, in a WAV's chunks and as the very sound of a file are no more than bytes."""
    secret, marker = tmp_path / "secret.wav", b"#EXTM3U\nhttp://%b/a.ts\n" % listener.address.encode()
    secret.write_bytes(make_sound("secret.wav", spoken(9, 4)).read_bytes())
    marker += f"file '{secret}'\nfile:{secret}\n".encode()
    sound = make_sound("carrier.wav", spoken(1, 1)).read_bytes()
    tag = b"ID3\x04\0\0" + bytes(len(marker) >> shift & 0x7F for shift in (21, 14, 7, 0)) + marker
    cases = {
        "tag.mp3": tag + make_sound("carrier.mp3", spoken(1, 1)).read_bytes(),
        "only.mp3": tag + marker * 40,
        "chunk.wav": sound[:12] + b"LIST" + struct.pack("<I", len(marker)) + marker + sound[12:],
        "data.wav": sound[:44] + marker * 400,
    }
    for name, content in cases.items():
        (tmp_path / name).write_bytes(content)
        try:
            taken = take_in(tmp_path / name, {})
        except CannotRead:
            continue
        # The secret's nine seconds are in none of them.
        assert taken is not None
        assert taken.duration_ms < 2000, name
    assert not listener.heard_anybody()


@pytest.mark.parametrize(("content", "words"), [(b"", "empty"), (b"\0", "no sound"), (bytes(5000), "no sound")])
def test_no_bytes_and_zero_bytes(tmp_path: Path, content: bytes, words: str) -> None:
    """An empty file and a file of zeros are refused."""
    (tmp_path / "a.wav").write_bytes(content)
    with pytest.raises(CannotRead, match=words):
        take_in(tmp_path / "a.wav", {})


def test_a_wrong_ending_does_not_matter(make_sound: MakeSound, tmp_path: Path) -> None:
    """What is sound under another name is taken as what it is."""
    odd = tmp_path / "letter.docx"
    odd.write_bytes(make_sound("right.flac", spoken(3, 2)).read_bytes())
    taken = take_in(odd, {})
    assert taken is not None
    assert taken.facts.codec == "flac"


def test_two_hundred_channels_are_refused(make_sound: MakeSound, tmp_path: Path) -> None:
    """Two hundred channels are no interview, and no copy is begun."""
    with pytest.raises(CannotRead, match="200 channels|no sound"):
        take_in(make_sound("many.wav", np.zeros((480, 200))), {"webm": tmp_path / "a.webm"})
    assert not list(tmp_path.iterdir())


@pytest.mark.slow
def test_ten_hours_of_silence(tmp_path: Path) -> None:
    """Ten hours of digital silence, a file of holes: taken, with nothing loud in it and one pause."""
    rate, hours = 4_000, 10
    size = rate * 2 * 3600 * hours
    head = (
        b"RIFF" + struct.pack("<I", size + 36) + b"WAVEfmt " + struct.pack("<IHHIIHH", 16, 1, 1, rate, rate * 2, 2, 16)
    )
    path = tmp_path / "silence.wav"
    with path.open("wb") as file:
        file.write(head + b"data" + struct.pack("<I", size))
        file.truncate(44 + size)
    taken = take_in(path, {})
    assert taken is not None
    assert taken.duration_ms == hours * 3_600_000
    assert (taken.loudness.integrated, taken.loudness.true_peak, taken.gain_db) == (None, None, 0.0)
    assert (taken.silence_share, taken.clipping_share, taken.breaks) == (1.0, 0.0, ())
    assert [(pause.start_ms, pause.end_ms) for pause in taken.pauses] == [(0, taken.duration_ms)]
    assert not any(taken.levels[1000].peaks)


def test_what_unpacks_to_more_than_a_day_is_read_no_further(
    make_sound: MakeSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A small file may hold weeks of silence: it is taken as far as the longest length, and that is told."""
    monkeypatch.setattr("archive.audio.one_pass._LONGEST_HOURS", 60 / 3600)
    taken = take_in(make_sound("weeks.flac", np.zeros(8000 * 300), 8000), {"mp3": tmp_path / "a.mp3"})
    assert taken is not None
    assert 60_000 <= taken.duration_ms < 66_000
    assert "the rest is not read" in taken.breaks[-1].found


def test_many_channels_at_a_high_rate_fit_the_memory(make_sound: MakeSound) -> None:
    """Thirty-two channels at 192 kHz come in blocks that stay small; the sound is whole."""
    path = make_sound("wide.wav", np.zeros((192_000, 32)), 192_000)
    with open_sound(path) as sound:
        sizes = [block.samples.size for block in sound.blocks()]
    assert sum(sizes) == 192_000 * 32
    assert max(sizes) < 1 << 22


def test_a_head_that_promises_hours(tmp_path: Path, make_sound: MakeSound) -> None:
    """A WAV head that promises four gigabytes over one second of sound: the second is taken, and the break told."""
    content = bytearray(make_sound("short-promise.wav", spoken(1, 3)).read_bytes())
    at = content.index(b"data")
    content[at + 4 : at + 8] = struct.pack("<I", 4_000_000_000)
    (tmp_path / "a.wav").write_bytes(content)
    taken = take_in(tmp_path / "a.wav", {})
    assert taken is not None
    assert taken.duration_ms == 1000
    assert "cut off" in taken.breaks[0].found


def test_floats_that_are_no_numbers(tmp_path: Path) -> None:
    """Infinity and not-a-number in a float WAV count as full scale and silence, in the figures as in the copies."""
    samples = spoken(4, 5).astype(np.float32)
    samples[10_000:10_100], samples[20_000], samples[30_000] = np.nan, np.inf, 1e30
    soundfile.write(tmp_path / "a.wav", samples, 48_000, "FLOAT")
    taken = take_in(tmp_path / "a.wav", {"webm": tmp_path / "a.webm", "mp3": tmp_path / "a.mp3"})
    assert taken is not None
    assert taken.loudness.integrated is None or np.isfinite(taken.loudness.integrated)
    for form in ("webm", "mp3"):
        copy = take_in(tmp_path / f"a.{form}", {})
        assert copy is not None
        assert copy.duration_ms == pytest.approx(4000, abs=60)


def _outcome(path: Path) -> str:
    try:
        taken = take_in(path, {})
    except CannotRead as refusal:
        return "refused" if path.name in str(refusal) else f"refused without a name: {refusal}"
    return "taken" if taken is not None and 0 < taken.duration_ms < 700_000 else f"odd: {taken}"


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".aiff", ".mp3", ".ogg", ".opus", ".webm", ".m4a"])
def test_damaged_heads_are_taken_or_refused(make_sound: MakeSound, tmp_path: Path, suffix: str) -> None:
    """Bytes struck at random out of the first kilobyte: each file is taken or refused, quickly, never anything else."""
    whole = make_sound(f"head{suffix}", spoken(2, 6)).read_bytes()
    random = np.random.default_rng(8)
    began, path = time.monotonic(), tmp_path / f"a{suffix}"
    outcomes = set()
    for _ in range(12):
        content = bytearray(whole)
        for place in random.integers(0, min(1024, len(content)), 12):
            content[place] = random.integers(0, 256)
        path.write_bytes(content)
        outcomes.add(_outcome(path))
    assert outcomes <= {"taken", "refused"}
    assert time.monotonic() - began < 60
