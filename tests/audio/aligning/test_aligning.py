"""The whole way, on a minute of the demo's voices, whose captions are exact."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from archive.audio.aligning.aligning import align
from archive.audio.aligning.decoder import SAMPLES
from archive.audio.aligning.lexicon import Lexicon
from archive.audio.aligning.model import GivenLine, StoppedError
from archive.audio.cutting import cut
from archive.errors import Unacceptable
from archive.exchange.cues import Cue
from archive.exchange.faults import FaultList
from archive.exchange.webvtt import parse_webvtt
from archive.settings import shared_folder
from archive.values.timecode import Span

INTERVIEW = shared_folder("demo-collection") / "interviews" / "I-02"
LENGTH_MS = 66_000
LEXICON = Lexicon(speaker=lambda words: {})
ENDLESS = """
import sys, time
from pathlib import Path
from archive.audio.aligning.workers import workers
with workers(Path(sys.argv[1])) as both:
    print(*both.pids, flush=True)
    time.sleep(600)
"""


@pytest.fixture(scope="module")
def minute(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The first minute of an interview."""
    path = tmp_path_factory.mktemp("minute") / "minute.wav"
    cut(INTERVIEW / "audio.webm", path, Span(0, LENGTH_MS))
    return path


@pytest.fixture(scope="module")
def cues() -> Sequence[Cue]:
    """What is said in it."""
    every = parse_webvtt((INTERVIEW / "transcript.vtt").read_text("utf-8"), "transcript.vtt", FaultList())
    return [cue for cue in every if cue.end_ms < LENGTH_MS]


def test_a_text_without_words_is_refused(minute: Path) -> None:
    """Marks alone cannot be laid on a sound."""
    with pytest.raises(Unacceptable, match="There are none"):
        align(minute, [GivenLine("[inaudible]")], LEXICON)


@pytest.mark.slow
@pytest.mark.xdist_group("aligning")
def test_a_text_finds_its_times_after_a_stop(minute: Path, cues: Sequence[Cue], tmp_path: Path) -> None:
    """Stopped half way it goes on from there; every line starts within half a second of its caption.

    One line that is not said is told and marked, one sentence without a line is told, and a given time is kept.
    """
    invented = GivenLine("Nobody in the whole of the county ever painted a lighthouse green on a Sunday morning")
    left_out = len(cues) // 2
    told = [cue for at, cue in enumerate(cues) if at not in (left_out, left_out + 1)]
    lines = [GivenLine(cue.text) for cue in told]
    lines[2] = GivenLine(lines[2].text, told[2].start_ms, told[2].end_ms)
    lines.insert(4, invented)
    shares: list[float] = []

    def note(share: float, _says: str) -> None:
        shares.append(share)

    def heard_one() -> bool:
        return len(shares) > 3

    with pytest.raises(StoppedError):
        align(minute, lines, LEXICON, progress=note, stop=heard_one, folder=tmp_path)
    assert not (tmp_path / SAMPLES).exists()
    first = len([line for line in (tmp_path / "heard.jsonl").read_text().splitlines() if line])
    assert first >= 1
    found = align(minute, lines, LEXICON, progress=note, folder=tmp_path)
    assert max(shares) == 1.0
    after = [line for at, line in enumerate(found.lines) if at != 4]
    errors = [abs(line.start_ms - cue.start_ms) for line, cue in zip(after, told, strict=True)]
    assert max(errors) < 500, errors
    assert after[2].start_ms == told[2].start_ms
    assert found.lines[4].doubtful
    assert list(found.unheard) == [4]
    assert sum(line.doubtful for line in after) <= 2
    missing = Span(cues[left_out].start_ms, cues[left_out + 1].end_ms)
    assert any(span.overlaps(missing) for span in found.untold)


@pytest.mark.skipif(not hasattr(os, "pidfd_open"), reason="the end of a stranger's process is told on Linux alone")
def test_the_listeners_end_with_their_parent(tmp_path: Path) -> None:
    """Killed without a word, it leaves no process behind."""
    parent = subprocess.Popen([sys.executable, "-c", ENDLESS, str(tmp_path)], stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    ends = [os.pidfd_open(int(pid)) for pid in parent.stdout.readline().split()]
    assert ends
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    parent.stdout.close()
    for end in ends:
        ended, _, _ = select.select([end], [], [], 20)
        os.close(end)
        assert ended, "a listener lives on"
