"""How long a clip takes to cut from a long master, beside loading the master whole; how soon a long sound begins.

    pytest tests/benchmarks/test_clip_benchmark.py -s --override-ini addopts=--import-mode=importlib
    LEMEL_BENCHMARK_MINUTES=90 pytest ...                   (the master's length; 120 if not said)
    LEMEL_BENCHMARK_MASTERS=FOLDER pytest ...               (where the masters are kept from one run to the next)

A 48 kHz, 24-bit stereo master of speech-like sound is made as WAV, FLAC and MP3. Loading whole is what pydub does when
it is given a file, in a process of its own; FLAC and MP3 it first has FFmpeg turn into a WAV, which is done here by the
same command. It needs 7 GB of memory for two hours.
"""

from __future__ import annotations

import http.client
import os
import random
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import imageio_ffmpeg
import pytest
import soundfile
from waitress.server import create_server

from archive.app import create_app
from archive.audio.cutting import cut, loudness_of
from archive.audio.reading import open_sound
from archive.interviews.model import Clip, Interview, Recording, Rendition
from archive.rights.model import Agreement, Permission
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.model import KeptFile
from archive.store.session import Store
from archive.values.timecode import Span
from tests.benchmarks.test_ingest_benchmark import MINUTES, RATE, speech_like

WANTED = Span(5_000_000, 5_030_000)
ENCODED = {
    ".flac": "-c:a flac -compression_level 2",
    ".mp3": "-c:a libmp3lame -compression_level 7 -b:a 128k",
    ".webm": "-c:a libopus -application voip -b:a 48k -ac 2 -f webm",
}
PYDUB = """
import sys, warnings
warnings.simplefilter("ignore")
from pydub import AudioSegment
stretch = AudioSegment.from_wav(sys.argv[1])[int(sys.argv[2]):int(sys.argv[3])]
stretch.fade_in(10).fade_out(10).export(sys.argv[4], "wav")
"""

pytestmark = pytest.mark.skipif(MINUTES < 85, reason="The clip lies 84 minutes in: give a longer master.")


@pytest.fixture(scope="module")
def masters(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The same sound in each form, by suffix."""
    kept = os.environ.get("LEMEL_BENCHMARK_MASTERS")
    folder = Path(kept) if kept else tmp_path_factory.mktemp("masters")
    wav = folder / "master.wav"
    found = {path.suffix: path for path in folder.glob("master.*")}
    if set(found) == {".wav", *ENCODED}:
        return found
    minute = [speech_like(60, seed) for seed in range(4)]
    with soundfile.SoundFile(wav, "w", RATE, 2, "PCM_24") as file:
        for number in range(MINUTES):
            file.write(minute[number % 4])
    for suffix, how in ENCODED.items():
        ffmpeg("-i", str(wav), *how.split(), str(folder / f"master{suffix}"))
    return {".wav": wav, **{suffix: folder / f"master{suffix}" for suffix in ENCODED}}


def ffmpeg(*command: str) -> None:
    """FFmpeg, as pydub calls it."""
    subprocess.run([imageio_ffmpeg.get_ffmpeg_exe(), "-v", "error", "-y", *command], check=True)


def seconds(deed: Callable[[], object], times: int = 1) -> tuple[float, float]:
    """The median time that a deed takes, by the clock and of the processor, with what it starts."""
    taken = []
    for _ in range(times):
        began, before = time.perf_counter(), _processor()
        deed()
        taken.append((time.perf_counter() - began, _processor() - before))
    return statistics.median(clock for clock, _ in taken), statistics.median(work for _, work in taken)


def _processor() -> float:
    return sum(os.times()[:4])


def loaded_whole(master: Path, folder: Path) -> None:
    """The clip by loading the whole master."""
    wav = master
    if master.suffix != ".wav":
        wav = folder / "whole.wav"
        ffmpeg("-i", str(master), "-acodec", "pcm_s24le" if master.suffix == ".flac" else "pcm_s16le", str(wav))
    bounds = (str(WANTED.start_ms), str(WANTED.end_ms))
    subprocess.run([sys.executable, "-c", PYDUB, str(wav), *bounds, str(folder / "theirs.wav")], check=True)


@pytest.fixture(scope="module")
def address(masters: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, int]]:
    """A home with the long recording, served as it is for visitors."""
    store = make_home(Settings(tmp_path_factory.mktemp("home") / "home", testing=True))
    _fill(store, masters)
    server: Any = create_server(create_app(store), host="127.0.0.1", port=0, threads=8, ident=None)
    thread = threading.Thread(target=server.run)
    thread.start()
    yield "127.0.0.1", int(server.effective_port)
    server.close()
    thread.join(timeout=30)
    store.close()


def _fill(store: Store, masters: dict[str, Path]) -> None:
    master, copy = (store.files.keep(masters[suffix]) for suffix in (".wav", ".webm"))
    with store.changing("benchmark") as session:
        for (sha256, size), kind in ((master, "audio/wav"), (copy, "audio/webm")):
            session.add(KeptFile(sha256=sha256, size=size, media_type=kind))
        session.flush()
        recording = Recording(
            ref="long.a",
            position=0,
            master_name="master.wav",
            master_sha256=master[0],
            duration_ms=MINUTES * 60_000,
            codec="pcm_s24le",
            sample_rate=RATE,
            channels=2,
            renditions=[Rendition(kind="access", form="webm", sha256=copy[0])],
            clips=[Clip(ref="C-1", title="A clip", start_ms=WANTED.start_ms, end_ms=WANTED.end_ms)],
        )
        permitted = Agreement(permissions=[Permission(purpose="kiosk", allowed=True)])
        session.add(
            Interview(ref="long", title="Two hours", language="en-GB", recordings=[recording], agreement=permitted)
        )


def first_byte(address: tuple[str, int], path: str, start: int = 0) -> tuple[float, int]:
    """How long until the first byte from a place has come, on a connection of its own; and how long the file is."""
    connection = http.client.HTTPConnection(*address, timeout=120)
    began = time.perf_counter()
    connection.request("GET", path, headers={"Range": f"bytes={start}-"})
    answer = connection.getresponse()
    assert len(answer.read(1)) == 1
    taken = time.perf_counter() - began
    assert answer.status == 206
    size = int((answer.headers["Content-Range"] or "").rsplit("/", 1)[1])
    connection.close()
    return taken, size


def test_a_seek_into_two_hours_begins_at_once(address: tuple[str, int]) -> None:
    """From any place in the access copy the first byte is there within 150 ms."""
    path = "/media/recordings/long.a.webm"
    _, size = first_byte(address, path)
    places = random.Random(5).sample(range(size - 1), 60)
    taken = sorted(1000 * first_byte(address, path, place)[0] for place in places)
    print(
        f"\nfirst byte from {len(taken)} places in {MINUTES} min ({size / 1e6:.0f} MB): median {taken[30]:.0f} ms, "
        f"p95 {taken[56]:.0f} ms, longest {taken[-1]:.0f} ms; load {os.getloadavg()[0]:.1f}"
    )
    assert taken[56] < 150


def test_a_clip_begins_soon_the_first_time_and_at_once_the_second(address: tuple[str, int]) -> None:
    """The first who asks waits until it is measured and cut; everybody after that for the first byte of a file."""
    for form in ("webm", "mp3"):
        first, _ = first_byte(address, f"/media/clips/C-1.{form}")
        again = statistics.median(first_byte(address, f"/media/clips/C-1.{form}")[0] for _ in range(30))
        print(f"\n30 s clip as {form}: the first time {1000 * first:.0f} ms, then {1000 * again:.0f} ms")
        assert again < 0.15


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".mp3"])
def test_a_clip_beside_loading_the_master(masters: dict[str, Path], tmp_path: Path, suffix: str) -> None:
    """Thirty seconds at 5,000 s; the alternative is to load everything and to keep thirty seconds of it."""
    master = masters[suffix]
    ours = {
        form: seconds(lambda form=form: cut(master, tmp_path / f"ours.{form}", WANTED), 5)  # type: ignore[misc]
        for form in ("wav", "webm", "mp3", "m4a")
    }
    levelled = seconds(lambda: loudness_of(master, WANTED), 5)
    theirs = seconds(lambda: loaded_whole(master, tmp_path))
    told = ", ".join(f"as {form} {1000 * clock:.0f} ({1000 * work:.0f})" for form, (clock, work) in ours.items())
    print(
        f"\n30 s of {MINUTES} min {suffix}, in ms (of the processor): {told}, its loudness {1000 * levelled[0]:.0f} "
        f"({1000 * levelled[1]:.0f}); loaded whole {theirs[0]:.1f} s ({theirs[1]:.1f}), which is "
        f"{theirs[0] / ours['wav'][0]:.0f} ({theirs[1] / ours['wav'][1]:.0f}) times the WAV; "
        f"load {os.getloadavg()[0]:.1f}"
    )
    with open_sound(tmp_path / "ours.wav") as sound:
        assert sum(len(block.samples) for block in sound.blocks()) == 30 * RATE
    assert theirs[1] > 10 * ours["wav"][1]
