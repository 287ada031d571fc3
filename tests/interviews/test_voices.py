"""Voices named once, and written beside all that they say."""

from __future__ import annotations

from archive.interviews.transcripts.lines import Line
from archive.interviews.voices import Called, named, samples_of
from archive.values.timecode import Span

LINES = [
    Line(0, 3_000, "", "", "Who taught you?"),
    Line(3_000, 4_000, "", "", "My aunt."),
    Line(4_000, 20_000, "P-1", "", "She had the bench by the door."),
    Line(20_000, 25_000, "", "", "And then?"),
]
VOICES = [0, 1, 1, 0]


def test_a_speaker_who_is_there_stays() -> None:
    """Unless it is said that those may be named anew."""
    names = {0: Called("P-3"), 1: Called("", "A neighbour")}
    assert [(line.speaker, line.label) for line in named(LINES, VOICES, names, over=False)] == [
        ("P-3", ""),
        ("", "A neighbour"),
        ("P-1", ""),
        ("P-3", ""),
    ]
    assert named(LINES, VOICES, names, over=True)[2].label == "A neighbour"


def test_a_voice_that_is_not_named_leaves_its_lines() -> None:
    """With the speaker that they had, named anew or not; and the words are as they were."""
    found = named(LINES, VOICES, {0: Called("P-3"), 1: Called()}, over=True)
    assert [line.speaker for line in found] == ["P-3", "", "P-1", "P-3"]
    assert [line.text for line in found] == [line.text for line in LINES]


def test_samples_are_some_seconds_and_never_closed() -> None:
    """The surest long lines in order of time; short ones only where there is nothing else."""
    sure = [0.5, 0.9, 0.8, 0.9]
    assert samples_of(LINES, sure, [1, 2], []) == [Span(3_000, 4_000), Span(4_000, 12_000)]
    assert samples_of(LINES, sure, [0, 3], [Span(2_000, 2_500)]) == [Span(20_000, 25_000)]
    assert samples_of(LINES, sure, [], []) == []
