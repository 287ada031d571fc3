"""Alignment on speech whose times are known: how near line starts come, against how much time it takes.

    pytest tests/benchmarks/test_alignment_benchmark.py -s -p no:xdist

Two sorts of speech: the demo's interviews with their own captions, and sentences of the trade spoken one by one by
espeak-ng, so that each start is known to the sample; noise is laid under them, and text and sound are made to differ.
"""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
import time
import wave
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from archive.audio.aligning.aligning import align
from archive.audio.aligning.lexicon import Lexicon
from archive.audio.aligning.model import Alignment, GivenLine
from archive.exchange.faults import FaultList
from archive.exchange.webvtt import parse_webvtt
from archive.settings import shared_folder
from archive.values.timecode import Span

DEMO = shared_folder("demo-collection")
RATE = 22_050
SNR_DB = 20
MINUTES = 10.5
SEED = 1868
speaking = pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="espeak-ng is not installed")


@dataclass(frozen=True)
class Spoken:
    """A sound with the sentences in it, and when each is said."""

    path: Path
    sentences: Sequence[str]
    spans: Sequence[Span]

    @property
    def length_ms(self) -> int:
        """Until the last sentence ends."""
        return self.spans[-1].end_ms


@dataclass(frozen=True)
class Took:
    """Seconds by the clock, which a shared machine makes long, and seconds of one processor, which it does not."""

    seconds: float
    work: float


def trade_sentences() -> list[str]:
    """Sentences about the trade, from the demo's pages on processes and hazards."""
    found: list[str] = []
    for path in sorted([*DEMO.glob("processes/*.md"), *DEMO.glob("hazards/*.md")]):
        prose = path.read_text("utf-8").split("+++")[2]
        paragraphs = [line.strip("-0123456789. ") for line in prose.splitlines() if line and not line.startswith("#")]
        sentences = (each.strip() for line in paragraphs for each in re.split(r"(?<=[.?])\s+", line))
        found += [each for each in sentences if 5 <= len(each.split()) <= 25]
    random.Random(SEED).shuffle(found)
    return found


def say(folder: Path, sentence: str, voice: str, words_a_minute: int) -> np.ndarray:
    """One sentence as samples, with no silence about it."""
    path = folder / "one.wav"
    command = ["espeak-ng", "-v", voice, "-s", str(words_a_minute), "-w", str(path), "--stdin"]
    subprocess.run(command, input=sentence, encoding="utf-8", check=True)
    with wave.open(str(path)) as file:
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2").astype(np.float64)
    loud = np.flatnonzero(np.abs(samples) > 200)
    return samples[loud[0] : loud[-1]]


def speak(folder: Path, voices: Sequence[tuple[str, int]], minutes: float) -> Spoken:
    """Sentences by these voices in turn, a pause between, in noise 20 dB below them."""
    chance = random.Random(SEED)
    pieces, said, spans, at = [np.zeros(RATE)], [], [], RATE
    for number, sentence in enumerate(trade_sentences()):
        samples = say(folder, sentence, *voices[number % len(voices)])
        spans.append(Span(at * 1000 // RATE, (at + len(samples)) * 1000 // RATE))
        pause = np.zeros(int(RATE * chance.uniform(0.15, 1.1)))
        pieces += [samples, pause]
        said.append(sentence)
        at += len(samples) + len(pause)
        if at > minutes * 60 * RATE:
            break
    clean = np.concatenate(pieces)
    spoken = clean[np.abs(clean) > 0]
    level = np.sqrt(np.mean(np.square(spoken))) * 10 ** (-SNR_DB / 20)
    noisy = clean + np.random.default_rng(SEED).normal(0, level, len(clean))
    path = folder / "spoken.wav"
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(np.clip(noisy * 0.7, -32768, 32767).astype("<i2").tobytes())
    return Spoken(path, said, spans)


def tell(name: str, found: Alignment, starts: Sequence[int | None], length_ms: int, took: Took) -> tuple[float, float]:
    """Print the figures of one sound; gives the shares of starts within 0.5 s and 1 s."""
    pairs = [(line, start) for line, start in zip(found.lines, starts, strict=True) if start is not None]
    errors = sorted(abs(line.start_ms - start) for line, start in pairs)
    half, one = (sum(error <= most for error in errors) / len(errors) for most in (500, 1000))
    sure_wrong = sum(abs(line.start_ms - start) > 1000 and not line.doubtful for line, start in pairs)
    print(
        f"\n{name}: {len(errors)} lines, {length_ms / 60_000:.1f} min; median {errors[len(errors) // 2]} ms, "
        f"p95 {errors[int(len(errors) * 0.95)]} ms; within 0.5 s {half:.1%}, within 1 s {one:.1%}; "
        f"doubtful {sum(line.doubtful for line in found.lines)}, more than 1 s off and not doubtful {sure_wrong}; "
        f"time against real time {took.seconds * 1000 / length_ms:.3f}, "
        f"of one processor {took.work * 1000 / length_ms:.3f}"
    )
    return half, one


def timed(path: Path, lines: Sequence[str], lexicon: Lexicon | None = None) -> tuple[Alignment, Took]:
    """Align lines without times, and what it took."""
    began, before = time.monotonic(), os.times()
    found = align(path, [GivenLine(line) for line in lines], lexicon)
    return found, Took(time.monotonic() - began, sum(os.times()[:4]) - sum(before[:4]))


@pytest.mark.parametrize("interview", ["I-02", "I-03", "I-06"])
def test_the_demo_voices(interview: str) -> None:
    """The demo's own interviews, whose captions are exact."""
    folder = DEMO / "interviews" / interview
    cues = parse_webvtt((folder / "transcript.vtt").read_text("utf-8"), "transcript.vtt", FaultList())
    found, took = timed(folder / "audio.webm", [cue.text for cue in cues])
    half, one = tell(interview, found, [cue.start_ms for cue in cues], cues[-1].end_ms, took)
    assert half >= 0.95
    assert one >= 0.97


@speaking
@pytest.mark.parametrize("speaker", ["espeak-ng", "rules"])
def test_trade_words_in_noise(tmp_path: Path, speaker: str) -> None:
    """Ten minutes by two voices at 20 dB; unknown words sounded by espeak-ng itself, and by our rules alone."""
    spoken = speak(tmp_path, [("en-gb", 165), ("en-us", 175)], MINUTES)
    lexicon = Lexicon() if speaker == "espeak-ng" else Lexicon(speaker=lambda words: {})
    found, took = timed(spoken.path, spoken.sentences, lexicon)
    starts = [span.start_ms for span in spoken.spans]
    half, one = tell(f"espeak, 20 dB, sounds by {speaker}", found, starts, spoken.length_ms, took)
    assert half >= 0.93
    assert one >= 0.95


@speaking
def test_missing_and_extra_passages(tmp_path: Path) -> None:
    """Words left out and changed, passages that only the text has, passages that only the sound has."""
    spoken = speak(tmp_path, [("en-gb", 165)], MINUTES)
    chance = random.Random(SEED)
    count = len(spoken.sentences)
    missing = {at + step for at in (count // 5, count // 2, 4 * count // 5) for step in range(3)}
    extra_at = {count // 3, 2 * count // 3, 9 * count // 10}
    extra = trade_sentences()[-9:]
    lines: list[str] = []
    starts: list[int | None] = []
    unheard: list[int] = []
    for at, sentence in enumerate(spoken.sentences):
        if at in extra_at:
            unheard += range(len(lines), len(lines) + 3)
            lines += [extra.pop() for _ in range(3)]
            starts += [None] * 3
        if at in missing:
            continue
        words = [word for word in sentence.split() if chance.random() > 0.05]
        lines.append(" ".join("something" if chance.random() < 0.03 else word for word in words) or sentence)
        starts.append(spoken.spans[at].start_ms)
    found, took = timed(spoken.path, lines)
    half, one = tell("damaged text", found, starts, spoken.length_ms, took)
    told = sum(at in found.unheard for at in unheard)
    wrong = [at for at in found.unheard if at not in unheard]
    doubted = sum(found.lines[at].doubtful for at in unheard)
    covered = [at for at in missing if any(span.overlaps(spoken.spans[at]) for span in found.untold)]
    print(
        f"not in the sound: {told} of {len(unheard)} told ({doubted} doubtful), {len(wrong)} told wrongly; "
        f"not in the text: {len(covered)} of {len(missing)} sentences told, in {len(found.untold)} stretches"
    )
    assert half >= 0.85
    assert one >= 0.9
    assert doubted >= len(unheard) - 1
    assert len(covered) >= len(missing) - 2
