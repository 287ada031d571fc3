"""How long one pass over a long master takes, against FFmpeg decoding and encoding the same file in the same run.

    pytest tests/benchmarks/test_ingest_benchmark.py -s --override-ini addopts=--import-mode=importlib
    LEMEL_BENCHMARK_MINUTES=10 LEMEL_BENCHMARK_RUNS=5 pytest ...
                                        (the master's length, 120 if not said; how often each runs, once if not said)

A 48 kHz, 24-bit stereo master of speech-like sound is written to disk first, as WAV and as FLAC. The pass and FFmpeg
run in turns, each in a process of its own, so that its peak memory is its own, and the medians are compared. On a
machine with other work the seconds of the processor say more than the clock: FFmpeg's threads change often and are
served first there. The aims: 1.5 times FFmpeg's time, 300 MB.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import imageio_ffmpeg
import numpy as np
import pytest
import soundfile

from archive.audio.cutting import cut
from archive.audio.reading import open_sound
from archive.values.timecode import Span
from tests.small_collection import write_small_collection

RATE = 48_000
MINUTES = int(os.environ.get("LEMEL_BENCHMARK_MINUTES", "120"))
RUNS = int(os.environ.get("LEMEL_BENCHMARK_RUNS", "1"))
# The very options that the copies are made with, stereo as the master is.
FFMPEG_FORMS = {
    "webm": "-c:a libopus -application voip -b:a 48k -ac 2 -f webm",
    "mp3": "-c:a libmp3lame -compression_level 7 -ar 24000 -b:a 64k -ac 2 -f mp3",
}
ONE_PASS = """
import json, re, sys, time
from pathlib import Path
from archive.audio.one_pass import take_in
began = time.perf_counter()
found = take_in(Path(sys.argv[1]), {form: Path(sys.argv[2]) / f"copy.{form}" for form in sys.argv[3:]})
print(json.dumps({"seconds": time.perf_counter() - began, "cpu": time.process_time(),
    "loudness": found.loudness.integrated,
    # Not ru_maxrss, which begins with what the parent had.
    "peak_mb": int(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1]) / 1024,
    "duration_ms": found.duration_ms, "pauses": len(found.pauses), "breaks": len(found.breaks)}))
"""
# The whole command, and the most memory that it or any process of its own ever had.
INGEST = """
import json, re, resource, sys, time
from pathlib import Path
from archive.cli import main
began = time.perf_counter()
try:
    main(["--home", sys.argv[1], "ingest", sys.argv[2], "--interview", "I-1", "--json"])
except SystemExit as end:
    assert not end.code, end.code
own = int(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1])
passing = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
print(json.dumps({"seconds": time.perf_counter() - began, "peak_mb": max(own, passing) / 1024}), file=sys.stderr)
"""


def speech_like(seconds: float, seed: int) -> np.ndarray:
    """Syllables of a falling voice with its overtones, pauses between sentences, and the hiss of a room."""
    at = np.arange(round(seconds * RATE)) / RATE
    random = np.random.default_rng(seed)
    pitch = 2 * np.pi * np.cumsum(120 + 30 * np.sin(2 * np.pi * 0.4 * at)) / RATE
    voice = sum(np.sin(pitch * part + random.uniform(0, 6)) / part for part in range(1, 20))
    syllables = np.clip(np.sin(2 * np.pi * 4.1 * at), 0, 1) * ((at % 6.5) < 5.6)
    both = np.stack([voice, 0.6 * voice], axis=1) * syllables[:, None] * 0.12
    return both + random.normal(0, 0.0006, both.shape)


@pytest.fixture(scope="module", params=["wav", "flac"])
def master(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The master, written a minute at a time."""
    path = tmp_path_factory.mktemp("benchmark") / f"master.{request.param}"
    minute = [speech_like(60, seed) for seed in range(4)]
    with soundfile.SoundFile(path, "w", RATE, 2, "PCM_24") as file:
        for number in range(MINUTES):
            file.write(minute[number % 4])
    yield path
    path.unlink()


def one_pass(master: Path, folder: Path, *forms: str) -> dict[str, float]:
    """Time and memory of the pass, in a process of its own."""
    command = [sys.executable, "-c", ONE_PASS, str(master), str(folder), *forms]
    answer = subprocess.run(command, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(answer.stdout)
    return found


def ffmpeg(master: Path, folder: Path, *forms: str) -> tuple[float, float]:
    """Seconds that FFmpeg takes for the same copies, by the clock and of the processor."""
    outputs = [part for form in forms for part in (*FFMPEG_FORMS[form].split(), str(folder / f"theirs.{form}"))]
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-v", "error", "-y", "-i", str(master), *outputs]
    began, before = time.perf_counter(), os.times()
    subprocess.run(command, check=True)
    after = os.times()
    cpu = after.children_user + after.children_system - before.children_user - before.children_system
    return time.perf_counter() - began, cpu


@pytest.mark.parametrize("forms", [("webm", "mp3"), ("webm",), ("mp3",)], ids="+".join)
def test_one_pass_against_ffmpeg(master: Path, tmp_path: Path, forms: tuple[str, ...]) -> None:
    """Everything measured and the copies made, against FFmpeg that only makes the copies; memory stays bounded."""
    turns = [(ffmpeg(master, tmp_path, *forms), one_pass(master, tmp_path, *forms)) for _ in range(RUNS)]
    theirs, their_cpu = (median(turn[0][which] for turn in turns) for which in (0, 1))
    ours, our_cpu = (median(turn[1][which] for turn in turns) for which in ("seconds", "cpu"))
    peak = max(turn[1]["peak_mb"] for turn in turns)
    print(
        f"\n{MINUTES} min of {master.suffix} to {'+'.join(forms)}, {RUNS} runs: one pass {ours:.1f} s, "
        f"FFmpeg {theirs:.1f} s, ratio {ours / theirs:.2f}; of the processor {our_cpu:.1f} s and {their_cpu:.1f} s, "
        f"ratio {our_cpu / their_cpu:.2f}; peak {peak:.0f} MB; load {os.getloadavg()[0]:.1f}"
    )
    assert peak < 300
    assert all(turn[1]["duration_ms"] == MINUTES * 60_000 and not turn[1]["breaks"] for turn in turns)


def test_the_whole_ingest(master: Path, tmp_path: Path) -> None:
    """The command itself: into the home, read through, its copies kept, and the record written."""
    lemel = [sys.executable, "-m", "archive", "--home", str(tmp_path / "home")]
    subprocess.run([*lemel, "init"], check=True, capture_output=True)
    small = write_small_collection(tmp_path / "small")
    subprocess.run([*lemel, "load", str(small)], check=True, capture_output=True)
    command = [sys.executable, "-c", INGEST, str(tmp_path / "home"), str(master)]
    answer = subprocess.run(command, capture_output=True, text=True, check=True)
    found = json.loads(answer.stderr.splitlines()[-1])
    print(
        f"\n{MINUTES} min of {master.suffix} by lemel ingest: {found['seconds']:.1f} s, peak {found['peak_mb']:.0f} MB"
    )
    assert found["peak_mb"] < 300
    shutil.rmtree(tmp_path / "home")


def test_a_clip_from_the_end_is_quick(master: Path, tmp_path: Path) -> None:
    """Thirty seconds cut shortly before the end of the master, as WAV and as Opus."""
    last = Span((MINUTES * 60 - 60) * 1000, (MINUTES * 60 - 30) * 1000)
    for suffix in (".wav", ".webm"):
        began = time.perf_counter()
        cut(master, tmp_path / f"clip{suffix}", last)
        print(f"\nclip of 30 s as {suffix}: {(time.perf_counter() - began) * 1000:.0f} ms")
        with open_sound(tmp_path / f"clip{suffix}") as sound:
            assert sum(len(block.samples) for block in sound.blocks()) == pytest.approx(30 * RATE, abs=RATE / 50)
