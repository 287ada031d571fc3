"""Voices told apart: on clouds whose voices are known, and on the demo's interviews, where captions say who speaks."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from archive.audio.aligning.model import StoppedError
from archive.audio.cepstra import COUNT, RATE, cepstra
from archive.audio.clouds import Clouds, joined, joining_costs
from archive.audio.cutting import cut
from archive.audio.turns import UNSURE_BELOW, Turns, tell_apart, turns_of
from archive.exchange.faults import FaultList
from archive.exchange.webvtt import parse_webvtt
from archive.settings import shared_folder
from archive.values.timecode import Span
from tests.audio.conftest import MakeSound, tone

INTERVIEW = shared_folder("demo-collection") / "interviews" / "I-04"
LENGTH_MS = 75_000


def drawn(voices: list[int], seed: int = 5, steps: int = 300) -> tuple[Turns, list[int]]:
    """The turns of lines of three seconds, each drawn from the cloud of its voice."""
    noise = np.random.default_rng(seed)
    middles, mixes = noise.normal(0, 0.8, (4, COUNT)), noise.normal(0, 0.4, (4, COUNT, COUNT)) + np.eye(COUNT)
    rows = np.concatenate([middles[voice] + noise.normal(0, 1, (steps, COUNT)) @ mixes[voice] for voice in voices])
    spans = [Span(at * steps * 10, (at + 1) * steps * 10) for at in range(len(voices))]
    turns = turns_of(rows, noise.normal(-20, 3, len(rows)), spans)
    return turns, [told.voice for told in turns.ways[turns.count]]


def test_no_lines_and_no_sound(make_sound: MakeSound) -> None:
    """Nothing to tell apart is one voice, and lines in silence are of nobody in particular."""
    assert turns_of(np.empty((0, COUNT)), np.empty(0), []).count == 1
    silent = make_sound("no-voice.flac", tone(3, 8_000, level=0.0), 8_000)
    assert tell_apart(silent, [Span(0, 1_000), Span(1_000, 2_000), Span(2_990, 9_000)]).count == 1


def test_it_stops_when_asked(make_sound: MakeSound) -> None:
    """And leaves nothing behind."""
    with pytest.raises(StoppedError):
        tell_apart(make_sound("stopped.flac", tone(2, 8_000), 8_000), [Span(0, 1_000)], stop=lambda: True)


@pytest.mark.parametrize(
    "voices", [[0] * 8, [0, 1, 0, 1, 0, 0], [0, 0, 1, 2, 1, 0, 2, 2], [0, 1, 2, 3, 3, 2, 1, 0, 0, 1, 2, 3]]
)
def test_as_many_voices_as_there_are(voices: list[int]) -> None:
    """From one to four, in order of first speaking."""
    turns, found = drawn(voices)
    assert found == voices
    assert turns.count == max(voices) + 1


def test_another_number_may_be_asked_for() -> None:
    """Each number of voices up to four that the lines can be parted into is there, with every line."""
    turns, _found = drawn([0, 1, 0, 1, 0, 0])
    assert set(turns.ways) >= {1, 2}
    assert all(len(told) == 6 for told in turns.ways.values())
    assert all({each.voice for each in told} == set(range(number)) for number, told in turns.ways.items())


def test_a_line_too_short_to_tell_goes_on_as_before() -> None:
    """Whoever speaks goes on speaking, and that is told as unsure."""
    noise = np.random.default_rng(3)
    rows = np.concatenate([noise.normal(middle, 1, (300, COUNT)) for middle in (0, 2, 0, 2)])
    spans = [Span(0, 3_000), Span(3_000, 6_000), Span(6_000, 6_200), Span(6_200, 9_000), Span(9_000, 12_000)]
    turns = turns_of(rows, np.zeros(len(rows)) + noise.normal(0, 1, len(rows)), spans)
    assert [told.voice for told in turns.ways[2]] == [0, 1, 1, 0, 1]
    assert [told.sure < UNSURE_BELOW for told in turns.ways[2]] == [False, False, True, False, False]


def test_joining_costs_what_the_criterion_says() -> None:
    """Two clouds of one voice: half the points times the logarithms of the determinants, less the price of a cloud."""
    noise = np.random.default_rng(1)
    one, other = noise.normal(0, 1, (400, 3)), noise.normal(0, 1, (700, 3))
    clouds = Clouds.of([one, other])
    cost = joining_costs(clouds, 0)[1]
    every = np.concatenate([one, other])
    every = (every - every.mean(axis=0)) / every.std(axis=0)
    spreads = [np.linalg.slogdet(np.cov(part.T, bias=True))[1] for part in (every, every[:400], every[400:])]
    price = 0.5 * (3 + 6) * np.log(1_100)
    assert list(joined(clouds)) == [[[0], [1]]]
    assert cost == pytest.approx(0.5 * (1_100 * spreads[0] - 400 * spreads[1] - 700 * spreads[2]) - price, abs=1.5)


def test_a_line_left_out_is_judged_by_the_others() -> None:
    """Just as by a distribution of those others alone; one that is alone in its voice is judged by nobody."""
    noise = np.random.default_rng(4)
    clouds = Clouds.of([noise.normal(at, 1, (200 + at, 3)) for at in range(4)])
    found = clouds.likely_of_others(np.array([0, 0, 0, 1]))
    assert found[1] == pytest.approx(clouds.likely_of(np.array([True, False, True, False]))[1])
    assert found[3] < -1e9


def test_cepstra_tell_colour_and_not_loudness() -> None:
    """The same sound ten times as loud has the same rows, 20 dB up; another colour has others."""
    noise = np.random.default_rng(2).normal(0, 0.03, RATE).astype(np.float32)
    (soft, low), (loud, high) = cepstra(noise), cepstra(noise * 10)
    assert soft.shape == (98, COUNT)
    assert np.abs(soft - loud).max() < 0.01
    assert high - low == pytest.approx(20, abs=0.1)
    dull = np.convolve(noise, np.ones(8) / 8, "same").astype(np.float32)
    assert np.abs(cepstra(dull)[0].mean(axis=0) - soft.mean(axis=0)).max() > 1


@pytest.fixture(scope="module")
def spoken(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[tuple[Span, str]]]:
    """The beginning of an interview, and who says which stretch."""
    path = tmp_path_factory.mktemp("voices") / "voices.wav"
    cut(INTERVIEW / "audio.webm", path, Span(0, LENGTH_MS))
    every = parse_webvtt((INTERVIEW / "transcript.vtt").read_text("utf-8"), "transcript.vtt", FaultList())
    return path, [(Span(cue.start_ms, cue.end_ms), cue.speaker) for cue in every if cue.end_ms < LENGTH_MS]


def test_two_voices_of_an_interview(spoken: tuple[Path, list[tuple[Span, str]]]) -> None:
    """Every line goes to who says it; the lines of one alone are one voice."""
    path, lines = spoken
    turns = tell_apart(path, [span for span, _who in lines])
    assert turns.count == 2
    pairs = {(told.voice, who) for told, (_span, who) in zip(turns.ways[2], lines, strict=True)}
    assert len(pairs) == 2, pairs
    narrator = [span for span, who in lines if who == "P-04"]
    assert len(narrator) < len(lines)
    assert tell_apart(path, narrator).count == 1
